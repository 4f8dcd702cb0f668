package kinematics_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

func TestPairCancels(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name   string
		shafts []kinematics.Shaft
		joints []kinematics.Joint
	}{
		{"parallel ends", inPlane(3, 14, 3), nil},
		{"equal angles, bent twice the same way", inPlane(0, 20, 40), nil},
		{"constant-velocity joint", inPlane(0, 25), []kinematics.Joint{{Kind: kinematics.ConstantVelocity}}},
		{"ideal double-cardan joint", inPlane(0, 30), []kinematics.Joint{{Kind: kinematics.DoubleCardan}}},
		{"double-cardan joint at its synchronous bend", inPlane(0, 32), []kinematics.Joint{{Kind: kinematics.DoubleCardan, Synchronous: 32 * deg}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d := mustNew(t, test.shafts, test.joints)
			// A few roundings of numbers below 0.1.
			if got := last(d.Driving(nil)).SecondOrder(); got > 1e-16 {
				t.Errorf("driving: %v rad of second order is left, want none", got)
			}
			if got := d.Coasting(nil)[0].SecondOrder(); got > 1e-16 {
				t.Errorf("coasting: %v rad of second order is left, want none", got)
			}
		})
	}
}

// In one plane the joints' cosines multiply: joints in phase work against each
// other, joints a quarter turn apart add up.
func TestPairInOnePlane(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		phase float64
		want  float64
	}{
		{"in phase", 0, math.Cos(25*deg) / math.Cos(10*deg)},
		{"half a turn", 180, math.Cos(25*deg) / math.Cos(10*deg)},
		{"a quarter turn out", 90, math.Cos(25*deg) * math.Cos(10*deg)},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			shafts := inPlane(0, 25, 15)
			shafts[1].Phase = test.phase * deg
			got := last(mustNew(t, shafts, nil).Driving(nil)).MinRatio()
			if math.Abs(got-test.want) > 4e-16 {
				t.Errorf("lowest ratio %v, want %v", got, test.want)
			}
		})
	}
}

// With its real centring a double-cardan joint leaves what two joints at the
// two angles of the triangle leave.
func TestDoubleCardanOffItsSynchronousBend(t *testing.T) {
	t.Parallel()
	const synchronous, beta = 32 * deg, 15 * deg
	d := mustNew(t, inPlane(0, beta/deg), []kinematics.Joint{{Kind: kinematics.DoubleCardan, Synchronous: synchronous}})
	// The triangle, solved by coordinates: B at the origin with the driven axis
	// along x, the ball on it, and A at distance d = 1 such that the line from A
	// to the ball has length a and makes the angle β with the driven axis.
	a := 1 / (2 * math.Cos(synchronous/2))
	height := a * math.Sin(beta) // of A over the driven axis
	driven := math.Asin(height)
	driving := beta - driven
	want := math.Cos(driving) / math.Cos(driven)
	if want > 1 {
		want = 1 / want
	}
	got := last(d.Driving(nil)).MinRatio()
	if math.Abs(got-want) > 1e-15 { // some roundings of numbers near 1
		t.Errorf("lowest ratio %v, want %v", got, want)
	}
	if got > 1-1e-6 {
		t.Errorf("lowest ratio %v: want a fluctuation away from the synchronous bend", got)
	}
	// What the small-angle sum says of it: β₁² − β₂².
	s := d.SecondOrder()
	if want := math.Sqrt(math.Abs(driving*driving - driven*driven)); math.Abs(s.Equivalent-want) > 1e-15 {
		t.Errorf("equivalent angle %v, want %v", s.Equivalent, want)
	}
}

func TestJointByItself(t *testing.T) {
	t.Parallel()
	shafts := inPlane(0, 9, 4, 30, 45)
	shafts[1].Axis = kinematics.AxisFromSlopes(9*deg, 12*deg)
	joints := []kinematics.Joint{
		{Kind: kinematics.Cardan},
		{Kind: kinematics.Cardan},
		{Kind: kinematics.DoubleCardan},
		{Kind: kinematics.ConstantVelocity},
	}
	d := mustNew(t, shafts, joints)
	for k, passesOn := range []bool{true, true, false, false} {
		if got, want := d.WorkingAngle(k), d.Bend(k).Angle; got != want {
			t.Errorf("working angle of joint %d: %v, want that of its bend, %v", k, got, want)
		}
		want := 0.0
		if passesOn {
			want = d.WorkingAngle(k)
		}
		// The square root of a few roundings, where the halves should cancel.
		if got := d.ByItself(k).Angle(); math.Abs(got-want) > 1e-8 {
			t.Errorf("joint %d alone acts as one of %v rad, want %v", k, got, want)
		}
	}
}

// Joints next to a right angle that cancel in pairs, however many.
func TestLongSteepChain(t *testing.T) {
	t.Parallel()
	const steep = 89.99999
	down := make([]float64, 65)
	for k := 1; k < len(down); k += 2 {
		down[k] = steep
	}
	d := mustNew(t, inPlane(down...), nil)
	for name, motions := range map[string][]kinematics.Motion{"driving": d.Driving(nil), "coasting": d.Coasting(nil)} {
		for k, m := range motions {
			lowest := 1.0
			if k%2 == 1 {
				lowest = math.Cos(steep * deg)
			}
			// Each pair leaves a few roundings of 1 divided by the cosine.
			if got, tol := m.MinRatio()/lowest-1, 4e-16/math.Cos(steep*deg)*float64(len(down)); math.Abs(got) > tol {
				t.Errorf("%s, shaft %d: lowest ratio %v, want %v", name, k+1, m.MinRatio(), lowest)
			}
			if s := m.At(1); !(s.Ratio > 0) || math.IsNaN(s.Lead+s.Accel+m.PeakAccel()) || m.MinRatio() > m.MaxRatio() {
				t.Errorf("%s, shaft %d: %+v at 1 rad, ratios from %v to %v", name, k+1, s, m.MinRatio(), m.MaxRatio())
			}
		}
	}
}

// A chain acts as one joint, which must be below 90° as any other. Of three steep
// joints in one plane two cancel, which two depends on where the phase is.
func TestNewRefusesJointsThatAddUpToARightAngle(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		phase1, phase2 float64 // deg
		want           string
	}{
		{0, 0, ""},
		{90, 0, "shafts[2] equivalent angle: 90 deg: want below 90"},
		{0, 90, "shafts[1] equivalent angle: 90 deg: want below 90"},
	} {
		shafts := inPlane(0, 89.99999, 0, 89.99999)
		shafts[1].Phase, shafts[2].Phase = test.phase1*deg, test.phase2*deg
		_, err := kinematics.New(shafts, nil)
		switch {
		case test.want == "" && err != nil:
			t.Errorf("phases %v and %v: %v", test.phase1, test.phase2, err)
		case test.want != "" && (err == nil || err.Error() != test.want):
			t.Errorf("phases %v and %v: got error %v, want %q", test.phase1, test.phase2, err, test.want)
		}
	}
}

// The ears turn with their shaft and stay square across each cross.
func TestEars(t *testing.T) {
	t.Parallel()
	shafts := []kinematics.Shaft{
		{Axis: kinematics.AxisFromSlopes(5*deg, -8*deg)},
		{Axis: kinematics.AxisFromSlopes(25*deg, 10*deg), Phase: 35 * deg},
		{Axis: kinematics.AxisFromSlopes(-4*deg, 20*deg)},
	}
	d := mustNew(t, shafts, nil)
	start, _ := d.Ears(0, 0)
	if math.Abs(start.Z) > 1e-16 {
		t.Errorf("ears of the first yoke at θ = 0: %v, want level", start)
	}
	for theta := 0.0; theta < 7; theta += 0.3 {
		for k := range shafts {
			driving, driven := d.Ears(k, theta)
			axis := r3.Unit(shafts[k].Axis)
			for _, e := range []r3.Vec{driving, driven} {
				if math.Abs(r3.Dot(e, axis)) > 1e-15 || math.Abs(r3.Norm(e)-1) > 1e-15 {
					t.Fatalf("shaft %d at %v rad: ears %v are not a unit vector across the shaft", k+1, theta, e)
				}
			}
			turned := math.Atan2(r3.Dot(r3.Cross(driving, driven), axis), r3.Dot(driving, driven))
			if math.Abs(turned-shafts[k].Phase) > 1e-15 {
				t.Fatalf("shaft %d at %v rad: yokes stand %v rad apart, want %v", k+1, theta, turned, shafts[k].Phase)
			}
			if k > 0 {
				_, before := d.Ears(k-1, theta)
				if got := r3.Dot(before, driving); math.Abs(got) > 1e-15 {
					t.Fatalf("joint %d at %v rad: ears of its yokes have product %v, want square", k, theta, got)
				}
			}
		}
	}
}

func TestBestPhaseRefusesTheEnds(t *testing.T) {
	t.Parallel()
	d := mustNew(t, inPlane(0, 8, 2), nil)
	for _, k := range []int{-1, 0, 2, 3} {
		if _, err := d.BestPhase(k); err == nil {
			t.Errorf("shaft %d: got no error", k)
		}
	}
}

func TestBestPhaseBehindAStraightJoint(t *testing.T) {
	t.Parallel()
	shafts := inPlane(4, 4, 9)
	shafts[1].Phase = 20 * deg
	best, err := mustNew(t, shafts, nil).BestPhase(1)
	if err != nil {
		t.Fatal(err)
	}
	if best.Matters || math.Abs(best.Phase-20*deg) > 1e-15 {
		t.Errorf("got %+v, want the present phase and that it does not matter", best)
	}
}
