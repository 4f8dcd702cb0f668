package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// A two-piece line in space: the way to the quiet place, and what it costs.
func TestQuietCentre(t *testing.T) {
	t.Parallel()
	shafts := inPlane(3.4, 3.8, 6.1, 4.0)
	shafts[2].Axis = kinematics.AxisFromSlopes(6.1*deg, 1.2*deg)
	supports := []kinematics.Support{{}, {Length: 940, Held: true, Bearing: 940}, {Length: 1270}, {}} // mm
	const torque = 1500e3                                                                             // N·mm
	d := mustNew(t, shafts, nil)
	now, err := d.BearingSwing(torque, supports)
	if err != nil {
		t.Fatal(err)
	}
	place, ok := d.QuietCentre(torque, supports)
	if !ok {
		t.Fatal("got no place")
	}
	unit := func(k int) r3.Vec { return r3.Unit(shafts[k].Axis) }
	first := r3.Scale(0.5, r3.Add(r3.Scale(1270, r3.Sub(unit(2), unit(0))), r3.Scale(940, r3.Sub(unit(3), unit(1)))))
	for _, v := range []struct {
		name              string
		got, want, within float64
	}{
		// Of the first-order formula, which is good to some squares of the slopes.
		{"right, mm", place.Right, -first.Y, 0.3},
		{"down, mm", place.Down, -first.Z, 0.3},
		// By the first order of the swing, as in TestBearingSwingToFirstOrder.
		{"swing now, N", now, torque / 940 / 1270 * math.Hypot(first.Y, first.Z), 0.3},
		{"swing there, N", place.Swing, 0, now / 1000},
	} {
		if math.Abs(v.got-v.want) > v.within {
			t.Errorf("%s: got %v, want %v", v.name, v.got, v.want)
		}
	}
	// Moved there, the driveline is what was said of it.
	joints := []r3.Vec{{}, r3.Scale(940, unit(1)), r3.Add(r3.Scale(940, unit(1)), r3.Scale(1270, unit(2)))}
	joints[1] = r3.Add(joints[1], r3.Vec{Y: -place.Right, Z: -place.Down})
	for k := 1; k <= 2; k++ {
		shafts[k].Axis = r3.Sub(joints[k], joints[k-1])
		supports[k].Length = r3.Norm(shafts[k].Axis)
	}
	supports[1].Bearing = supports[1].Length
	there := mustNew(t, shafts, nil)
	swing, err := there.BearingSwing(torque, supports)
	if err != nil || math.Abs(swing-place.Swing) > 1e-9*now {
		t.Errorf("moved there the bearing swings by %v N (%v), want %v", swing, err, place.Swing)
	}
	if got := last(there.Driving(nil)).Angle(); math.Abs(got-place.Left.Angle()) > 1e-12 || got < 2*d.SecondOrder().Exact {
		t.Errorf("moved there %v rad is left, want %v, more than twice what there is", got, place.Left.Angle())
	}
}

func TestQuietCentreOfRandomLines(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		shafts := make([]kinematics.Shaft, 4)
		for k := range shafts {
			shafts[k].Axis = kinematics.AxisFromSlopes(4*deg*(rnd.Float64()-0.5), 4*deg*(rnd.Float64()-0.5))
		}
		supports, _ := supported(rnd, 4)
		d := mustNew(t, shafts, nil)
		now, err := d.BearingSwing(1, supports)
		if err != nil {
			t.Fatal(err)
		}
		place, ok := d.QuietCentre(1, supports)
		// The part that turns backward is left: some squares of angles up to 0.1.
		if !ok || place.Swing > 0.01*now+1e-4 {
			t.Fatalf("%v, %v: got %+v, %v; now the swing is %v", shafts, supports, place, ok, now)
		}
		if braked, ok := d.QuietCentre(-1, supports); !ok || braked != place {
			t.Fatalf("under a torque the other way: got %+v, want %+v", braked, place)
		}
	}
}

func TestNoQuietCentre(t *testing.T) {
	t.Parallel()
	cv := kinematics.Joint{Kind: kinematics.ConstantVelocity}
	bent := inPlane(0, 2, 5, 1)
	for _, test := range []struct {
		name     string
		shafts   []kinematics.Shaft
		joints   []kinematics.Joint
		supports []kinematics.Support
	}{
		{"one piece", inPlane(0, 4, 1), nil, []kinematics.Support{{}, {Length: 1}, {}}},
		{"three pieces", inPlane(0, 4, 1, 3, 0), nil, []kinematics.Support{{}, twoPiece[1], twoPiece[1], {Length: 1}, {}}},
		{"two shafts", inPlane(0, 4), nil, make([]kinematics.Support, 2)},
		{"no length", bent, nil, make([]kinematics.Support, 4)},
		{"nothing swings", bent, []kinematics.Joint{cv, cv, cv}, twoPiece},
		{"too far", inPlane(0, 40, -40, 20), nil, twoPiece},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if place, ok := mustNew(t, test.shafts, test.joints).QuietCentre(1, test.supports); ok || place != (kinematics.QuietCentre{}) {
				t.Errorf("got %+v, want no place", place)
			}
		})
	}
}
