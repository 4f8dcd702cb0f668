package kinematics_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// Both crosses of a double-cardan joint hang on one coupling yoke: its ears are
// square to the yoke, and each cross keeps them square to the ears of its shaft.
// So the ears of the two shafts and the coupling yoke's axis give one direction
// by two ways.
func TestCouplingCarriesBothCrosses(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name        string
		synchronous float64 // deg
		down, right float64 // deg, of the driven shaft
	}{
		{"ideal", 0, 30, 0},
		{"at its synchronous bend", 32, 32, 0},
		{"off its synchronous bend", 32, 15, -9},
		{"ideal, in space", 0, -12, 25},
		{"straight", 32, 0, 0},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			shafts := []kinematics.Shaft{
				{Axis: kinematics.AxisFromSlopes(0, 0)},
				{Axis: kinematics.AxisFromSlopes(test.down*deg, test.right*deg)},
			}
			d := mustNew(t, shafts, []kinematics.Joint{{Kind: kinematics.DoubleCardan, Synchronous: test.synchronous * deg}})
			axis, ok := d.Coupling(0)
			if !ok {
				t.Fatal("got no coupling yoke")
			}
			for i := range 24 {
				theta := float64(i) * 15 * deg
				_, driving := d.Ears(0, theta)
				driven, _ := d.Ears(1, theta)
				a := r3.Unit(r3.Cross(axis, driving)) // of the coupling yoke, by the first cross
				b := r3.Unit(r3.Cross(axis, driven))  // and by the second
				// Some roundings of unit vectors.
				if off := r3.Norm(r3.Cross(a, b)); off > 1e-15 {
					t.Errorf("θ = %v rad: the two ways are %v rad apart", theta, off)
				}
			}
			if test.synchronous == 0 {
				angle := func(u, v r3.Vec) float64 { return math.Atan2(r3.Norm(r3.Cross(u, v)), r3.Dot(u, v)) }
				if half, other := angle(shafts[0].Axis, axis), angle(axis, shafts[1].Axis); math.Abs(half-other) > 1e-15 {
					t.Errorf("got halves of %v and %v rad, want equal ones", half, other)
				}
			}
		})
	}
}

func TestCouplingOfOtherKinds(t *testing.T) {
	t.Parallel()
	for _, kind := range []kinematics.Kind{kinematics.Cardan, kinematics.ConstantVelocity} {
		d := mustNew(t, inPlane(0, 10), []kinematics.Joint{{Kind: kind}})
		if axis, ok := d.Coupling(0); ok {
			t.Errorf("%s: got a coupling yoke along %v, want none", kind, axis)
		}
	}
}
