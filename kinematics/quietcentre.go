package kinematics

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// QuietCentre is the place of the centre joint of a two-piece driveline at which
// torque does not shake the centre bearing, and what it costs at the last shaft.
// The place alone is no advice: the last shaft hardly ever turns evenly there.
type QuietCentre struct {
	// Right and Down are how far the joint has to move from where it is, in the unit
	// of the lengths.
	Right, Down float64
	// Swing is what is left of that of the force on the bearing: as much less as the
	// squares of the angles.
	Swing float64
	Left  Motion // of the last shaft there
}

// QuietCentre returns that place for two shafts between three joints, one of them
// with a centre bearing, when torque acts on the first shaft. The joints at the ends
// stay where they are, the centre joint moves sideways and up or down only, and the
// bearing keeps its part of the length of its shaft. To first order in the angles,
// yokes in phase and lengths L₁ and L₂, the way is
//
//	½·(L₂·(u₃ − u₁) + L₁·(u₄ − u₂))
//
// Newton's method finds where the part of the swing that turns forward is nothing.
// ok is false where there is no such place: another driveline, supports that leave
// the forces open, joints that shake nothing wherever they are, or a place farther
// away than half of the shorter shaft. Derived here; no source.
func (d *Driveline) QuietCentre(torque float64, supports []Support) (place QuietCentre, ok bool) {
	if _, err := d.freeShaft(supports); err != nil || len(d.shafts) != 4 {
		return QuietCentre{}, false
	}
	farthest := min(supports[1].Length, supports[2].Length) / 2
	step := 1e-6 * farthest // for the slopes, which hardly change
	var way complex128      // right + j·down
	for range 20 {
		here, err := d.centreMoved(supports, way)
		right, err1 := d.centreMoved(supports, way+complex(step, 0))
		down, err2 := d.centreMoved(supports, way+complex(0, step))
		if err != nil || err1 != nil || err2 != nil {
			return QuietCentre{}, false
		}
		change, found := solve(right.forward-here.forward, down.forward-here.forward, -here.forward)
		change *= complex(step, 0)
		way += change
		if !found || math.Hypot(real(way), imag(way)) > farthest {
			return QuietCentre{}, false
		}
		if math.Hypot(real(change), imag(change)) < step {
			there, err := d.centreMoved(supports, way)
			if err != nil {
				return QuietCentre{}, false
			}
			swing := math.Abs(torque) * there.swing
			return QuietCentre{real(way), imag(way), swing, there.left}, true
		}
	}
	return QuietCentre{}, false
}

// solve returns the complex number x with real(x)·a + imag(x)·b = c.
func solve(a, b, c complex128) (x complex128, ok bool) {
	det := real(a)*imag(b) - imag(a)*real(b)
	if det == 0 {
		return 0, false
	}
	return complex((real(c)*imag(b)-imag(c)*real(b))/det, (real(a)*imag(c)-imag(a)*real(c))/det), true
}

// centred is what a torque of 1 does with the centre joint in another place.
type centred struct {
	forward complex128 // of the swing of the bearing, across its shaft
	swing   float64
	left    Motion // of the last shaft
}

// centreMoved moves the centre joint to the right and down by the real and the
// imaginary part of way.
func (d *Driveline) centreMoved(supports []Support, way complex128) (centred, error) {
	shafts, held := d.Shafts(), slices.Clone(supports)
	move := r3.Vec{Y: -real(way), Z: -imag(way)}
	for k := 1; k <= 2; k++ {
		shafts[k].Axis = r3.Add(r3.Scale(supports[k].Length, r3.Unit(shafts[k].Axis)), move)
		held[k] = supports[k].Stretched(r3.Norm(shafts[k].Axis))
		move = r3.Scale(-1, move)
	}
	moved, err := New(shafts, d.joints)
	if err != nil {
		return centred{}, err
	}
	forces, err := moved.Forces(1, held)
	if err != nil {
		return centred{}, err
	}
	b := forces.Bearings[0]
	e := moved.frames[b.Shaft]
	side := r3.Cross(moved.bends[b.Shaft].axis, e)
	across := func(v r3.Vec) complex128 { return complex(r3.Dot(v, e), r3.Dot(v, side)) }
	return centred{
		forward: (across(b.Force.Cos) - 1i*across(b.Force.Sin)) / 2,
		swing:   b.Force.Swing(),
		left:    newMotion(moved.chainTurns[3]),
	}, nil
}
