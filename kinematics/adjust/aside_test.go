package adjust

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// TestWedgeBesideWhatNothingMends bends the first joint of a one-piece shaft by
// more than any wedge, which moves the far end of the shaft, can take back. What
// the shaft must follow is then over its limit by far. The wedge is still to be
// the difference of the slopes of output and pinion, to the nearest half degree.
func TestWedgeBesideWhatNothingMends(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(1, 1))
	for range 20 {
		output, shaft, pinion := 4*src.Float64(), 8+2*src.Float64(), 4*src.Float64()
		want := math.Round(2*(output-pinion)) / 2
		s := onePiece(output, shaft, pinion)
		s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitCompanionDifference: 0.25, survey.LimitInertiaDriveAccel: 10})
		r := search(t, s, Options{Only: []string{survey.ChangeWedge}})
		if want == 0 {
			continue // the rest is fine, so that the search is for the one limit that is not
		}
		if len(r.SetAside) != 1 || r.SetAside[0].Name != survey.LimitInertiaDriveAccel || r.SetAside[0].Outcome != limits.Over {
			t.Fatalf("set aside: got %+v, want the driving acceleration of the shaft, over", r.SetAside)
		}
		if len(r.Plans) != 1 {
			t.Errorf("slopes %.3f, %.3f, %.3f deg: got %d plans, want 1", output, shaft, pinion, len(r.Plans))
			continue
		}
		p := &r.Plans[0]
		if p.Steps[0].Value != want || p.Outcome != limits.Over || p.Rest != limits.Within || len(p.Breaks) != 1 {
			t.Errorf("slopes %.3f, %.3f, %.3f deg: got a wedge of %v deg, %s, the rest %s; want %v deg, over, the rest within",
				output, shaft, pinion, p.Steps[0].Value, p.Outcome, p.Rest, want)
		}
		if p.Tightest.Quantity != "working angle difference" {
			t.Errorf("least room: got %+v, want it of what is not set aside", p.Tightest)
		}
	}
}

// TestClockingBesideWhatNothingMends holds that a clocking is set for the good of
// the rest, and that a limit is not given up because another hid what mends it.
func TestClockingBesideWhatNothingMends(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 7, 3)
	s.Shafts[1].PhaseDeg = survey.Readings{41}
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitWorkingAngleMax: 1, survey.LimitResidualAccel: 20})
	r := search(t, s, Options{Only: []string{survey.ChangeClocking}})
	if len(r.SetAside) != 2 || len(r.Plans) != 1 {
		t.Fatalf("got %d set aside and %d plans, want both working angles and a plan", len(r.SetAside), len(r.Plans))
	}
	if p := &r.Plans[0]; p.Steps[0].Value != -41 || p.Rest != limits.Within {
		t.Errorf("got a clocking of %v deg, the rest %s; want -41, within", p.Steps[0].Value, p.Rest)
	}
}

// TestNothingLeftToCorrect sets aside only what nothing betters where nothing else
// is broken.
func TestNothingLeftToCorrect(t *testing.T) {
	t.Parallel()
	s := onePiece(9, 1, 4) // the first joint has 8°; a wedge brings the second from 3° to 0.5° at best
	s.Shafts[0].Heading = survey.Right(0)
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitWorkingAngleMax: 0.4})
	s.Shafts[1].Length, s.Shafts[2].Length = 0, 0 // so that a wedge only tilts the pinion
	s.Adjust = []survey.Change{{Change: survey.ChangeWedge, On: "axle pinion", From: -2.5, To: 0, Step: 0.5}}
	r := search(t, s, Options{})
	if len(r.SetAside) != 1 || r.SetAside[0].Subject != s.Joints[0].Name {
		t.Fatalf("set aside: got %+v, want the working angle at the first joint", r.SetAside)
	}
	if len(r.Plans) != 1 || r.Plans[0].Steps[0].Value != -2.5 || r.Plans[0].Rest != limits.Over {
		t.Errorf("got %+v, want a wedge of -2.5 deg, the rest over", r.Plans)
	}
}

// TestLeastExcess has a wedge that serves the rest as well up as down, but takes
// the first joint further beyond its limit one way.
func TestLeastExcess(t *testing.T) {
	t.Parallel()
	a := candidate{index: 1, change: 1, room: room{guarded: 0.5, excess: 0.3}}
	b := candidate{index: 2, change: 1, room: room{guarded: 0.5, excess: 0.2}}
	for _, order := range [][]candidate{{a, b}, {b, a}} {
		var f frontier
		for _, c := range order {
			f.insert(c)
		}
		if len(f) != 1 || f[0].index != b.index {
			t.Errorf("got %+v, want the one with less excess", f)
		}
	}
	g := new(group)
	if compareRank(pick{g, a, true}, pick{g, b, true}) <= 0 || compareRank(pick{g, a, false}, pick{g, b, false}) <= 0 {
		t.Error("got the plan with more excess first")
	}
}

// TestSetAsideOnAnyWorkers covers the search for one quantity by itself.
func TestSetAsideOnAnyWorkers(t *testing.T) {
	t.Parallel()
	s := random(rand.New(rand.NewPCG(5, 5)))
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitResidualAccel: 0.5, survey.LimitCompanionDifference: 0.5, survey.LimitOddJointMax: 0.01})
	s.Adjust = append(s.Adjust, survey.Change{Change: survey.ChangeClocking, On: "rear shaft", From: -90, To: 90})
	one := search(t, s, Options{Workers: 1})
	if len(one.SetAside) == 0 {
		t.Fatal("nothing is set aside: the test shows nothing")
	}
	for _, workers := range []int{2, 5} {
		if many := search(t, s, Options{Workers: workers}); !reflect.DeepEqual(many, one) {
			t.Errorf("%d workers: got another result than with one", workers)
		}
	}
}
