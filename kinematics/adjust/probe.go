package adjust

import (
	"math"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// probe reads a survey with its variables set to one value after the other. It
// is for one goroutine at a time.
type probe struct {
	survey    *survey.Survey // a copy to set the fields in
	variables []Variable
	settings  []setting // of the variables that are changes
	meters    []meter
	scales    map[float64]*scale // by speed in rpm
	moment    moment
	shafts    []kinematics.Shaft
}

func newProbe(s *survey.Survey, meters []meter, variables []Variable) (*probe, error) {
	d, err := s.Driveline()
	if err != nil {
		return nil, err
	}
	p := &probe{
		survey:    s.Complete(),
		variables: variables,
		meters:    meters,
		scales:    make(map[float64]*scale),
		moment:    moment{d: d},
		shafts:    make([]kinematics.Shaft, d.Len()),
	}
	for _, v := range variables {
		if v.field == nil {
			c, err := newChange(s, newGeometry(s), v.change)
			if err != nil {
				return nil, err
			}
			p.settings = append(p.settings, setting{change: c})
		}
	}
	return p, nil
}

// read puts what it reads with the variables at the given values into the series
// at an index.
func (p *probe) read(values []float64, series []Series, index int) error {
	changes := 0
	for i, v := range p.variables {
		if v.field != nil {
			v.field.set(p.survey, v.part, values[i])
		} else {
			p.settings[changes].value = values[i]
			changes++
		}
	}
	scale, err := p.scale()
	if err != nil {
		return err
	}
	newGeometry(p.survey).moved(p.shafts, p.settings)
	sound := p.moment.set(p.shafts, scale) == nil
	for i := range p.meters {
		series[i].AtMost[index], series[i].AtLeast[index] = scale.atMost[i], scale.atLeast[i]
		series[i].Values[index] = math.NaN()
		if sound {
			series[i].Values[index] = p.meters[i].read(&p.moment)
		}
	}
	return nil
}

// scale returns the scale at the speed of the survey.
func (p *probe) scale() (*scale, error) {
	rpm := p.survey.ShaftRPM()
	if p.scales[rpm] == nil {
		c, err := newScale(p.survey, p.meters)
		if err != nil {
			return nil, err
		}
		p.scales[rpm] = c
	}
	return p.scales[rpm], nil
}

// still reads surveys of the same driveline as they are, the first as measured.
func still(meters []meter, surveys ...*survey.Survey) ([]Series, error) {
	series := newSeries(meters, len(surveys))
	for k, s := range surveys {
		p, err := newProbe(s, meters, nil)
		if err != nil {
			return nil, err
		}
		if err := p.read(nil, series, k); err != nil {
			return nil, err
		}
	}
	for i := range series {
		series[i].close(series[i].Values[0])
	}
	return series, nil
}
