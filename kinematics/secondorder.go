package kinematics

import (
	"math"
	"math/cmplx"
)

// SecondOrder is the small-angle theory of the last shaft's fluctuation beside
// the exact result. To first order in β² the joints add like vectors:
//
//	Σ β_k² e^{2jΦ_k}
//
// where Φ_k is the azimuth of the driving yoke of joint k from the normal of
// its plane, at θ = 0, when every joint is straightened.
type SecondOrder struct {
	Terms []complex128 // of each joint, rad²; zero for a constant-velocity joint
	Sum   complex128   // of the terms, rad²
	// Equivalent is √|Sum|: the working angle, in radians, of the one joint
	// that would leave the same fluctuation, by the small-angle theory.
	Equivalent float64
	// Exact is the same by the exact motion: 2·atan √A with A the amplitude of
	// the second order of the last shaft's lead in radians.
	Exact float64
}

// SecondOrder returns the second-order sum of the driveline.
func (d *Driveline) SecondOrder() SecondOrder {
	s := SecondOrder{Terms: d.Terms(nil)}
	for _, term := range s.Terms {
		s.Sum += term
	}
	s.Equivalent = math.Sqrt(cmplx.Abs(s.Sum))
	s.Exact = newMotion(d.chainTurns[len(d.joints)]).Angle()
	return s
}

// Terms returns the terms of the second-order sum, one for each joint, in rad².
// They are appended to dst[:0]; dst may be nil.
func (d *Driveline) Terms(dst []complex128) []complex128 {
	dst = dst[:0]
	straight := complex(1, 0) // direction of the ears of the straightened chain
	for k := range d.joints {
		straight *= d.phaseTurns[k].a
		fromNormal := straight * cmplx.Conj(d.bends[k].azimuth)
		direction := fromNormal * fromNormal
		term := complex(0, 0)
		if size := d.rules[k].term(d.joints[k], d.bends[k].angle()); size != 0 { // no minus zero
			term = complex(size, 0) * direction
		}
		straight *= d.rules[k].straight
		dst = append(dst, term)
	}
	return dst
}

// BestPhase is the phase of one shaft that leaves the least fluctuation at the
// last shaft, everything else as it is.
type BestPhase struct {
	Phase float64 // rad, within (−π/2, π/2]
	Left  Motion  // of the last shaft at that phase
	// Matters is false when the fluctuation before or behind the shaft is below
	// NoiseFloor, so that no phase is better than another. Phase is then the
	// present one.
	Matters bool
}

// BestPhase returns the exact best phase of shaft k, counted from zero, which
// must stand between two joints. With z → a·z + b·z̄ the chain before the
// shaft's phase and z → p·z + q·z̄ the chain behind it, a phase ψ leaves
//
//	|p·b·e^{jψ} + q·ā·e^{−jψ}|
//
// at the last shaft, which is least when the two terms are opposite.
func (d *Driveline) BestPhase(k int) (BestPhase, error) {
	if k < 1 || k > len(d.shafts)-2 {
		return BestPhase{}, &RangeError{"shaft", float64(k), "", "a shaft between two joints"}
	}
	before, behind := d.chainTurns[k], identity
	for i := k; i < len(d.jointTurns); i++ {
		behind = behind.then(d.jointTurns[i]).then(d.phaseTurns[i+1])
	}
	best := BestPhase{Phase: halfTurn(d.shafts[k].Phase)}
	if before.fluctuation() >= NoiseFloor && behind.fluctuation() >= NoiseFloor {
		first, second := behind.a*before.b, behind.b*cmplx.Conj(before.a)
		best.Phase = halfTurn((cmplx.Phase(second) - cmplx.Phase(first) + math.Pi) / 2)
		best.Matters = true
	}
	best.Left = newMotion(before.then(phaseTurn(best.Phase)).then(behind))
	return best, nil
}

// fluctuation returns the second-order amplitude of the lead behind t, rad.
func (t turn) fluctuation() float64 { return cmplx.Abs(t.b) / cmplx.Abs(t.a) }
