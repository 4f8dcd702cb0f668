package kinematics_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

const deg = kinematics.Degree

// inPlane returns shafts that fall by the given side-view slopes, in degrees.
func inPlane(down ...float64) []kinematics.Shaft {
	shafts := make([]kinematics.Shaft, len(down))
	for k, s := range down {
		shafts[k].Axis = kinematics.AxisFromSlopes(s*deg, 0)
	}
	return shafts
}

func mustNew(t testing.TB, shafts []kinematics.Shaft, joints []kinematics.Joint) *kinematics.Driveline {
	t.Helper()
	d, err := kinematics.New(shafts, joints)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func last(motions []kinematics.Motion) kinematics.Motion { return motions[len(motions)-1] }

func TestNewRefuses(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	axis := func(a r3.Vec) []kinematics.Shaft { return []kinematics.Shaft{{Axis: r3.Vec{X: 1}}, {Axis: a}} }
	phased := func(p ...float64) []kinematics.Shaft {
		shafts := inPlane(0, 5, 0)
		for k := range p {
			shafts[k].Phase = p[k]
		}
		return shafts
	}
	for _, test := range []struct {
		name   string
		shafts []kinematics.Shaft
		joints []kinematics.Joint
		want   string
	}{
		{"no shaft", nil, nil, "0 shafts: want at least 2"},
		{"one shaft", inPlane(0), nil, "1 shafts: want at least 2"},
		{"too many joints", inPlane(0, 1), make([]kinematics.Joint, 2), "2 joints: want 1"},
		{"zero axis", axis(r3.Vec{}), nil, "shafts[1].Axis"},
		{"tiny axis", axis(r3.Vec{X: 1e-160}), nil, "shafts[1].Axis length: 1e-160: want 1e-100 to 1e100"},
		{"denormal axis", axis(r3.Vec{X: 5e-324}), nil, "shafts[1].Axis"},
		{"huge axis", axis(r3.Vec{X: 1, Z: 1e160}), nil, "shafts[1].Axis"},
		{"NaN axis", axis(r3.Vec{X: nan}), nil, "shafts[1].Axis"},
		{"infinite axis", axis(r3.Vec{X: inf}), nil, "shafts[1].Axis"},
		{"slope in degrees", axis(kinematics.AxisFromSlopes(12, 0)), nil, "shafts[1].Axis"},
		{"heading beyond a right angle", axis(kinematics.AxisFromSlopes(0, 95*deg)), nil, "shafts[1].Axis"},
		{"incline straight up", axis(kinematics.AxisFromIncline(-math.Pi/2, 0)), nil, "shafts[1].Axis"},
		{"NaN phase", phased(0, nan, 0), nil, "shafts[1].Phase"},
		{"phase of the first shaft", phased(0.1), nil, "shafts[0].Phase"},
		{"phase of the last shaft", phased(0, 0, 0.1), nil, "shafts[2].Phase"},
		{"square joint", axis(r3.Vec{Z: -1}), nil, "joints[0] working angle: 90 deg: want below 90"},
		{"joint bent back", axis(r3.Vec{X: -1, Z: -1}), nil, "joints[0] working angle: 135 deg: want below 90"},
		{"unknown kind", inPlane(0, 1), []kinematics.Joint{{Kind: "rubber"}}, `joints[0].Kind: "rubber"`},
		{"synchronous Cardan joint", inPlane(0, 1), []kinematics.Joint{{Synchronous: 0.5}}, "only a double-cardan joint"},
		{"synchronous at a right angle", inPlane(0, 1), []kinematics.Joint{{Kind: kinematics.DoubleCardan, Synchronous: math.Pi / 2}}, "joints[0].Synchronous: 90 deg"},
		{"synchronous NaN", inPlane(0, 1), []kinematics.Joint{{Kind: kinematics.DoubleCardan, Synchronous: nan}}, "joints[0].Synchronous"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d, err := kinematics.New(test.shafts, test.joints)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got error %v, want one with %q", err, test.want)
			}
			if d != nil {
				t.Error("got a driveline beside the error")
			}
		})
	}
}

func TestRangeErrorMatches(t *testing.T) {
	t.Parallel()
	_, err := kinematics.SingleJoint(95*deg, 0)
	e, ok := errors.AsType[*kinematics.RangeError](err)
	if !ok || e.Unit != "deg" || math.Abs(e.Value-95) > 1e-12 {
		t.Errorf("got %v, want a *RangeError that holds 95 deg", err)
	}
	for _, beta := range []float64{-0.1, math.Pi / 2, 4.8, 2 * math.Pi, math.NaN(), math.Inf(1)} {
		if _, err := kinematics.SingleJoint(beta, 0); err == nil {
			t.Errorf("SingleJoint(%v, 0): got no error", beta)
		}
	}
	for _, n := range []int{-1, 0, 1<<20 + 1} {
		if _, err := kinematics.NewRevolution(n); err == nil {
			t.Errorf("NewRevolution(%d): got no error", n)
		}
	}
}

func TestBendViews(t *testing.T) {
	t.Parallel()
	// Bends of 10° seen from the side and from above; the signs follow from
	// the sign rule alone.
	for _, test := range []struct {
		name                   string
		down, right            float64 // of the driven shaft, deg
		angle, side, top, want float64 // want: plane, deg
	}{
		{"straight", 0, 0, 0, 0, 0, 0},
		{"down", 10, 0, 10, 10, 0, 0},
		{"up", -10, 0, 10, -10, 0, 0},
		{"right", 0, 10, 10, 0, 10, 90},
		{"left", 0, -10, 10, 0, -10, 90},
		// tan²β = tan²s + tan²r for a level, straight driving shaft.
		{"down and right", 10, 10, math.Atan(math.Sqrt2*math.Tan(10*deg)) / deg, 10, 10, -45},
		{"down and left", 10, -10, math.Atan(math.Sqrt2*math.Tan(10*deg)) / deg, 10, -10, 45},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d := mustNew(t, []kinematics.Shaft{
				{Axis: kinematics.AxisFromSlopes(0, 0)},
				{Axis: kinematics.AxisFromSlopes(test.down*deg, test.right*deg)},
			}, nil)
			b := d.Bend(0)
			for _, v := range []struct {
				name      string
				got, want float64
			}{
				{"angle", b.Angle, test.angle},
				{"side", b.Side, test.side},
				{"top", b.Top, test.top},
				{"plane", b.Plane, test.want},
			} {
				// A few ulp of an angle below a radian.
				if math.Abs(v.got/deg-v.want) > 1e-13 {
					t.Errorf("%s: got %v deg, want %v", v.name, v.got/deg, v.want)
				}
			}
		})
	}
}

func TestInclineIsSlopeSeenAlongTheShaft(t *testing.T) {
	t.Parallel()
	for _, right := range []float64{-40, -3, 0, 12, 60} {
		for _, incline := range []float64{-30, -0.5, 0, 4, 45} {
			axis := kinematics.AxisFromIncline(incline*deg, right*deg)
			if got := kinematics.Incline(axis) / deg; math.Abs(got-incline) > 1e-13 {
				t.Errorf("incline %v, right %v: axis inclined by %v", incline, right, got)
			}
			down, gotRight := kinematics.Slopes(axis)
			if math.Abs(gotRight/deg-right) > 1e-13 {
				t.Errorf("incline %v, right %v: axis heads %v", incline, right, gotRight/deg)
			}
			want := math.Tan(down) * math.Cos(right*deg)
			if math.Abs(math.Tan(incline*deg)-want) > 1e-15 {
				t.Errorf("incline %v, right %v: tan(incline) is not tan(down)·cos(right) = %v", incline, right, want)
			}
		}
	}
}

// A joint that is exactly straight has no plane, and its neighbourhood must
// lead to it smoothly whatever the direction it is bent in.
func TestStraightJointIsTheLimit(t *testing.T) {
	t.Parallel()
	chain := func(bend, direction float64) []kinematics.Motion {
		shafts := inPlane(3, 3, 9, 4)
		sin, cos := math.Sincos(direction)
		shafts[0].Axis = kinematics.AxisFromSlopes((3+bend*sin)*deg, bend*cos*deg)
		shafts[1].Phase = 20 * deg
		return mustNew(t, shafts, nil).Driving(nil)
	}
	straight := chain(0, 0)
	for direction := 0.0; direction < 6; direction += 0.5 {
		near := chain(1e-7, direction)
		for k := range straight {
			for theta := 0.0; theta < 3; theta += 0.25 {
				got, want := near[k].At(theta), straight[k].At(theta)
				// 1e-7° moves the ears' zero by up to 1e-9 rad times the
				// tangent of the slopes; the fluctuation is below 0.02.
				if math.Abs(got.Lead-want.Lead) > 1e-11 || math.Abs(got.Ratio-want.Ratio) > 1e-11 {
					t.Fatalf("shaft %d, bent toward %v rad: got %v, want %v", k+1, direction, got, want)
				}
			}
		}
	}
}

// The lead of a nearly straight joint is tan²(β/2)·sin 2φ, far below the
// rounding of θ itself.
func TestNearlyStraightLead(t *testing.T) {
	t.Parallel()
	const beta = 1e-6 // deg
	for _, slope := range []float64{0, 3} {
		d := mustNew(t, inPlane(slope, slope+beta), nil)
		// As entered: slope+beta is rounded where slope is not zero.
		bend := (slope + beta - slope) * deg
		got := last(d.Driving(nil)).MaxLead()
		want := math.Pow(bend/2, 2)
		if math.Abs(got/want-1) > 1e-9 {
			t.Errorf("slope %v: got %v rad, want %v", slope, got, want)
		}
	}
}

func TestSetReplacesInPlace(t *testing.T) {
	d := mustNew(t, inPlane(0, 8, 0), nil)
	other := inPlane(0, 12, 3)
	other[1].Phase = 30 * deg
	want := last(mustNew(t, other, nil).Driving(nil))
	var motions []kinematics.Motion
	work := func() {
		if err := d.Set(other); err != nil {
			t.Fatal(err)
		}
		motions = d.Driving(motions)
	}
	work()
	if last(motions) != want {
		t.Errorf("got %v, want %v", last(motions), want)
	}
	if n := testing.AllocsPerRun(10, work); n != 0 {
		t.Errorf("got %v allocations, want none", n)
	}
	if err := d.Set(inPlane(0, 1)); err == nil {
		t.Error("another number of shafts: got no error")
	}
}
