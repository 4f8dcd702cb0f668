package adjust

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

func sweep(t *testing.T, s *survey.Survey, specs ...string) *Sweep {
	t.Helper()
	var variables []Variable
	for _, spec := range specs {
		v, err := ParseVariable(s, spec)
		if err != nil {
			t.Fatal(err)
		}
		variables = append(variables, v)
	}
	w, err := NewSweep(t.Context(), s, all(t, s), variables, nil)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// all returns every quantity of a survey.
func all(t testing.TB, s *survey.Survey) []Quantity {
	t.Helper()
	quantities, err := ParseQuantities(s)
	if err != nil {
		t.Fatal(err)
	}
	return quantities
}

func (w *Sweep) find(t *testing.T, key, subject string) Series {
	t.Helper()
	i := slices.IndexFunc(w.Series, func(s Series) bool { return s.Key == key && s.Subject == subject })
	if i < 0 {
		t.Fatalf("no series %s of %q", key, subject)
	}
	return w.Series[i]
}

// TestSweepReadsTheSurvey writes the values into the survey and reads every
// quantity anew, straight from the model.
func TestSweepReadsTheSurvey(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name string
		s    *survey.Survey
		spec string
		set  func(s *survey.Survey, v float64)
	}{
		{"speed", twoPiece(), "rpm=500:4000:500", func(s *survey.Survey, v float64) { s.RPM = v }},
		{"slope", twoPiece(), "rear shaft.down=2:9:0.5", func(s *survey.Survey, v float64) { s.Shafts[2].Slope.Deg[0] = v }},
		{"incline instead of slope", twoPiece(), "rear shaft.incline=2:9:0.5", func(s *survey.Survey, v float64) {
			s.Shafts[2].Slope = survey.Incline(v)
		}},
		{"heading", twoPiece(), "gearbox output.right=-3:3:0.5", func(s *survey.Survey, v float64) { s.Shafts[0].Heading.Values[0] = v }},
		{"phase", twoPiece(), "rear shaft.phase=0:90:15", func(s *survey.Survey, v float64) { s.Shafts[2].PhaseDeg = survey.Readings{v} }},
		{"position", positioned(), "centre joint.at.right=-20:20:5", func(s *survey.Survey, v float64) { s.Joints[1].At.Right = v }},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			w := sweep(t, tt.s, tt.spec)
			for i, v := range w.Axes[0] {
				tt.set(tt.s, v) // the sweep is done with it
				checkPoint(t, w, i, tt.s)
			}
		})
	}
}

// checkPoint compares the point of a sweep with a survey.
func checkPoint(t *testing.T, w *Sweep, index int, s *survey.Survey) {
	t.Helper()
	d, err := s.Driveline()
	if err != nil {
		t.Fatal(err)
	}
	driving, coasting := d.Driving(nil), d.Coasting(nil)
	omega := s.RPM * kinematics.RPM
	check := func(key, subject string, want float64) {
		t.Helper()
		// A corrected survey is rounded to 1e-6°, some 2e-8 rad, which is 2e-6 of the
		// smallest bends here, 0.01 rad.
		if got := w.find(t, key, subject).Values[index]; math.Abs(got-want) > 5e-6*max(1, want) {
			t.Errorf("point %d, %s of %s: got %v, want %v", index, key, subject, got, want)
		}
	}
	for k, j := range s.Joints {
		check("working_angle_deg", j.Name, d.Bend(k).Angle/kinematics.Degree)
	}
	check("exact_equivalent_angle_deg", "axle pinion", d.SecondOrder().Exact/kinematics.Degree)
	check("equivalent_angle_deg", "axle pinion", d.SecondOrder().Equivalent/kinematics.Degree)
	check("nonuniformity", "axle pinion", driving[3].MaxRatio()-driving[3].MinRatio())
	check("residual_accel_rad_s2", "axle pinion", omega*omega*driving[3].PeakAccel())
	check("inertia_drive_accel_rad_s2", "rear shaft", omega*omega*driving[2].PeakAccel())
	check("inertia_coast_accel_rad_s2", "rear shaft", omega*omega*coasting[2].PeakAccel())
	check("bearing_swing_n", "front shaft", s.Loads(d).Forces.Bearings[0].Force.Swing())
	gauge, err := limits.NewGauge(s)
	if err != nil {
		t.Fatal(err)
	}
	least := math.Inf(1)
	for q, v := range gauge.Measure(d, nil) {
		least = min(least, gauge.Judged[q].Limit.Margin(v))
	}
	check(KeyMargin, "", least)
}

// TestMapOfTwoChanges compares with the corrected surveys.
func TestMapOfTwoChanges(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	w := sweep(t, s, "wedge(axle pinion)=-2:2:1", "bearing-height(centre joint)=0:9:3")
	for i, wedge := range w.Axes[0] {
		for j, height := range w.Axes[1] {
			made := map[survey.Change]float64{
				{Change: "wedge", On: "axle pinion"}:           wedge,
				{Change: "bearing-height", On: "centre joint"}: height,
			}
			checkPoint(t, w, i*len(w.Axes[1])+j, corrected(s, settingsOf(t, s, made)))
		}
	}
}

// TestMapOfFieldAndChange holds that a change follows the geometry that the
// other variable makes.
func TestMapOfFieldAndChange(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	w := sweep(t, s, "bearing-side(centre joint)=-6:6:6", "rear shaft.down=4:8:2")
	for i, side := range w.Axes[0] {
		for j, down := range w.Axes[1] {
			s.Shafts[2].Slope.Deg[0] = down
			made := map[survey.Change]float64{{Change: "bearing-side", On: "centre joint"}: side}
			checkPoint(t, w, i*len(w.Axes[1])+j, corrected(s, settingsOf(t, s, made)))
		}
	}
}

func TestSweepPresentAndBest(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 1)
	w := sweep(t, s, "wedge(axle pinion)=-4:4:0.5")
	left := w.find(t, "residual_accel_rad_s2", "axle pinion")
	if got := w.Axes[0][left.Best]; got != 2 { // the pinion parallel to the gearbox output
		t.Errorf("best: got a wedge of %v deg, want 2", got)
	}
	want := left.Values[slices.Index(w.Axes[0], 0)]
	if w.Present[0] != 0 || math.Abs(left.Present-want) > 1e-9*want { // some roundings
		t.Errorf("present: got %v at %v, want %v at 0", left.Present, w.Present[0], want)
	}
	margins := w.find(t, KeyMargin, "")
	if most := slices.Max(margins.Values); margins.Values[margins.Best] != most || margins.AtLeast[0] != 0 {
		t.Errorf("margin: got best %v against %v, want %v against 0", margins.Values[margins.Best], margins.AtLeast[0], most)
	}
	slope := sweep(t, s, "shaft.down=0:9:1")
	if slope.Present[0] != 6 {
		t.Errorf("present slope: got %v deg, want 6", slope.Present[0])
	}
}

func TestSweepLimits(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	s.Limits.Values = map[string]float64{survey.LimitWorkingAngleMax: 3, survey.LimitOddJointMax: 1.25, survey.LimitOddJointMin: 0.4, survey.LimitWorkingAngleMin: 0.4}
	w := sweep(t, s, "rear shaft.down=2:9:1")
	tests := []struct {
		key, subject    string
		atMost, atLeast float64
	}{
		{"working_angle_deg", "front joint", 1.25, 0.4}, // odd, the tighter limit
		{"working_angle_deg", "centre joint", 3, 0.4},
		{"nonuniformity", "axle pinion", math.NaN(), math.NaN()},
	}
	same := func(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
	for _, tt := range tests {
		got := w.find(t, tt.key, tt.subject)
		if !same(got.AtMost[0], tt.atMost) || !same(got.AtLeast[0], tt.atLeast) {
			t.Errorf("%s of %s: got limits %v and %v, want %v and %v", tt.key, tt.subject, got.AtMost[0], got.AtLeast[0], tt.atMost, tt.atLeast)
		}
	}
	// A limit that depends on speed is that of each point.
	s.Limits = survey.Limits{}
	fast := sweep(t, s, "rpm=1000:6000:1000").find(t, "working_angle_deg", "pinion joint")
	if first, last := fast.AtMost[0], fast.AtMost[5]; !(last < first) {
		t.Errorf("largest working angle: got %v deg at 1000 rpm and %v at 6000, want it to fall", first, last)
	}
}

func TestSweepBeyondADriveline(t *testing.T) {
	t.Parallel()
	s := onePiece(0, 60, 0)
	w := sweep(t, s, "gearbox output.down=-29:0:1", "axle pinion.down=-29:0:29")
	for _, series := range w.Series {
		if got := series.Values[0]; math.IsNaN(got) { // bends of 89°
			t.Errorf("%s at -29 deg: got NaN, want a value", series.Key)
		}
	}
	// Each end by itself is a driveline, both together are not.
	s = onePiece(0, 60, 0)
	w = sweep(t, s, "mount(gearbox output)=0:600:50", "wedge(axle pinion)=-5:0:5")
	angle := w.find(t, "working_angle_deg", "joint 1")
	last := len(angle.Values) - 1
	if math.IsNaN(angle.Values[1]) || !math.IsNaN(angle.Values[last]) {
		t.Errorf("got %v as measured and %v with the mount 600 mm higher, want a number and NaN", angle.Values[1], angle.Values[last])
	}
	if angle.Best == last {
		t.Error("the best point is no driveline")
	}
}

// However many points there are, the last one is read too.
func TestSweepReadsItsLastPoint(t *testing.T) {
	t.Parallel()
	for _, points := range []int{blockPoints - 1, blockPoints, blockPoints + 1} {
		w := sweep(t, onePiece(0, 12, 4), fmt.Sprintf("axle pinion.down=0.1:%g:0.1", float64(points)/10))
		angle := w.find(t, "working_angle_deg", "joint 2").Values
		if want := math.Abs(float64(points)/10 - 12); len(angle) != points || math.Abs(angle[points-1]-want) > 1e-9 {
			t.Errorf("%d points: got %v deg at the last, want %v", len(angle), angle[len(angle)-1], want)
		}
	}
}

// What depends on a speed has no value where none is known, and is 0 at standstill.
func TestSweepWithoutASpeed(t *testing.T) {
	t.Parallel()
	s := onePiece(0, 12, 4)
	s.RPM = 0
	const shake, left = "residual_accel_rad_s2", "exact_equivalent_angle_deg"
	w := sweep(t, s, "axle pinion.down=0:8:4")
	if got := w.find(t, shake, "axle pinion"); !math.IsNaN(got.Values[0]) || got.Best >= 0 {
		t.Errorf("shake left without a speed: got %v, the best at %d, want NaN and none", got.Values, got.Best)
	}
	if got := w.find(t, left, "axle pinion"); math.IsNaN(got.Values[1]) {
		t.Error("the equivalent angle needs no speed, got NaN")
	}
	if got := sweep(t, s, "rpm=0:1000:500").find(t, shake, "axle pinion"); got.Values[0] != 0 || !(got.Values[1] > 0) {
		t.Errorf("shake left from standstill up: got %v", got.Values)
	}
}

func TestSweepFaults(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	parse := func(spec string) Variable {
		v, err := ParseVariable(s, spec)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	slope, speed := parse("rear shaft.down=1:2:0.0001"), parse("rpm=1:1000:1")
	endless := speed
	endless.To = math.NaN()
	bearing := parse("bearing-height(centre joint)=0:1:1")
	short := twoPiece()
	short.Shafts[1].Length = 0
	tests := []struct {
		name      string
		s         *survey.Survey
		variables []Variable
		want      string
	}{
		{"not parsed", s, []Variable{{}}, `variable "" from 0 to 0 by 0: want one of ParseVariable`},
		{"no number", s, []Variable{endless}, `variable "rpm" from 1 to NaN by 1: want one of ParseVariable`},
		{"none", s, nil, "0 variables: want one or two"},
		{"three", s, []Variable{slope, speed, bearing}, "3 variables: want one or two"},
		{"twice the same", s, []Variable{slope, slope}, "rear shaft.down is varied twice"},
		{"too much", s, []Variable{slope, speed}, "10001000 points of "},
		{"missing length", short, []Variable{bearing}, `want the length of "front shaft"`},
	}
	for _, tt := range tests {
		if _, err := NewSweep(t.Context(), tt.s, all(t, tt.s), tt.variables, nil); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got error %v, want one with %q", tt.name, err, tt.want)
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := NewSweep(ctx, s, all(t, s), []Variable{slope}, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("got error %v, want %v", err, context.Canceled)
	}
}

// What a sweep takes is bounded by the joints that it measures.
func TestSweepOfLongDriveline(t *testing.T) {
	t.Parallel()
	s := &survey.Survey{RPM: 1000}
	for k := range 64 {
		s.Shafts = append(s.Shafts, survey.Shaft{Slope: survey.Down(float64(k % 3))})
	}
	s = s.Complete()
	margin, err := ParseQuantities(s, KeyMargin)
	if err != nil {
		t.Fatal(err)
	}
	var variables []Variable
	for _, spec := range []string{"rpm=1:700:1", s.Shafts[1].Name + ".down=1:5:0.01"} {
		v, err := ParseVariable(s, spec)
		if err != nil {
			t.Fatal(err)
		}
		variables = append(variables, v)
	}
	const want = "280700 points of 63 joints: want at most 266305 points: give larger steps"
	if w, err := NewSweep(t.Context(), s, margin, variables, nil); w != nil || err == nil || err.Error() != want {
		t.Errorf("got error %v, want %s", err, want)
	}
}

// A sweep tells how far it is, and ends at once when it is interrupted.
func TestSweepProgress(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	speed, err := ParseVariable(s, "rpm=1:4000:1")
	if err != nil {
		t.Fatal(err)
	}
	var told []int64
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	tell := func(done, all int64, thing string) {
		if all != 4000 || thing != "point" {
			t.Errorf("told of %d %ss, want 4000 points", all, thing)
		}
		told = append(told, done)
		if len(told) == 4 {
			cancel()
		}
	}
	if _, err := NewSweep(ctx, s, all(t, s), []Variable{speed}, tell); !errors.Is(err, context.Canceled) {
		t.Errorf("got error %v, want %v", err, context.Canceled)
	}
	if most := int64((len(told) + runtime.GOMAXPROCS(0)) * blockPoints); !slices.IsSorted(told) || told[len(told)-1] > most {
		t.Errorf("told %v, want rising numbers up to %d", told, most)
	}
}
