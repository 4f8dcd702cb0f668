package adjust

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// everyChange makes all kinds of change at once on twoPiece.
func everyChange(t *testing.T, s *survey.Survey) []setting {
	t.Helper()
	return settingsOf(t, s, map[survey.Change]float64{
		{Change: "wedge", On: "axle pinion"}:           1.5,
		{Change: "mount", On: "gearbox output"}:        6,
		{Change: "bearing-height", On: "centre joint"}: 9,
		{Change: "bearing-side", On: "centre joint"}:   -4,
		{Change: "length", On: "front shaft"}:          12,
		{Change: "clocking", On: "rear shaft"}:         22.5,
	})
}

func settingsOf(t *testing.T, s *survey.Survey, values map[survey.Change]float64) []setting {
	t.Helper()
	var settings []setting
	for c, value := range values {
		made, err := newChange(s, newGeometry(s), c)
		if err != nil {
			t.Fatal(err)
		}
		settings = append(settings, setting{made, value})
	}
	return settings
}

// positioned is twoPiece given by its joint centres.
func positioned() *survey.Survey {
	s := twoPiece()
	for k, p := range points(s)[1:4] {
		s.Joints[k].At = &survey.Point{Along: 100 + p.X, Right: -p.Y, Down: -p.Z}
	}
	for k := 1; k <= 2; k++ {
		s.Shafts[k].Slope, s.Shafts[k].Heading, s.Shafts[k].Length = survey.Slope{}, survey.Heading{}, 0
	}
	return s
}

// withPoses gives the driveline two more ride heights: one by the rear shaft and
// the pinion, one by the heading of the rear shaft only.
func withPoses(s *survey.Survey) *survey.Survey {
	s.Poses = []survey.Pose{
		{Name: "laden", Shafts: []survey.PoseShaft{
			{Name: "rear shaft", Slope: survey.Down(3.2)},
			{Name: "axle pinion", Slope: survey.Incline(3.1, 3.3)},
		}},
		{Name: "turned", Shafts: []survey.PoseShaft{{Name: "rear shaft", Heading: survey.Right(-0.7)}}},
	}
	return s
}

// TestCorrectedSurvey follows the changes in the geometry and compares with the
// geometry of the survey that was written.
func TestCorrectedSurvey(t *testing.T) {
	t.Parallel()
	inclined := twoPiece()
	for k := range inclined.Shafts {
		sh := &inclined.Shafts[k]
		sh.Slope = survey.Incline(sh.Slope.Deg...)
	}
	level := twoPiece()
	level.Shafts[1].Slope = survey.Down(0)
	repeated := twoPiece()
	repeated.Shafts[2].Slope = survey.Down(6.1, 6.0, 6.2)
	laden := positioned()
	laden.Poses = []survey.Pose{{Name: "laden", Joints: []survey.PoseJoint{
		{Name: "pinion joint", At: &survey.Point{Along: 3020, Right: 20, Down: 210}}}}}
	tests := []struct {
		name string
		s    *survey.Survey
	}{
		{"slopes", twoPiece()},
		{"inclines", inclined},
		{"a shaft left out as level", level},
		{"repeated readings", repeated},
		{"positions", positioned()},
		{"poses", withPoses(twoPiece())},
		{"poses by position", laden},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			settings := everyChange(t, tt.s)
			written := corrected(tt.s, settings)
			if err := written.Validate(); err != nil {
				t.Fatal(err)
			}
			before, after := inPoses(tt.s, everyPose), inPoses(written, everyPose)
			if len(after) != len(before) {
				t.Fatalf("got %d poses, want %d", len(after), len(before))
			}
			for i := range after {
				g := newGeometry(before[i].survey)
				want := make([]kinematics.Shaft, len(g.shafts))
				g.moved(want, settings)
				for k, got := range newGeometry(after[i].survey).shafts {
					// Readings are rounded to 1e-6°, lengths of some 1000 mm to
					// 1e-6 mm; half of that in each of two directions.
					bend := r3.Norm(r3.Cross(r3.Unit(got.Axis), r3.Unit(want[k].Axis)))
					if bend > 1e-6*kinematics.Degree {
						t.Errorf("pose %q, shaft %d: %.2g rad off", after[i].pose, k, bend)
					}
					if i == 0 && math.Abs(r3.Norm(got.Axis)-r3.Norm(want[k].Axis)) > 2e-6 {
						t.Errorf("shaft %d: length %v, want %v", k, r3.Norm(got.Axis), r3.Norm(want[k].Axis))
					}
					if math.Abs(got.Phase-want[k].Phase) > 1e-6*kinematics.Degree {
						t.Errorf("shaft %d: phase %v, want %v", k, got.Phase, want[k].Phase)
					}
				}
			}
		})
	}
}

func TestCorrectedKeepsTheRest(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	s.Note = "measured on stands"
	s.Shafts[2].Slope = survey.Down(6.1, 6.0, 6.2)
	s.Adjust = []survey.Change{
		{Change: "wedge", On: "axle pinion", From: -4, To: 4, Step: 0.5},
		{Change: "mount", On: "gearbox output", From: 0, To: 30, Step: 3},
	}
	got := corrected(s, settingsOf(t, s, map[survey.Change]float64{s.Adjust[0]: 1.5}))
	if want := (survey.Change{Change: "wedge", On: "axle pinion", From: -5.5, To: 2.5, Step: 0.5}); got.Adjust[0] != want {
		t.Errorf("what is left of the wedge: got %+v, want %+v", got.Adjust[0], want)
	}
	if got.Adjust[1] != s.Adjust[1] {
		t.Errorf("what is left of the mount: got %+v, want %+v", got.Adjust[1], s.Adjust[1])
	}
	readings := got.Shafts[2].Slope.Deg
	for i, want := range []float64{-0.1, 0.1} {
		if spread := readings[i+1] - readings[0]; math.Abs(spread-want) > 1e-9 { // decimal rounding
			t.Errorf("readings %v: number %d is %v from the first, want %v", readings, i+2, spread, want)
		}
	}
	if got.Shafts[0].Length != 720 || got.Shafts[0].Slope.Deg[0] != 3.4 {
		t.Errorf("the gearbox output, which nothing moves: got %+v", got.Shafts[0])
	}
	if s.Shafts[3].Slope.Deg[0] != 4 || s.Adjust[0].From != -4 || !slices.Equal(s.Shafts[2].Slope.Deg, survey.Readings{6.1, 6.0, 6.2}) {
		t.Error("the survey as measured was changed")
	}
	var file bytes.Buffer
	if err := got.Write(&file); err != nil {
		t.Fatal(err)
	}
	if _, err := survey.Read("corrected.json", &file); err != nil {
		t.Error(err)
	}
}

// What is left of a range is one that a survey can have, on the same steps.
func TestLeftStaysWithinReach(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name     string
		c        survey.Change
		value    float64
		from, to float64
	}{
		{"within", survey.Change{From: -90, To: 90, Step: 7}, 15, -105, 75},
		{"beyond the end", survey.Change{From: -90, To: 360, Step: 15}, -45, -45, 360},
		{"beyond the beginning", survey.Change{From: -350, To: 350, Step: 100}, 50, -300, 300},
		{"beyond the beginning, any value", survey.Change{From: -350, To: 350}, 50, -360, 300},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			if got := left(tt.c, tt.value, 360); got.From != tt.from || got.To != tt.to || got.Step != tt.c.Step {
				t.Errorf("got %+v, want %v to %v", got, tt.from, tt.to)
			}
		})
	}
}

func TestCorrectedPhaseStaysWithinATurn(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	s.Shafts[1].PhaseDeg = survey.Readings{350}
	got := corrected(s, settingsOf(t, s, map[survey.Change]float64{{Change: "clocking", On: "front shaft"}: 30}))
	if !slices.Equal(got.Shafts[1].PhaseDeg, survey.Readings{20}) {
		t.Errorf("350° and 30° more: got %v deg, want 20", got.Shafts[1].PhaseDeg)
	}
}

// A bearing at its joint stays there however the shaft is moved.
func TestCorrectedBearing(t *testing.T) {
	t.Parallel()
	for name, s := range map[string]*survey.Survey{"slopes": twoPiece(), "positions": positioned()} {
		for _, down := range []float64{-20, 7, 20} {
			s.Shafts[1].Bearing = new(s.Lengths()[1])
			c := corrected(s, settingsOf(t, s, map[survey.Change]float64{{Change: "bearing-height", On: "centre joint"}: down}))
			if err := c.Validate(); err != nil {
				t.Errorf("%s, %g mm: %v", name, down, err)
			}
			got, want, was := *c.Shafts[1].Bearing, c.Lengths()[1], s.Lengths()[1]
			if math.Abs(got-want) > 1e-6 || math.Abs(want-was) < 0.01 {
				t.Errorf("%s, %g mm: got the bearing at %g, want at %g, and not where it was, %g", name, down, got, want, was)
			}
		}
	}
}
