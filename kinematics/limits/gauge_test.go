package limits

import (
	"maps"
	"math"
	"math/cmplx"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

const threeJoints = `{"rpm": 2800, "reading_error_deg": 0.1, "phase_error_deg": 1, "shafts": [
	{"name": "gearbox output", "down": 3.4},
	{"name": "front shaft", "down": 4.6, "right": 0.4},
	{"name": "rear shaft", "down": 7.1, "right": 1.2, "phase": 3},
	{"name": "axle pinion", "down": 4.0}]}`

// everyLimit is threeJoints with a limit on everything that can be judged.
func everyLimit(t testing.TB) *survey.Survey {
	s := driveline(t, threeJoints)
	s.Limits.Set = survey.SetRoadStrict
	s.Limits.Values = map[string]float64{survey.LimitNonuniformity: 0.01, survey.LimitBearingSwing: 40}
	s.TorqueNM, s.Shafts[1].Length, s.Shafts[2].Length = 1500, 940, 1270
	return s
}

// What a gauge measures is what the sampled motion shows.
func TestGaugeMeasuresTheMotion(t *testing.T) {
	t.Parallel()
	s := everyLimit(t)
	g, d := gauged(t, s)
	r, err := kinematics.NewRevolution(7200)
	if err != nil {
		t.Fatal(err)
	}
	omega := 2800 * 2 * math.Pi / 60
	peak := func(motions []kinematics.Motion, k int) float64 {
		r.Sample(motions)
		return omega * omega * slices.Max(r.Shafts[k].Accel)
	}
	r.Sample(d.Driving(nil))
	left := slices.Max(r.Shafts[3].Ratio) - slices.Min(r.Shafts[3].Ratio)
	angle := func(k int) float64 { return d.Bend(k).Angle * 180 / math.Pi }
	terms := d.SecondOrder().Terms
	want := []struct {
		name, subject string
		value         float64
	}{
		{survey.LimitCompanionDifference, "joint 2 and joint 3",
			cmplx.Abs(terms[1]+terms[2]) / ((angle(1) + angle(2)) * kinematics.Degree * kinematics.Degree)},
		{survey.LimitOddJointMax, "joint 1", angle(0)},
		{survey.LimitOddJointMin, "joint 1", angle(0)},
		{survey.LimitWorkingAngleMin, "joint 2", angle(1)},
		{survey.LimitWorkingAngleMin, "joint 3", angle(2)},
		{survey.LimitWorkingAngleMax, "joint 1", angle(0)},
		{survey.LimitWorkingAngleMax, "joint 2", angle(1)},
		{survey.LimitWorkingAngleMax, "joint 3", angle(2)},
		{survey.LimitResidualAccel, "axle pinion", peak(d.Driving(nil), 3)},
		{survey.LimitInertiaDriveAccel, "front shaft", peak(d.Driving(nil), 1)},
		{survey.LimitInertiaDriveAccel, "rear shaft", peak(d.Driving(nil), 2)},
		{survey.LimitInertiaCoastAccel, "front shaft", peak(d.Coasting(nil), 1)},
		{survey.LimitInertiaCoastAccel, "rear shaft", peak(d.Coasting(nil), 2)},
		{survey.LimitEquivalentAngle, "axle pinion", angleOf(left)},
		{survey.LimitNonuniformity, "axle pinion", left},
		{survey.LimitSpeedAngle, "joint 1", 2800 * angle(0)},
		{survey.LimitSpeedAngle, "joint 2", 2800 * angle(1)},
		{survey.LimitSpeedAngle, "joint 3", 2800 * angle(2)},
		{survey.LimitBearingSwing, "front shaft", swing(t, s, d)},
	}
	got := g.Measure(d, nil)
	if len(got) != len(want) {
		t.Fatalf("%d quantities, want %d", len(got), len(want))
	}
	for q, w := range want {
		j := g.Judged[q]
		if j.Limit.Name != w.name || j.Subject != w.subject {
			t.Errorf("quantity %d is %s of %s, want %s of %s", q, j.Limit.Name, j.Subject, w.name, w.subject)
		}
		// A peak between two of 7200 positions is missed by (π/7200)² of it at most.
		if !near(got[q], w.value, 1e-6*w.value) {
			t.Errorf("%s of %s: %v, want %v", w.name, w.subject, got[q], w.value)
		}
	}
}

// swing samples the force on the only bearing of a driveline and returns how far it
// goes from its steady part.
func swing(t *testing.T, s *survey.Survey, d *kinematics.Driveline) float64 {
	t.Helper()
	force := s.Loads(d).Forces.Bearings[0].Force
	farthest := 0.0
	for theta := 0.0; theta < math.Pi; theta += math.Pi / 7200 {
		farthest = max(farthest, r3.Norm(r3.Sub(force.At(theta), force.Steady)))
	}
	return farthest
}

// angleOf inverts the non-uniformity U = 1/cos β − cos β and returns β in deg.
func angleOf(u float64) float64 {
	return math.Acos((math.Sqrt(u*u+4)-u)/2) * 180 / math.Pi
}

func TestGaugeOfADoubleCardanJoint(t *testing.T) {
	t.Parallel()
	s := jointed("d", "v", "c")
	for i, slope := range []float64{0, 9, 20, 20} {
		s.Shafts[i].Slope = survey.Down(slope)
	}
	s.Joints[0].SynchronousDeg = 30
	s.Limits = alone(survey.LimitEquivalentAngle, 3)
	g, d := gauged(t, s)
	// Halves by sin β₂ = sin β/(2·cos 15°), which work against each other; the
	// Cardan joint behind stands straight and leaves it at that.
	driven := math.Asin(math.Sin(9*kinematics.Degree) / (2 * math.Cos(15*kinematics.Degree)))
	ratio := math.Cos(driven) / math.Cos(9*kinematics.Degree-driven)
	want := math.Acos(min(ratio, 1/ratio)) / kinematics.Degree
	got := g.Measure(d, nil)
	if len(got) != 2 || g.Judged[0].Subject != "shaft 4" || g.Judged[1].Subject != "joint 1" {
		t.Fatalf("%d quantities, want that of the last shaft and that of joint 1", len(got))
	}
	for q, v := range got {
		if !near(v, want, 1e-9) {
			t.Errorf("%s is left with %v deg, want %v", g.Judged[q].Subject, v, want)
		}
	}
}

// The mismatch of two joints in closed form: with the yokes turned or the planes
// twisted by δ it is |β₁² − β₂²·e^{2jδ}|/(β₁ + β₂), also across a constant-velocity
// joint, which adds no quarter turn.
func TestMismatch(t *testing.T) {
	t.Parallel()
	closed := func(a, b, delta float64) float64 {
		sin, cos := math.Sincos(2 * delta * math.Pi / 180)
		return math.Hypot(a*a-b*b*cos, b*b*sin) / (a + b)
	}
	for _, test := range []struct {
		name, text string
		want       float64
	}{
		{"in phase, in one plane", `{"shafts": [{"down": 0}, {"down": 4}, {"down": 1.5}]}`, 1.5},
		{"bent the same way", `{"shafts": [{"down": 0}, {"down": 4}, {"down": 6.5}]}`, 1.5},
		{"a quarter turn out", `{"shafts": [{"down": 0}, {"down": 1.9, "phase": 90}, {"down": 0}]}`, 1.9},
		{"a quarter turn out, unequal", `{"shafts": [{"down": 0}, {"down": 4, "phase": 90}, {"down": 1.5}]}`, closed(4, 2.5, 90)},
		{"a tooth out", `{"shafts": [{"down": 1}, {"down": 6, "phase": 22.5}, {"down": 1}]}`, closed(5, 5, 22.5)},
		{"a tooth out the other way", `{"shafts": [{"down": 1}, {"down": 6, "phase": -22.5}, {"down": 2}]}`, closed(5, 4, 22.5)},
		{"half a turn is none", `{"shafts": [{"down": 0}, {"down": 4, "phase": 180}, {"down": 1.5}]}`, 1.5},
		{"both straight", `{"shafts": [{"down": 2}, {"down": 2, "phase": 90}, {"down": 2}]}`, 0},
		{"across a constant-velocity joint", `{"shafts": [{"down": 0}, {"down": 3, "phase": 0}, {"down": 8, "phase": 0}, {"down": 4}],
			"joints": [{}, {"kind": "constant-velocity"}, {}]}`, 1},
		{"across it, a quarter turn out", `{"shafts": [{"down": 0}, {"down": 3, "phase": 60}, {"down": 8, "phase": 30}, {"down": 4}],
			"joints": [{}, {"kind": "constant-velocity"}, {}]}`, 25.0 / 7},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := driveline(t, test.text)
			s.Limits = alone(survey.LimitCompanionDifference, 1)
			g, d := gauged(t, s)
			if got := g.Measure(d, nil); len(got) != 1 || !near(got[0], test.want, 1e-9) {
				t.Errorf("mismatch %v deg, want %v", got, test.want)
			}
		})
	}
	// In planes square to each other, 2 deg each: the
	// second joint's angle is that between (1, 0, −tan 2°) and (1, −tan 2°, −tan 2°).
	s := driveline(t, `{"shafts": [{"down": 0}, {"down": 2, "phase": 0}, {"down": 2, "right": 2}]}`)
	s.Limits = alone(survey.LimitCompanionDifference, 1)
	g, d := gauged(t, s)
	tan := math.Tan(2 * math.Pi / 180)
	second := math.Atan(tan/math.Sqrt(1+tan*tan)) * 180 / math.Pi
	if got := g.Measure(d, nil)[0]; !near(got, (4+second*second)/(2+second), 1e-6) {
		t.Errorf("mismatch %v deg in planes square to each other, want %v", got, (4+second*second)/(2+second))
	}
}

// What a sweep shows is what is judged, and what the motion and the small-angle
// theory give of the rest.
func TestGaugeShows(t *testing.T) {
	t.Parallel()
	s := everyLimit(t)
	g, d := gauged(t, s)
	shown, judged := g.Show(d, nil), g.Measure(d, nil)
	second := d.SecondOrder()
	keys := map[string]int{}
	for i, q := range g.Shown {
		keys[q.Key]++
		switch q.Key {
		case firstOrderAngle.Key:
			if want := second.Equivalent * 180 / math.Pi; !near(shown[i], want, 1e-9) {
				t.Errorf("%v deg by the first order, want %v", shown[i], want)
			}
		case exactAngle.Key:
			if want := second.Exact * 180 / math.Pi; !near(shown[i], want, 1e-9) {
				t.Errorf("%v deg exactly, want %v", shown[i], want)
			}
		}
		for k, j := range g.Judged {
			if j.Quantity == q.Quantity && j.Subject == q.Subject && (shown[i] != judged[k] ||
				!(q.AtMost <= j.Limit.Value) && j.Limit.Sense == AtMost || !(q.AtLeast >= j.Limit.Value) && j.Limit.Sense == AtLeast) {
				t.Errorf("%s of %s is shown as %v up to %v, judged as %v by %v", q.Name, q.Subject, shown[i], q.AtMost, judged[k], j.Limit.Value)
			}
		}
	}
	want := map[string]int{"working_angle_deg": 3, "mismatch_deg": 1, "exact_equivalent_angle_deg": 1, "equivalent_angle_deg": 1,
		"nonuniformity": 1, "residual_accel_rad_s2": 1, "inertia_drive_accel_rad_s2": 2, "inertia_coast_accel_rad_s2": 2, "bearing_swing_n": 1}
	if !maps.Equal(keys, want) {
		t.Errorf("shown %v, want %v", keys, want)
	}
}

func TestGaugeDoesNotAllocate(t *testing.T) {
	s := everyLimit(t)
	g, d := gauged(t, s)
	dst := g.Measure(d, nil)
	if n := testing.AllocsPerRun(100, func() { dst = g.Measure(d, dst) }); n > 0 {
		t.Errorf("%v allocations, want none", n)
	}
}

// Clones do not share what they measure with.
func TestGaugeClones(t *testing.T) {
	t.Parallel()
	s := everyLimit(t)
	g, d := gauged(t, s)
	straight, err := inPlane(0, 0, 0, 0).Driveline()
	if err != nil {
		t.Fatal(err)
	}
	c := g.Clone()
	want := g.Measure(d, nil)
	c.Measure(straight, nil)
	for q, j := range g.Judged {
		if got := g.value(j.measured); got != want[q] {
			t.Errorf("%s of %s: %v after a clone measured, want %v", j.Limit.Name, j.Subject, got, want[q])
		}
	}
}

func TestGaugeWithoutSpeed(t *testing.T) {
	t.Parallel()
	s := everyLimit(t)
	s.RPM = 0
	g, err := NewGauge(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, j := range g.Judged {
		if kindOf(j.Limit.Name).power > 0 {
			t.Errorf("%s is judged without a speed", j.Limit.Name)
		}
	}
	want := []string{
		"working angle by speed", "shake left", "acceleration when driving",
		"acceleration when coasting", "speed times working angle",
	}
	if !slices.Equal(g.LeftOut, want) {
		t.Errorf("left out %q, want %q", g.LeftOut, want)
	}
}

// One evaluation of a search: set another arrangement and measure everything.
func BenchmarkMeasure(b *testing.B) {
	s := everyLimit(b)
	g, d := gauged(b, s)
	shafts := d.Shafts()
	var dst []float64
	b.ReportAllocs()
	for b.Loop() {
		if err := d.Set(shafts); err != nil {
			b.Fatal(err)
		}
		dst = g.Measure(d, dst)
	}
}

func BenchmarkJudge(b *testing.B) {
	s := everyLimit(b)
	for b.Loop() {
		if _, err := Judge(b.Context(), s); err != nil {
			b.Fatal(err)
		}
	}
}
