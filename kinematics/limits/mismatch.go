package limits

import (
	"math"
	"math/cmplx"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Mismatch is how far companions are from cancelling, and why. Angles are in deg.
type Mismatch struct {
	Joints []int     // by their index, in the order of the power flow
	Angles []float64 // working angles of the joints
	Size   float64   // what is limited: the length of their vectors' sum over the sum of their angles

	// The rest is of two joints only.

	Unequal float64 // how much the second works at more than the first
	// Off is how far, as a phase within (−90, 90], the yokes between them stand
	// clockwise of where the two would cancel best; OffError what the readings may make
	// of that. The phases between them add up to Phase, within (−90, 90], of which
	// Twist would make up for how their planes are twisted.
	Off, OffError, Phase, Twist float64
	// Unknown is whether a phase between them, across a constant-velocity joint, was
	// not entered, so that nobody can tell Off.
	Unknown bool
}

// ByEye is how far off a yoke may be that is set by eye, in deg: common practice, no
// source.
const ByEye = 5

// OutOfPhase reports whether the yokes are turned from where they should be by more
// than eye and readings explain. Yokes in line whose joints lie in twisted planes are
// not out of phase.
func (m *Mismatch) OutOfPhase() bool {
	far := func(deg float64) bool { return math.Abs(deg) > ByEye+m.OffError }
	return len(m.Joints) == 2 && !m.Unknown && far(m.Off) && far(m.Phase)
}

// mismatches returns the mismatch of every pair and group.
func mismatches(s *survey.Survey, d *kinematics.Driveline, r Roles) []Mismatch {
	var list []Mismatch
	st := &state{d: d, terms: d.Terms(nil)}
	for _, joints := range r.Companions {
		m := Mismatch{Joints: joints, Size: cmplx.Abs(st.left(joints)) / kinematics.Degree}
		for _, k := range joints {
			m.Angles = append(m.Angles, d.WorkingAngle(k)/kinematics.Degree)
		}
		if len(joints) == 2 {
			m.explain(s, st.terms, r)
		}
		list = append(list, m)
	}
	return list
}

// explain says why two joints do not cancel.
func (m *Mismatch) explain(s *survey.Survey, terms []complex128, r Roles) {
	first, second := m.Joints[0], m.Joints[1]
	m.Unequal = m.Angles[1] - m.Angles[0]
	for i := first + 1; i <= second; i++ {
		m.Phase += s.Shafts[i].PhaseDeg.Mean()
		m.OffError += s.PhaseErrorDeg
		m.Unknown = m.Unknown || s.Shafts[i].PhaseDeg == nil && r.phaseMatters(s, i)
	}
	if m.Angles[0] == 0 || m.Angles[1] == 0 {
		return // a straight joint has no plane
	}
	// A term turns twice as fast as its yoke.
	m.Off = cmplx.Phase(-terms[second]*cmplx.Conj(terms[first])) / 2 / kinematics.Degree
	m.Twist = halfTurned(m.Phase - m.Off)
	m.Phase = halfTurned(m.Phase)
	for n, k := range m.Joints {
		m.OffError += planeError(s, k, m.Angles[n])
	}
}

// planeError returns by how much the readings may turn the plane of a joint of the
// given angle: not at all where no heading is measured, so that all shafts are taken
// to lie in one plane.
func planeError(s *survey.Survey, k int, angle float64) float64 {
	sideways := s.Positioned()
	for _, sh := range s.Shafts[k : k+2] {
		sideways = sideways || sh.Heading.Entered()
	}
	if !sideways {
		return 0
	}
	return math.Asin(min(1, math.Sqrt2*s.ReadingErrorDeg/angle)) / kinematics.Degree
}

// halfTurned brings a phase into (−90, 90], where half a turn is none.
func halfTurned(deg float64) float64 {
	if deg = math.Remainder(deg, 180); deg <= -90 {
		deg += 180
	}
	return deg + 0 // no minus zero
}
