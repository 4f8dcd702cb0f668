package limits

import (
	"math"
	"math/cmplx"
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Gauge measures the quantities of a driveline that are judged. It is made once
// for a Survey and then measures any driveline with the same joints, as often as
// wanted and without allocating. It is for one goroutine at a time; Clone it for
// another.
type Gauge struct {
	Judged  []Judged // in the order of survey.LimitNames
	Shown   []Shown  // every quantity, limited or not, for sweeps
	Roles   Roles
	Set     Set      // with what the file overrides or switches off
	RPM     float64  // speed at which it judges; 0: not given
	LeftOut []string // quantities not judged, or not wholly, for want of a speed

	layout layout
	loads  loads
	parts  []part       // what is measured, each once; what is judged comes first
	judged int          // how many parts that is
	vector []complex128 // of the parts
	state  state
}

// Judged is one quantity and the limit it is judged by.
type Judged struct {
	Subject string // name of the joint, joints or shaft
	Joints  []int  // that decide the quantity; nil: the whole line
	Limit   Limit

	measured
}

// Shown is a quantity of one part of a driveline, and the limits on it.
type Shown struct {
	Subject         string  // name of the joint, joints or shaft
	AtMost, AtLeast float64 // the tightest at the gauge's speed; NaN: none

	measured
}

// measured says which quantity is measured on which part.
type measured struct {
	*Quantity
	column int // of the part among the gauge's
}

// NewGauge returns the gauge of a driveline at its own speed. It fails with what
// survey.Survey.Validate says of one that is not valid.
func NewGauge(s *survey.Survey) (*Gauge, error) {
	return newGauge(s.Complete(), s.ShaftRPM(), nil)
}

// newGauge returns the gauge of a complete driveline at a speed in rpm. The roles
// of its joints, nil, are found from the driveline.
func newGauge(s *survey.Survey, rpm float64, roles *Roles) (*Gauge, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	set, err := Of(s)
	if err != nil {
		return nil, err
	}
	if roles == nil {
		found, err := rolesOf(s, set)
		if err != nil {
			return nil, err
		}
		roles = &found
	}
	g := &Gauge{Roles: *roles, Set: set, RPM: rpm, layout: layout{s, *roles}, loads: loadsOf(s)}
	for _, limit := range g.Set.Limits(rpm) {
		g.judge(limit)
	}
	if rpm == 0 {
		g.LeftOut = g.Set.needSpeed()
	}
	for _, q := range quantities {
		g.show(q)
	}
	return g, nil
}

// Clone returns a gauge of the same quantities for another goroutine.
func (g *Gauge) Clone() *Gauge {
	c := *g
	c.vector, c.state = nil, state{}
	return &c
}

// Measure returns the exact value of every quantity of g.Judged, in the unit of
// its limit. The values are appended to dst[:0]; dst may be nil. The driveline
// must have the joints of the Survey that the gauge was made for.
func (g *Gauge) Measure(d *kinematics.Driveline, dst []float64) []float64 {
	g.measure(d, g.parts[:g.judged])
	dst = dst[:0]
	for _, j := range g.Judged {
		dst = append(dst, g.value(j.measured))
	}
	return dst
}

// Show is Measure for every quantity of g.Shown. Without a speed, those that need one
// are 0.
func (g *Gauge) Show(d *kinematics.Driveline, dst []float64) []float64 {
	g.measure(d, g.parts)
	dst = dst[:0]
	for _, s := range g.Shown {
		dst = append(dst, g.value(s.measured))
	}
	return dst
}

// ShowOnly leaves out of g.Shown all that is not kept, so that it takes no time.
func (g *Gauge) ShowOnly(keep func(Shown) bool) {
	all, parts := g.Shown, g.parts
	g.Shown, g.parts = nil, slices.Clip(parts[:g.judged])
	for _, s := range all {
		if keep(s) {
			s.measured = g.measured(s.Quantity, parts[s.column])
			g.Shown = append(g.Shown, s)
		}
	}
}

// measure measures parts.
func (g *Gauge) measure(d *kinematics.Driveline, parts []part) {
	g.state.set(d, parts, g.loads)
	g.vector = g.vector[:0]
	for _, p := range parts {
		g.vector = append(g.vector, g.vectorOf(p))
	}
}

func (g *Gauge) value(m measured) float64 { return m.scale(cmplx.Abs(g.vector[m.column]), g.RPM) }

// judge appends what a limit applies to.
func (g *Gauge) judge(limit Limit) {
	for _, p := range kindOf(limit.Name).parts(g.layout) {
		g.judgePart(limit, p)
	}
}

func (g *Gauge) judgePart(limit Limit, p part) {
	subject, joints := g.layout.about(p)
	g.Judged = append(g.Judged, Judged{subject, joints, limit, g.measured(kindOf(limit.Name).Quantity, p)})
	if p.of == matching { // what it may be depends on whether one of them is straight
		for _, k := range joints {
			g.column(part{bend, k})
		}
	}
	g.judged = len(g.parts)
}

// show appends the parts that a quantity is shown of.
func (g *Gauge) show(q *Quantity) {
	for _, p := range q.shown(g.layout) {
		subject, _ := g.layout.about(p)
		s := Shown{subject, math.NaN(), math.NaN(), g.measured(q, p)}
		for _, j := range g.Judged {
			switch {
			case j.measured != s.measured:
			case j.Limit.Sense == AtMost && !(j.Limit.Value >= s.AtMost):
				s.AtMost = j.Limit.Value
			case j.Limit.Sense == AtLeast && !(j.Limit.Value <= s.AtLeast):
				s.AtLeast = j.Limit.Value
			}
		}
		g.Shown = append(g.Shown, s)
	}
}

func (g *Gauge) measured(q *Quantity, p part) measured { return measured{q, g.column(p)} }

// column returns where a part is among the gauge's, and adds it unless it is there.
func (g *Gauge) column(p part) int {
	column := slices.Index(g.parts, p)
	if column < 0 {
		column = len(g.parts)
		g.parts = append(g.parts, p)
	}
	return column
}
