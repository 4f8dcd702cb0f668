package limits

import (
	"fmt"
	"slices"

	"halfturn/kinematics"
)

// part is what a quantity is measured on.
type part struct {
	of     vector
	number int // of the joint, the shaft or the companions
}

// vector says which vector of a part is measured.
type vector int

const (
	bend     vector = iota // of a joint: its working angle in the direction of its plane, rad
	matching               // of companions: what their terms leave over the sum of their angles, rad
	driving                // of a shaft, driving: the second order of its lead
	coasting               // of a shaft, coasting: the same
	byItself               // of a joint, if it were the only one: the same behind it
	sum                    // of the whole line: its second-order sum, rad²
	swinging               // of a shaft with a centre bearing: the swing of the force on that, N
)

// about names a part and the joints that decide it, nil for the whole line.
func (l layout) about(p part) (subject string, joints []int) {
	switch p.of {
	case bend, byItself:
		return l.Joints[p.number].Name, []int{p.number}
	case matching:
		joints = l.Companions[p.number]
		var names []string
		for _, k := range joints {
			names = append(names, l.Joints[k].Name)
		}
		return Listed(names), joints
	case driving, coasting, swinging:
		return l.Shafts[p.number].Name, nil
	case sum:
		return l.Shafts[len(l.Shafts)-1].Name, nil
	default:
		panic(fmt.Sprintf("limits: nothing says what part %d is about", p.of))
	}
}

// vectorOf returns the vector of a part of the driveline that the state is set to.
func (g *Gauge) vectorOf(p part) complex128 {
	s := &g.state
	switch p.of {
	case bend:
		return s.d.BendVector(p.number)
	case matching:
		return s.left(g.Roles.Companions[p.number])
	case driving:
		return s.driving[p.number].Vector()
	case coasting:
		return s.coasting[p.number].Vector()
	case byItself:
		return s.d.ByItself(p.number).Vector()
	case swinging:
		return s.swings[slices.Index(g.loads.held, p.number)]
	case sum:
		total := complex(0, 0)
		for _, term := range s.terms {
			total += term
		}
		return total
	default:
		panic(fmt.Sprintf("limits: nothing measures part %d", p.of))
	}
}

// state is what the vectors of one driveline are read from.
type state struct {
	d                 *kinematics.Driveline
	terms             []complex128
	driving, coasting []kinematics.Motion
	swings            []complex128 // of the centre bearings
}

// set reads what the parts need off the driveline.
func (s *state) set(d *kinematics.Driveline, parts []part, l loads) {
	s.d = d
	s.terms, s.driving, s.coasting, s.swings = s.terms[:0], s.driving[:0], s.coasting[:0], s.swings[:0]
	for _, p := range parts {
		switch {
		case (p.of == matching || p.of == sum) && len(s.terms) == 0:
			s.terms = d.Terms(s.terms)
		case p.of == driving && len(s.driving) == 0:
			s.driving = d.Driving(s.driving)
		case p.of == coasting && len(s.coasting) == 0:
			s.coasting = d.Coasting(s.coasting)
		case p.of == swinging && len(s.swings) == 0:
			s.swings = l.swings(d, s.swings)
		}
	}
}

// left returns the mismatch of companion joints as a vector,
//
//	Σ β² e^{2jΦ} / Σ β
//
// in radians: |β₁ − β₂| long for two joints with yokes in phase and shafts in one
// plane, which is the difference that shop rules speak of. Straight companions
// leave nothing.
func (s *state) left(companions []int) complex128 {
	left, angles := complex(0, 0), 0.0
	for _, k := range companions {
		left += s.terms[k]
		angles += s.d.WorkingAngle(k)
	}
	if angles == 0 {
		return 0
	}
	return left / complex(angles, 0)
}

// whatever returns the least and the greatest mismatch of companions, in radians,
// that any phases between them could make.
func (s *state) whatever(companions []int) (least, greatest float64) {
	squares, angles, most := 0.0, 0.0, 0.0
	for _, k := range companions {
		beta := s.d.WorkingAngle(k)
		squares, angles, most = squares+beta*beta, angles+beta, max(most, beta*beta)
	}
	if angles == 0 {
		return 0, 0
	}
	return max(0, 2*most-squares) / angles, squares / angles
}
