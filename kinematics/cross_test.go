package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/num/hyperdual"
	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// The motion of a chain by nothing but its crosses: the ears of the two yokes of
// a joint stay square. Newton's method finds in space where the driven yoke then
// stands, and hyperdual numbers carry the derivatives along: no closed form, no
// plane of a joint, no transported frame.
func TestMotionOfCrosses(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		driving := mustNew(t, shafts, nil).Driving(nil)
		start := crossChain(shafts, 0)
		for range 4 {
			theta := rnd.Float64() * 2 * math.Pi
			for k, want := range crossChain(shafts, theta) {
				m := driving[k]
				got := m.At(theta)
				rotation := theta + got.Lead - m.At(0).Lead
				off := [3]float64{
					// Ears that have changed places look the same.
					math.Remainder(rotation-(want.Real-start[k].Real), math.Pi),
					(got.Ratio - want.E1mag) / m.MaxRatio(),
					(got.Accel - want.E1E2mag) / max(1, m.PeakAccel()),
				}
				// Behind a steep chain an error of θ grows with the ratio.
				tol := 2e-15 * m.MaxRatio() * float64(k+1)
				for i, what := range []string{"rotation", "speed ratio", "acceleration"} {
					if math.Abs(off[i]) > tol {
						t.Errorf("%s of shaft %d at %v rad is off by %v, want at most %.1e", what, k+1, theta, off[i], tol)
					}
				}
			}
		}
	})
}

// crossChain returns the rotation of every shaft, of which the parts are angle,
// speed ratio and acceleration, when the first has turned by theta from where its
// ears lie level. The angles count from some direction across each shaft.
func crossChain(shafts []kinematics.Shaft, theta float64) []hyperdual.Number {
	first := hyperdual.Number{Real: theta, E1mag: 1, E2mag: 1}
	axis := shafts[0].Axis
	ears := turned(r3.Vec{X: -axis.Y, Y: axis.X}, axis, first)
	rotations := []hyperdual.Number{first}
	for _, s := range shafts[1:] {
		from := r3.Cross(s.Axis, r3.Vec{X: 0.3, Y: 0.5, Z: 0.8})
		rotation := squareTo(ears, from, s.Axis)
		rotations = append(rotations, rotation)
		ears = turned(from, s.Axis, hyperdual.Add(rotation, hyperdual.Number{Real: s.Phase}))
	}
	return rotations
}

// squareTo returns by how much from must be turned about the axis to be square to
// the ears.
func squareTo(ears direction, from, axis r3.Vec) hyperdual.Number {
	product := func(a hyperdual.Number) hyperdual.Number { return ears.dot(turned(from, axis, a)) }
	slope := func(a hyperdual.Number) hyperdual.Number { return ears.dot(turned(r3.Cross(axis, from), axis, a)) }
	var rotation hyperdual.Number
	if math.Abs(product(rotation).Real) > math.Abs(slope(rotation).Real) {
		rotation.Real = math.Pi / 2 // less than an eighth of a turn away
	}
	for range 8 { // each step doubles the digits, of the derivatives one step later
		step := hyperdual.Mul(product(rotation), hyperdual.Inv(slope(rotation)))
		rotation = hyperdual.Sub(rotation, step)
	}
	return rotation
}

// direction is a unit vector that moves.
type direction [3]hyperdual.Number

func (d direction) dot(other direction) hyperdual.Number {
	var sum hyperdual.Number
	for i := range d {
		sum = hyperdual.Add(sum, hyperdual.Mul(d[i], other[i]))
	}
	return sum
}

// turned returns the direction from, square to the axis, turned about it.
func turned(from, axis r3.Vec, rotation hyperdual.Number) direction {
	from = r3.Unit(from)
	side := r3.Cross(r3.Unit(axis), from)
	cos, sin := hyperdual.Cos(rotation), hyperdual.Sin(rotation)
	along := func(from, side float64) hyperdual.Number {
		return hyperdual.Add(hyperdual.Scale(from, cos), hyperdual.Scale(side, sin))
	}
	return direction{along(from.X, side.X), along(from.Y, side.Y), along(from.Z, side.Z)}
}
