package adjust

import (
	"fmt"
	"math"
	"slices"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// probe reads a survey with its variables set to one value after the other. It
// is for one goroutine at a time.
type probe struct {
	*evaluated
	measured   *survey.Survey // without what is varied
	quantities []Quantity
	variables  []Variable
	settings   []setting                 // of the variables that are changes
	gauges     map[float64]*limits.Gauge // by speed in rpm
	columns    []int                     // of the quantities among what they show; −1: the margin
	shown      []float64
}

func newProbe(s *survey.Survey, quantities []Quantity, variables []Variable) (*probe, error) {
	e, err := newEvaluator(inPoses(s.Complete(), nil)) // a copy to set the fields in
	if err != nil {
		return nil, err
	}
	p := &probe{evaluated: e[0], measured: s, quantities: quantities, variables: variables, gauges: make(map[float64]*limits.Gauge)}
	if err := p.setSpeed(); err != nil {
		return nil, err
	}
	for _, q := range quantities {
		column := slices.IndexFunc(p.gauge.Shown, q.is)
		if column < 0 && q.Key != KeyMargin {
			return nil, fmt.Errorf("quantity %q: want one of ParseQuantities", q.Column())
		}
		p.columns = append(p.columns, column)
	}
	for _, v := range variables {
		if v.field == nil {
			c, err := newChange(s, p.geometry, v.change)
			if err != nil {
				return nil, err
			}
			p.settings = append(p.settings, setting{change: c})
		}
	}
	return p, nil
}

// read puts what it reads with the variables at the given values into the series
// at an index: NaN where there is no driveline, or no speed that the quantity needs.
func (p *probe) read(values [2]float64, series []Series, index int) error {
	changes := 0
	for i, v := range p.variables {
		if v.field != nil {
			v.field.set(p.survey, v.part, values[i])
		} else {
			p.settings[changes].value = values[i]
			changes++
		}
	}
	if err := p.setSpeed(); err != nil {
		return err
	}
	p.geometry.read(p.survey)
	p.geometry.moved(p.shafts, p.settings)
	sound := p.d.Set(p.shafts) == nil
	if sound {
		p.hold(p.gauge)
		p.shown = p.gauge.Show(p.d, p.shown)
	}
	for i, column := range p.columns {
		s := &series[i]
		switch {
		case !sound, column >= 0 && p.unknownSpeed() && p.gauge.Shown[column].NeedsSpeed():
			s.Values[index] = math.NaN()
		case column < 0:
			s.Values[index] = p.margin()
		default:
			s.Values[index] = p.shown[column]
		}
		if len(s.AtMost) > 0 {
			s.AtMost[index], s.AtLeast[index] = p.bounds(column)
		}
	}
	return nil
}

// unknownSpeed reports whether the driveline has no speed and is given none.
func (p *probe) unknownSpeed() bool {
	return p.measured.ShaftRPM() == 0 && !slices.ContainsFunc(p.variables, func(v Variable) bool { return v.field == &speed })
}

// setSpeed takes the gauge at the speed of the survey. Which joints are companions
// is as measured.
func (p *probe) setSpeed() error {
	rpm := p.survey.ShaftRPM()
	if p.gauges[rpm] == nil {
		s := p.measured.Complete()
		if rpm > 0 {
			s.SetRPM(rpm)
		}
		g, err := limits.NewGauge(s)
		if err != nil {
			return err
		}
		g.ShowOnly(func(s limits.Shown) bool {
			return slices.ContainsFunc(p.quantities, func(q Quantity) bool { return q.is(s) })
		})
		p.gauges[rpm] = g
	}
	p.gauge = p.gauges[rpm]
	return nil
}

// margin returns the least margin of what is judged; NaN where nothing is.
func (p *probe) margin() float64 {
	least := math.NaN()
	p.values = p.gauge.Measure(p.d, p.values)
	for k, v := range p.values {
		if here := p.gauge.Judged[k].Limit.Margin(v); !(here >= least) {
			least = here
		}
	}
	return least
}

// bounds returns the limits on a column, NaN for none.
func (p *probe) bounds(column int) (atMost, atLeast float64) {
	switch {
	case column >= 0:
		return p.gauge.Shown[column].AtMost, p.gauge.Shown[column].AtLeast
	case len(p.gauge.Judged) > 0:
		return math.NaN(), 0
	default:
		return math.NaN(), math.NaN()
	}
}
