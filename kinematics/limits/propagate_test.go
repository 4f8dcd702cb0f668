package limits

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

func TestStandardUncertainty(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name      string
		in        Input
		want      float64
		tolerance float64 // half a unit of the last printed digit
	}{
		// Both from memory of JCGM 100:2008, 4.3.7.
		{"expansion of copper, 0.40 either way", Input{HalfWidth: 0.40}, 0.23, 0.005},
		{"voltmeter, 15 µV either way and 12 µV of scatter", Input{HalfWidth: 15, Scatter: 12}, math.Sqrt(219), 0.04},
		{"exact", Input{}, 0, 0},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if got := test.in.StandardUncertainty(); !near(got, test.want, test.tolerance) {
				t.Errorf("standard uncertainty %v, want %v", got, test.want)
			}
		})
	}
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
	trial, err := newTrial(s)
	if err != nil {
		t.Fatal(err)
	}
	if len(trial.inputs) != 1 {
		t.Fatalf("%d uncertain inputs, want the repeated reading only", len(trial.inputs))
	}
	in := trial.inputs[0]
	if !near(in.Value, 40.145, 0.0005) || !near(in.StandardUncertainty(), 0.333, 0.0005) {
		t.Errorf("mean %v ± %v, want 40.145 ± 0.333 as printed", in.Value, in.StandardUncertainty())
	}
	if in.Name != "slope of shaft 2" {
		t.Errorf("called %q, want slope of shaft 2", in.Name)
	}
	if len(s.Shafts[1].Slope.Deg) != len(readings) {
		t.Error("the trial changed the driveline it was made from")
	}
}

func TestInputsOfPositions(t *testing.T) {
	t.Parallel()
	s := driveline(t, `{"reading_error_deg": 0.1, "phase_error_deg": 2, "tape_error": 3,
		"shafts": [{"incline": 1, "right": 0}, {}, {"down": 2}],
		"joints": [{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 900, "right": 10, "down": 50}}]}`)
	trial, err := newTrial(s)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, in := range trial.inputs {
		got = append(got, in.Name)
	}
	want := []string{
		"slope of shaft 1", "heading of shaft 1", "phase of shaft 2", "slope of shaft 3",
		"position (along) of joint 1", "position (right) of joint 1", "position (down) of joint 1",
		"position (along) of joint 2", "position (right) of joint 2", "position (down) of joint 2",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("inputs %q, want %q", got, want)
	}
	before := *s.Joints[1].At
	*trial.places[9] = 80
	if *s.Joints[1].At != before {
		t.Error("the trial moves the driveline it was made from")
	}
	g, err := NewGauge(s)
	if err != nil {
		t.Fatal(err)
	}
	moved, err := trial.measure(g, nil)
	if err != nil {
		t.Fatal(err)
	}
	s.Joints[1].At.Down = 80
	d, err := s.Driveline()
	if err != nil {
		t.Fatal(err)
	}
	if want := g.Measure(d, nil); !reflect.DeepEqual(moved, want) {
		t.Errorf("with joint 2 moved the trial measures %v, want %v", moved, want)
	}
}

// JCGM 101:2008, 9.2.3 (from memory): the sum of four rectangular inputs of
// standard uncertainty 1 lies within ±3.88 with 95 % coverage, narrower than the
// ±3.92 of the linearised method. Four slopes make such a sum: the difference of
// the first and the last of three working angles in a plane, whose joint between
// is a constant-velocity one and so adds no quarter turn.
func TestSumOfFourRectangles(t *testing.T) {
	t.Parallel()
	const u = 0.1
	s := inPlane(0, 10, 0, 20)
	s.ReadingErrorDeg = u * math.Sqrt(3)
	s.Joints[1].Kind = kinematics.ConstantVelocity
	s.Limits = alone(survey.LimitCompanionDifference, 1)
	v := judge(t, s).Verdicts[0]
	// 5000 draws place each end to 0.08 u, so half the width to some 0.05 u.
	if !near(v.Uncertainty, 3.88*u, 0.15*u) {
		t.Errorf("half the interval %v, want %v", v.Uncertainty, 3.88*u)
	}
	if !near(v.Linear, 2*u, 1e-9) {
		t.Errorf("linearised standard uncertainty %v, want %v", v.Linear, 2*u)
	}
	if !near(v.Value, 10, 1e-9) {
		t.Errorf("difference %v, want 10", v.Value)
	}
	for i, share := range v.Shares {
		if !near(share, u, 1e-9) {
			t.Errorf("input %d contributes %v, want %v", i, share, u)
		}
	}
}

// Where a quantity is as good as linear over the errors, both methods agree.
func TestMonteCarloAgreesWithLinear(t *testing.T) {
	t.Parallel()
	for _, v := range judge(t, everyLimit(t)).Verdicts {
		// A sum of several rectangles is all but normal; its interval is 1.96
		// standard uncertainties either way, less 3 % for two inputs, with 3 % of
		// scatter from 5000 draws and as much for the curvature of squares.
		if ratio := v.Uncertainty / (1.96 * v.Linear); !near(ratio, 1, 0.09) {
			t.Errorf("%s of %s: half the interval is %.3f of the linearised one, want about 1", v.LimitName, v.Subject, ratio)
		}
	}
}

// Where it is not, the Monte Carlo method sees what the linearised one misses.
func TestMonteCarloAtAKink(t *testing.T) {
	t.Parallel()
	s := inPlane(3, 9, 3)
	s.ReadingErrorDeg = 0.1
	s.Limits = alone(survey.LimitCompanionDifference, 1)
	v := judge(t, s).Verdicts[0]
	if v.Value > 1e-9 || v.Linear > 1e-9 {
		t.Fatalf("difference %v ± %v, want nothing at all by the linearised method", v.Value, v.Linear)
	}
	// The difference of the angles is that of the two end slopes, each off by up to
	// a: it exceeds x with the probability (1 − x/2a)².
	if want := 0.2 * (1 - math.Sqrt(0.025)); !near(v.High, want, 0.004) {
		t.Errorf("upper end %v, want %v", v.High, want)
	}
	for i, share := range v.Shares {
		if inner := i == 1; inner != (share < 1e-9) {
			t.Errorf("input %d contributes %v, want both ends and not the shaft between", i, share)
		}
	}
}

// Of many measurements of one driveline, about 95 % of the coverage intervals
// hold the true value.
func TestCoverage(t *testing.T) {
	t.Parallel()
	truth := everyLimit(t)
	truth.Limits = survey.OnlyLimits(map[string]float64{
		survey.LimitResidualAccel:       300,
		survey.LimitCompanionDifference: 1,
		survey.LimitWorkingAngleMax:     3,
	})
	g, d := gauged(t, truth)
	want := g.Measure(d, nil)
	const runs = 300
	covered := make([]int, len(want))
	rng := rand.New(rand.NewPCG(1, 1))
	for range runs {
		measured := misread(truth, rng)
		_, spreads, err := propagate(t.Context(), measured, g)
		if err != nil {
			t.Fatal(err)
		}
		for q, sp := range spreads {
			if sp.Low <= want[q] && want[q] <= sp.High {
				covered[q]++
			}
		}
	}
	// 300 runs scatter by 1.3 %; three times that either way.
	for q, n := range covered {
		if got := float64(n) / runs; !near(got, Coverage, 0.038) {
			t.Errorf("%s of %s: %.3f of the intervals hold the true value, want %v", g.Judged[q].Limit.Name, g.Judged[q].Subject, got, Coverage)
		}
	}
}

// misread returns the driveline as someone might measure it.
func misread(truth *survey.Survey, rng *rand.Rand) *survey.Survey {
	s := truth.Complete()
	off := func(r survey.Readings) survey.Readings {
		if r == nil {
			return nil
		}
		return survey.Readings{r[0] + s.ReadingErrorDeg*(2*rng.Float64()-1)}
	}
	for i := range s.Shafts {
		sh := &s.Shafts[i]
		sh.Slope.Deg, sh.Heading.Values = off(sh.Slope.Deg), off(sh.Heading.Values)
		if 0 < i && i < len(s.Shafts)-1 {
			sh.PhaseDeg = survey.Readings{sh.PhaseDeg.Mean() + s.PhaseErrorDeg*(2*rng.Float64()-1)}
		}
	}
	return s
}

func TestErrorsTooLargeToJudge(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name, text, want string
	}{
		{"slope near the vertical", `{"reading_error_deg": 1, "shafts": [{"down": 60}, {"down": 89.5}]}`,
			"shafts[1].down: 89.5 deg with a standard uncertainty of 0.58 deg: want an angle that its error leaves within 90 deg"},
		{"working angle near 90", `{"reading_error_deg": 5, "shafts": [{"down": -44}, {"down": 44}]}`,
			"within the errors of the measurement: joints[0] working angle"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			_, err := Judge(t.Context(), driveline(t, test.text))
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want %q", err, test.want)
			}
		})
	}
	_, err := Judge(t.Context(), driveline(t, `{"reading_error_deg": 5, "shafts": [{"down": -44}, {"down": 44}]}`))
	if _, ok := errors.AsType[*kinematics.RangeError](err); !ok {
		t.Errorf("error %v, want a RangeError beneath", err)
	}
}
