package limits

import (
	"cmp"

	"halfturn/kinematics/survey"
)

// Curve is something that depends on speed.
type Curve struct {
	RPM, Value []float64
	Basis      string // who says so; "" for what is computed
}

// Marked is a quantity of the driveline as measured, with its coverage interval.
type Marked struct {
	Subject          string
	Value, Low, High float64
}

// AngleFigure is the allowed working angle against speed, with the joints of the
// driveline on it. All angles are in deg.
type AngleFigure struct {
	Allowed Curve   // the tightest that the set allows; empty where it has no limit
	Printed []Curve // every printed limit for the work of the set
	Joints  []Marked
	RPM     float64 // of the driveline; 0: not given
}

// ResidualFigure is the torsional acceleration left at the last shaft against
// speed, in rad/s².
type ResidualFigure struct {
	Accel, Low, High Curve   // as measured and the ends of its coverage interval
	Limit            Limit   // of the set; Value 0: none
	CrossingRPM      float64 // where Accel reaches the limit; 0: at no speed
	Now              Marked  // at RPM
	RPM              float64 // of the driveline; 0: not given
}

// figurePoints is the number of speeds of a curve.
const figurePoints = 241

// NewAngleFigure returns the figure for a valid driveline up to a speed in rpm
// above 0.
func NewAngleFigure(s *survey.Survey, top float64) (*AngleFigure, error) {
	s = s.Complete()
	name := survey.LimitWorkingAngleMax
	g, marked, err := mark(s, s.ShaftRPM(), top, name)
	if err != nil {
		return nil, err
	}
	f := &AngleFigure{Joints: marked, RPM: g.RPM}
	f.Allowed = curve(top, func(rpm float64) (float64, bool) {
		l, ok := g.Set.limit(name, rpm)
		return l.Value, ok
	})
	for _, p := range pertinent(g.Set.Name, name) {
		c := curve(top, p.bound.at)
		c.Basis = p.basis()
		f.Printed = append(f.Printed, c)
	}
	return f, nil
}

// NewResidualFigure returns the figure for a valid driveline up to a speed in rpm
// above 0.
func NewResidualFigure(s *survey.Survey, top float64) (*ResidualFigure, error) {
	s = s.Complete()
	name := survey.LimitResidualAccel
	reference := cmp.Or(s.ShaftRPM(), top)
	g, marked, err := mark(s, reference, top, name)
	if err != nil {
		return nil, err
	}
	now := marked[0] // the last shaft comes first
	f := &ResidualFigure{Now: now, RPM: s.ShaftRPM()}
	f.Limit, _ = g.Set.limit(name, reference)
	grows := func(v float64) Curve {
		return curve(top, func(rpm float64) (float64, bool) {
			return v * (rpm / reference) * (rpm / reference), true
		})
	}
	f.Accel, f.Low, f.High = grows(now.Value), grows(now.Low), grows(now.High)
	if f.Limit.Value > 0 {
		f.CrossingRPM, _, _ = g.crossing(f.Limit, now.Value)
	}
	if f.RPM == 0 {
		f.Now = Marked{}
	}
	return f, nil
}

// mark measures what the limit of the given name is about, at a speed in rpm. It
// refuses a figure whose top speed is none.
func mark(s *survey.Survey, rpm, top float64, name string) (*Gauge, []Marked, error) {
	if err := aboveZero("top speed", top, "rpm"); err != nil {
		return nil, nil, err
	}
	g, err := emptyGauge(s, rpm)
	if err != nil {
		return nil, nil, err
	}
	g.add(s, Limit{Name: name})
	_, spreads, err := propagate(s, g)
	if err != nil {
		return nil, nil, err
	}
	var marked []Marked
	for q, sp := range spreads {
		marked = append(marked, Marked{g.Judged[q].Subject, sp.Value, sp.Low, sp.High})
	}
	return g, marked, nil
}

// curve samples a function of the speed up to top, where it has a value.
func curve(top float64, at func(rpm float64) (float64, bool)) Curve {
	var c Curve
	for i := range figurePoints {
		rpm := top * float64(i) / (figurePoints - 1)
		if v, ok := at(rpm); ok {
			c.RPM = append(c.RPM, rpm)
			c.Value = append(c.Value, v)
		}
	}
	return c
}
