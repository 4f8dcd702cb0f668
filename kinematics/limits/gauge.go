package limits

import (
	"math"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Gauge measures the quantities of a driveline that are judged. It is made once
// for a Survey and then measures any driveline with the same joints, as often as
// wanted and without allocating. It is for one goroutine at a time; Clone it for
// another.
type Gauge struct {
	Judged  []Judged
	Roles   Roles
	Set     Set      // with what the file overrides or switches off
	RPM     float64  // speed at which it judges; 0: not given
	LeftOut []string // quantities not judged, or not wholly, for want of a speed

	state    state
	coasting bool // whether anything judged needs it
}

// Judged is one quantity and the limit it is judged by.
type Judged struct {
	Subject string // name of the joint, joints or shaft
	Limit   Limit

	measure func(*state) float64
}

// state is what the quantities of one driveline are read from.
type state struct {
	d                 *kinematics.Driveline
	angles            []float64 // working angles in deg
	driving, coasting []kinematics.Motion
	rpm, omega2       float64 // ω² of the driving shaft in rad²/s²
}

// NewGauge returns the gauge of a driveline at its own speed. It fails with what
// survey.Survey.Validate says of one that is not valid.
func NewGauge(s *survey.Survey) (*Gauge, error) { return newGauge(s.Complete(), s.ShaftRPM()) }

// newGauge returns the gauge of a complete driveline at a speed in rpm.
func newGauge(s *survey.Survey, rpm float64) (*Gauge, error) {
	g, err := emptyGauge(s, rpm)
	if err != nil {
		return nil, err
	}
	for _, limit := range g.Set.Limits(rpm) {
		g.add(s, limit)
	}
	if rpm == 0 {
		g.LeftOut = g.Set.needSpeed()
	}
	return g, nil
}

// emptyGauge returns a gauge that judges nothing yet.
func emptyGauge(s *survey.Survey, rpm float64) (*Gauge, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	set, err := Of(s)
	if err != nil {
		return nil, err
	}
	omega := rpm * kinematics.RPM
	return &Gauge{
		Roles: RolesOf(s), Set: set, RPM: rpm,
		state: state{angles: make([]float64, len(s.Joints)), rpm: rpm, omega2: omega * omega},
	}, nil
}

// Clone returns a gauge of the same quantities for another goroutine.
func (g *Gauge) Clone() *Gauge {
	c := *g
	c.state.angles = make([]float64, len(g.state.angles))
	c.state.driving, c.state.coasting = nil, nil
	return &c
}

// Measure returns the exact value of every quantity of g.Judged, in the unit of
// its limit. The values are appended to dst[:0]; dst may be nil. The driveline
// must have the joints of the Survey that the gauge was made for.
func (g *Gauge) Measure(d *kinematics.Driveline, dst []float64) []float64 {
	s := &g.state
	s.d = d
	for k := range s.angles {
		s.angles[k] = d.WorkingAngle(k) / kinematics.Degree
	}
	s.driving = d.Driving(s.driving)
	if g.coasting {
		s.coasting = d.Coasting(s.coasting)
	}
	dst = dst[:0]
	for _, j := range g.Judged {
		dst = append(dst, j.measure(s))
	}
	return dst
}

// add appends what a limit applies to.
func (g *Gauge) add(s *survey.Survey, limit Limit) {
	judge := func(subject string, measure func(*state) float64) {
		g.Judged = append(g.Judged, Judged{subject, limit, measure})
	}
	eachJoint := func(joints []int, measure func(*state, int) float64) {
		for _, k := range joints {
			judge(s.Joints[k].Name, func(t *state) float64 { return measure(t, k) })
		}
	}
	eachInner := func(measure func(*state, int) float64) {
		for k := 1; k < len(s.Shafts)-1; k++ {
			judge(s.Shafts[k].Name, func(t *state) float64 { return measure(t, k) })
		}
	}
	left := func(measure func(*state, kinematics.Motion) float64) {
		last := len(s.Shafts) - 1
		judge(s.Shafts[last].Name, func(t *state) float64 { return measure(t, t.driving[last]) })
		if last > 1 {
			eachJoint(ofKind(s, kinematics.DoubleCardan), func(t *state, k int) float64 {
				return measure(t, t.d.ByItself(k))
			})
		}
	}
	switch limit.Name {
	case survey.LimitCompanionDifference:
		for _, pair := range g.Roles.Pairs {
			judge(s.Joints[pair[0]].Name+" and "+s.Joints[pair[1]].Name, func(t *state) float64 {
				return math.Abs(t.angles[pair[1]] - t.angles[pair[0]])
			})
		}
	case survey.LimitOddJointMax, survey.LimitOddJointMin:
		eachJoint(g.Roles.Odd, workingAngle)
	case survey.LimitWorkingAngleMin, survey.LimitWorkingAngleMax:
		eachJoint(ofKind(s, kinematics.Cardan), workingAngle)
	case survey.LimitConstantVelocityMax:
		eachJoint(ofKind(s, kinematics.ConstantVelocity), workingAngle)
	case survey.LimitDoubleCardanMax:
		eachJoint(ofKind(s, kinematics.DoubleCardan), workingAngle)
	case survey.LimitSpeedAngle:
		eachJoint(ofKind(s, kinematics.Cardan), func(t *state, k int) float64 { return t.rpm * t.angles[k] })
	case survey.LimitResidualAccel:
		left(func(t *state, m kinematics.Motion) float64 { return t.omega2 * m.PeakAccel() })
	case survey.LimitEquivalentAngle:
		left(func(_ *state, m kinematics.Motion) float64 { return m.Angle() / kinematics.Degree })
	case survey.LimitNonuniformity:
		left(func(_ *state, m kinematics.Motion) float64 { return m.Nonuniformity() })
	case survey.LimitInertiaDriveAccel:
		eachInner(func(t *state, k int) float64 { return t.omega2 * t.driving[k].PeakAccel() })
	case survey.LimitInertiaCoastAccel:
		g.coasting = true
		eachInner(func(t *state, k int) float64 { return t.omega2 * t.coasting[k].PeakAccel() })
	}
}

func workingAngle(t *state, k int) float64 { return t.angles[k] }

// ofKind returns the joints of a kind.
func ofKind(s *survey.Survey, kind kinematics.Kind) []int {
	var joints []int
	for k, j := range s.Joints {
		if j.Kind == kind {
			joints = append(joints, k)
		}
	}
	return joints
}
