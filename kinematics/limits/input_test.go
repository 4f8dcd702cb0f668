package limits

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"halfturn/kinematics/survey"
)

func trialOf(t *testing.T, s *survey.Survey) *trial {
	t.Helper()
	trial, err := newTrial(s.Complete(), Roles{})
	if err != nil {
		t.Fatal(err)
	}
	return trial
}

// Twenty temperatures of JCGM 100:2008, 4.4.3, from memory, less 60 so that they
// pass for slopes: their mean is 100.145 and its standard uncertainty 0.333.
func TestRepeatedReadings(t *testing.T) {
	t.Parallel()
	readings := survey.Readings{
		36.90, 38.18, 38.25, 38.61, 39.03, 39.49, 39.56, 39.74, 39.89, 40.07,
		40.33, 40.42, 40.68, 40.95, 41.11, 41.20, 41.57, 41.84, 42.36, 42.72,
	}
	s := inPlane(0, 1)
	s.Shafts[1].Slope = survey.Down(readings...)
	trial := trialOf(t, s)
	if len(trial.inputs) != 1 {
		t.Fatalf("%d uncertain inputs, want the repeated reading only", len(trial.inputs))
	}
	in := trial.inputs[0]
	if !near(in.Value, 40.145, 0.0005) || !near(in.StandardUncertainty, 0.333, 0.0005) {
		t.Errorf("mean %v ± %v, want 40.145 ± 0.333 as printed", in.Value, in.StandardUncertainty)
	}
	if in.Name != "slope of shaft 2" {
		t.Errorf("called %q, want slope of shaft 2", in.Name)
	}
	if len(s.Shafts[1].Slope.Deg) != len(readings) {
		t.Error("the trial changed the driveline it was made from")
	}
}

// The error of placing the gauge falls with the root of the readings, down to what the
// gauge can show; its own zero stays, and is gone where it is turned.
func TestStandardUncertainty(t *testing.T) {
	t.Parallel()
	equal := func(n int) string { return fmt.Sprint(slices.Repeat([]float64{3}, n)) }
	for _, test := range []struct {
		name, text string
		want       float64 // of the slope of shaft 1
	}{
		{"one reading", `"down": 3`, 0.1 / math.Sqrt(3)},
		{"five equal ones", `"down": [3, 3, 3, 3, 3]`, 0.1 / math.Sqrt(15)},
		{"two that differ by more than the gauge explains", `"down": [2.7, 3.3]`, 0.3}, // √0.18/√2
		{"turned end for end", `"turned": [3.4, 2.6]`, 0.1 / math.Sqrt(6)},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := driveline(t, `{"reading_error_deg": 0.1, "shafts": [{`+test.text+`}, {"down": 0}]}`)
			if got := trialOf(t, s).inputs[0].StandardUncertainty; !near(got, test.want, 1e-12) {
				t.Errorf("standard uncertainty %v, want %v", got, test.want)
			}
			s.GaugeResolutionDeg = 1.2
			if got := trialOf(t, s).inputs[0].StandardUncertainty; !near(got, 1.2/math.Sqrt(12), 1e-12) {
				t.Errorf("with a gauge that shows steps of 1.2 deg %v, want %v", got, 1.2/math.Sqrt(12))
			}
		})
	}
	s := inPlane(0, 1)
	s.ReadingErrorDeg = 0.1
	s.Shafts[0].Slope = survey.Down(slices.Repeat([]float64{3}, 100)...)
	if got := trialOf(t, s).inputs[0].StandardUncertainty; !near(got, 0.1/math.Sqrt(300), 1e-12) {
		t.Errorf("a hundred equal readings %s: %v, want %v", equal(1), got, 0.1/math.Sqrt(300))
	}
}

// The zero of the gauge is gone from the differences of slopes, but not from that of a
// slope whose reading is free of it.
func TestZeroOfTheGauge(t *testing.T) {
	t.Parallel()
	s := driveline(t, `{"gauge_error_deg": 0.5, "shafts": [{"down": 3}, {"down": 5}, {"turned": [3.2, 2.8]}]}`)
	s.Limits = alone(survey.LimitWorkingAngleMax, 3)
	_, list := spreads(t, s)
	if got := list[0]; !near(got.above, 2, 0.002) || !near(got.below, 2, 0.002) {
		t.Errorf("two slopes by the same gauge differ by %v to %v, want 2", got.below, got.above)
	}
	// A rectangle of ±0.5, of which 95 % are taken.
	if got := list[1]; !near(got.below, 2-0.475, 0.001) || !near(got.above, 2+0.475, 0.001) {
		t.Errorf("a slope free of the zero differs by %v to %v, want %v to %v", got.below, got.above, 2-0.475, 2+0.475)
	}
}

func TestInputsOfPositions(t *testing.T) {
	t.Parallel()
	s := driveline(t, `{"reading_error_deg": 0.1, "phase_error_deg": 2, "tape_error": 3, "gauge_error_deg": 0.2,
		"shafts": [{"incline": 1, "right": 0}, {"phase": 0}, {"down": 2}],
		"joints": [{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 900, "right": 10, "down": 50}}]}`)
	trial := trialOf(t, s)
	var got []string
	for _, in := range trial.inputs {
		got = append(got, in.Name)
	}
	want := []string{
		"slope of shaft 1", "heading of shaft 1", "phase of shaft 2", "slope of shaft 3",
		"position (along) of joint 1", "position (right) of joint 1", "position (down) of joint 1",
		"position (along) of joint 2", "position (right) of joint 2", "position (down) of joint 2",
		"zero of the gauge",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("inputs %q, want %q", got, want)
	}
	before := *s.Joints[1].At
	g, err := NewGauge(s)
	if err != nil {
		t.Fatal(err)
	}
	// The last coordinate and the zero of the gauge, which the slopes of both ends share.
	off := func(i int) float64 { return map[int]float64{9: 30, 10: 0.25}[i] }
	if err := trial.measure(g, off); err != nil {
		t.Fatal(err)
	}
	var moved []float64
	for _, j := range g.Judged {
		moved = append(moved, g.value(j.measured))
	}
	if *s.Joints[1].At != before {
		t.Error("the trial moves the driveline it was made from")
	}
	s.Joints[1].At.Down += 30
	s.Shafts[0].Slope, s.Shafts[2].Slope = survey.Incline(1.25), survey.Down(2.25)
	d, err := s.Driveline()
	if err != nil {
		t.Fatal(err)
	}
	if want := g.Measure(d, nil); !reflect.DeepEqual(moved, want) {
		t.Errorf("with joint 2 and the gauge moved the trial measures %v, want %v", moved, want)
	}
}
