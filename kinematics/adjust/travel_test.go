package adjust

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats"

	"halfturn/examples"
	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// TestTravel holds that poses are read as surveys of their own, and what lies
// between them as one whose shafts lie between.
func TestTravel(t *testing.T) {
	t.Parallel()
	s := withPoses(twoPiece())
	s.Poses[0].Kind = survey.Travel
	got, err := NewTravel(t.Context(), s, nil)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for i, state := range got.States {
		names = append(names, state.Pose)
		in := s
		if i > 0 {
			in = limits.In(s, s.Poses[i-1])
		}
		at := slices.IndexFunc(got.Positions, func(p Position) bool { return p.State == i })
		if p := got.Positions[at]; !floats.EqualApprox(p.WorkingAngleDeg, state.WorkingAngleDeg, 1e-12) || math.Abs(p.ExactEquivalentDeg-state.ExactEquivalentDeg) > 1e-12 {
			t.Errorf("pose %q: got %+v, want %v deg and %v left", state.Pose, p, state.WorkingAngleDeg, state.ExactEquivalentDeg)
		}
		if want := in.Shafts[2].Slope.Mean(); math.Abs(got.Positions[at].SlopeDeg-want) > 1e-12 {
			t.Errorf("pose %q: slope of the rear shaft %v deg, want %v", state.Pose, got.Positions[at].SlopeDeg, want)
		}
		j, err := limits.Judge(t.Context(), in)
		if err != nil {
			t.Fatal(err)
		}
		if state.Judgement.Outcome != j.Outcome {
			t.Errorf("pose %q: got %s, want %s", state.Pose, state.Judgement.Outcome, j.Outcome)
		}
	}
	if want := []string{"", "laden", "turned"}; !slices.Equal(names, want) {
		t.Errorf("got poses %q, want %q", names, want)
	}
	if n := len(got.Positions); n != 3+2*between || !slices.IsSortedFunc(got.Positions, func(a, b Position) int { return cmp.Compare(math.Round(1e9*a.SlopeDeg), math.Round(1e9*b.SlopeDeg)) }) {
		t.Errorf("got %d positions %+v, want %d in the order of the slope", n, got.Positions, 3+2*between)
	}
	// From laden, 3.2 deg, to as measured, 6.1 deg, whose pinion lies otherwise too.
	mid := got.Positions[(between+1)/2]
	if mid.State != -1 || math.Abs(mid.SlopeDeg-4.65) > 0.001 || mid.Kind != survey.Travel { // of axes so near, the chord is the arc
		t.Errorf("half way: got %+v, want 4.65 deg", mid)
	}
	halfway := twoPiece()
	halfway.Shafts[2].Slope, halfway.Shafts[3].Slope = survey.Down(4.65), survey.Down(3.6)
	d, err := halfway.Driveline()
	if err != nil {
		t.Fatal(err)
	}
	if want := d.SecondOrder().Exact / kinematics.Degree; math.Abs(mid.ExactEquivalentDeg-want) > 0.002 {
		t.Errorf("half way: %v deg left, want %v", mid.ExactEquivalentDeg, want)
	}
}

// Near cancellation what is left grows like a square root. The value a tenth of the way
// from ride height to full droop is that of the driveline with joint and pinion there,
// entered by hand; a straight line from pose to pose has 1.2 deg.
func TestTravelIsNoStraightLine(t *testing.T) {
	t.Parallel()
	file, err := examples.Files.Open("lifted-utility.json")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	s, err := survey.Read("lifted-utility.json", file)
	if err != nil {
		t.Fatal(err)
	}
	got, err := NewTravel(t.Context(), s, nil)
	if err != nil {
		t.Fatal(err)
	}
	there := s.Complete()
	there.Shafts[2].Slope = survey.Down(4.5 + 0.45)
	there.Joints[1].At = &survey.Point{Along: 38.25 - 0.125, Right: 18.75, Down: 17.5 + 0.4}
	d, err := there.Driveline()
	if err != nil {
		t.Fatal(err)
	}
	down, _ := kinematics.Slopes(there.Axes()[1])
	want := d.SecondOrder().Exact / kinematics.Degree
	if math.Abs(want-3.354) > 0.001 {
		t.Fatalf("by hand %v deg, want 3.354", want)
	}
	i := slices.IndexFunc(got.Positions, func(p Position) bool { return p.SlopeDeg > down/kinematics.Degree })
	// The positions are a hundredth of the way apart.
	if low, high := got.Positions[i-1].ExactEquivalentDeg, got.Positions[i].ExactEquivalentDeg; low > want+0.05 || high < want-0.05 {
		t.Errorf("%v to %v deg left there, want %v", low, high, want)
	}
}

// TestTravelMovesTheJoints holds that half way between two poses every joint is half way:
// the rear shaft is longer in the one than in the other, so half of its turn is not.
func TestTravelMovesTheJoints(t *testing.T) {
	t.Parallel()
	at := func(along, right, down float64) *survey.Point {
		return &survey.Point{Along: along, Right: right, Down: down}
	}
	line := func(slope float64, pinion *survey.Point) *survey.Survey {
		return &survey.Survey{
			Shafts: []survey.Shaft{{Slope: survey.Down(3)}, {}, {Slope: survey.Down(slope)}},
			Joints: []survey.Joint{{At: at(0, 0, 0)}, {At: pinion}},
		}
	}
	s := line(3, at(1000, 0, 60)).Complete()
	s.Poses = []survey.Pose{{Name: "droop", Joints: []survey.PoseJoint{{Name: s.Joints[1].Name, At: at(700, 40, 460)}}}}
	got, err := NewTravel(t.Context(), s, nil)
	if err != nil {
		t.Fatal(err)
	}
	d, err := line(3, at(850, 20, 260)).Driveline()
	if err != nil {
		t.Fatal(err)
	}
	mid := got.Positions[(between+1)/2]
	for k, angle := range mid.WorkingAngleDeg {
		if want := d.WorkingAngle(k) / kinematics.Degree; math.Abs(angle-want) > 1e-9 {
			t.Errorf("half way: working angle %d is %v deg, want %v", k+1, angle, want)
		}
	}
}
