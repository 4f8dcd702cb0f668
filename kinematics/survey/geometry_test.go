package survey_test

import (
	"math"
	"reflect"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// A few roundings of numbers near 1.
const tolerance = 10 * 0x1p-52

func TestAxes(t *testing.T) {
	t.Parallel()
	at := func(along, right, down float64) survey.Joint {
		return survey.Joint{At: &survey.Point{Along: along, Right: right, Down: down}}
	}
	for _, test := range []struct {
		name   string
		shafts []survey.Shaft
		joints []survey.Joint
		want   []r3.Vec // any length
	}{
		{
			name: "slopes", // x̂ level along the flow, ŷ left, ẑ up: down and right are negative
			shafts: []survey.Shaft{
				{Slope: survey.Down(0)},
				{Slope: survey.Down(45)},
				{Slope: survey.Down(0), Heading: survey.Right(44, 46)},
				{Slope: survey.Turned(3, -3)},
				{Slope: survey.Down(-45), Heading: survey.Right(-45)},
			},
			want: []r3.Vec{{X: 1}, {X: 1, Z: -1}, {X: 1, Y: -1}, {X: 1}, {X: 1, Y: 1, Z: 1}},
		},
		{
			name: "incline", // of the space diagonal of a cube: tan = 1/√2
			shafts: []survey.Shaft{
				{Slope: survey.Incline(math.Atan(math.Sqrt2/2) / kinematics.Degree), Heading: survey.Right(45)},
				{Slope: survey.Incline(0)},
			},
			want: []r3.Vec{{X: 1, Y: -1, Z: -1}, {X: 1}},
		},
		{
			name:   "positions",
			shafts: []survey.Shaft{{Slope: survey.Down(45)}, {}, {}, {Slope: survey.Down(0), Heading: survey.Right(45)}},
			joints: []survey.Joint{at(10, 20, 30), at(13, 22, 31), at(18, 20, 25)},
			want:   []r3.Vec{{X: 1, Z: -1}, {X: 3, Y: -2, Z: -1}, {X: 5, Y: 2, Z: 6}, {X: 1, Y: -1}},
		},
		{
			name:   "positions say nothing about the ends",
			shafts: []survey.Shaft{{Slope: survey.Down(45)}, {Slope: survey.Down(0)}},
			joints: []survey.Joint{at(1, 2, 3)},
			want:   []r3.Vec{{X: 1, Z: -1}, {X: 1}},
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := &survey.Survey{Shafts: test.shafts, Joints: test.joints}
			if err := s.Validate(); err != nil {
				t.Fatal(err)
			}
			for i, got := range s.Axes() {
				if gap := r3.Norm(r3.Sub(r3.Unit(got), r3.Unit(test.want[i]))); !(gap <= tolerance) {
					t.Errorf("shaft %d: got %v, want along %v", i, got, test.want[i])
				}
			}
			if _, err := s.Driveline(); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestDriveline(t *testing.T) {
	t.Parallel()
	d, err := slopes().Complete().Driveline()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{0, -math.Pi / 6, 0, 0} {
		if got := d.Shafts()[i].Phase; !scalar.EqualWithinAbs(got, want, tolerance) {
			t.Errorf("shaft %d: got phase %g, want %g", i, got, want)
		}
	}
	want := []kinematics.Joint{
		{Kind: kinematics.ConstantVelocity},
		{Kind: kinematics.DoubleCardan, Synchronous: 12.5 * math.Pi / 180},
		{Kind: kinematics.Cardan},
	}
	if got := d.Joints(); !reflect.DeepEqual(got, want) {
		t.Errorf("got joints %v, want %v", got, want)
	}
}

func TestLengths(t *testing.T) {
	t.Parallel()
	if got, want := slopes().Lengths(), []float64{680, 940, 1e-3, 240}; !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	s := positions()
	s.Shafts[0].Length = 24
	got := s.Lengths()
	want := math.Sqrt(38.25*38.25 + 0.75*0.75 + 11.25*11.25)
	if got[0] != 24 || !scalar.EqualWithinRel(got[1], want, tolerance) || got[2] != 0 {
		t.Errorf("got %v, want [24 %g 0]", got, want)
	}
}

func TestReadingsMean(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		readings survey.Readings
		want     float64
	}{
		{nil, 0},
		{survey.Readings{6.1}, 6.1},
		{survey.Readings{1, 2, 6}, 3},
	} {
		if got := test.readings.Mean(); got != test.want {
			t.Errorf("%v: got %g, want %g", test.readings, got, test.want)
		}
	}
}

func TestIn(t *testing.T) {
	t.Parallel()
	base := slopes()
	laden := base.In(base.Poses[1])
	want := base.Complete()
	want.Poses, want.RPM = nil, 0
	want.Limits.Set = survey.SetSlowHeavy
	want.Limits.Off = []string{survey.LimitOddJointMax, survey.LimitOddJointMin, survey.LimitSpeedAngle}
	want.Shafts[0].Slope = survey.Incline(2)
	want.Shafts[3].Slope, want.Shafts[3].Heading = survey.Down(1, 2), survey.Right(0.5)
	if !reflect.DeepEqual(laden, want) {
		t.Errorf("got\n%+v\nwant\n%+v", laden, want)
	}
	if !reflect.DeepEqual(base, slopes()) {
		t.Error("the pose changed the driveline it was made from")
	}

	base = positions()
	droop := base.In(base.Poses[0])
	if got, want := *droop.Joints[1].At, (survey.Point{Along: 37, Right: -18.75, Down: 21.5}); got != want {
		t.Errorf("got joint at %v, want %v", got, want)
	}
	droop.Joints[1].At.Down = 0
	if !reflect.DeepEqual(base, positions()) {
		t.Error("the pose shares a position with the driveline it was made from")
	}
}

func TestTyreDiameter(t *testing.T) {
	t.Parallel()
	// Turns per second at 5 mph from the nominal diameter, recomputed for two
	// sizes that a workshop manual prints (GM, Cadillac Seville 2003, tyre
	// rotational speed; its own 1.06 and 1.00 are of the loaded, rolling tyre).
	const mph = 1609.344e3 / 3600 // mm/s
	for _, test := range []struct {
		size string
		want float64
	}{
		{"P235/60R16", 1.03354},
		{"P235/75R15", 0.969988},
	} {
		diameter, ok := survey.TyreDiameter(test.size)
		if got := 5 * mph / (math.Pi * diameter); !ok || !scalar.EqualWithinRel(got, test.want, 5e-6) { // six digits given
			t.Errorf("%s: got %g turns a second, want %g", test.size, got, test.want)
		}
	}
	for size, want := range map[string]float64{ // by what is printed on it
		"31x10.5R15": 31 * 25.4, "33.5x12.50R16LT": 33.5 * 25.4, "35x12.50-17": 35 * 25.4, "31X10.50R15": 31 * 25.4,
		"205/65R16C": 672.9, "205/65R16C 107/105T": 672.9, "225/70-15": 696, "235/85R16LT": 805.9, "LT235/85R16": 805.9,
	} {
		if got, ok := survey.TyreDiameter(size); !ok || got != want {
			t.Errorf("%s: got %g mm, want %g", size, got, want)
		}
	}
	for _, size := range []string{"235/60", "195R14C", "11R22.5", "7.50R16"} { // these do not print how high the section is
		if _, ok := survey.TyreDiameter(size); ok {
			t.Errorf("got a diameter for %s", size)
		}
	}
}

func TestMillimetres(t *testing.T) {
	t.Parallel()
	for unit, want := range map[survey.Unit]float64{"": 2, survey.Millimetre: 2, survey.Inch: 50.8} {
		if got := unit.Millimetres(2); got != want {
			t.Errorf("2 %s: got %g mm, want %g", unit, got, want)
		}
	}
}

// The limits of a pose go before those of the driveline, whose others stay.
func TestInMergesLimits(t *testing.T) {
	t.Parallel()
	values := func(pairs ...any) map[string]float64 {
		m := make(map[string]float64)
		for i := 0; i < len(pairs); i += 2 {
			m[pairs[i].(string)] = pairs[i+1].(float64)
		}
		return m
	}
	base := &survey.Survey{Shafts: level(2), Limits: survey.Limits{
		Values: values(survey.LimitNonuniformity, 1.0, survey.LimitWorkingAngleMax, 2.0, survey.LimitSpeedAngle, 3.0),
		Off:    []string{survey.LimitOddJointMax, survey.LimitEquivalentAngle},
	}}
	got := base.In(survey.Pose{Limits: survey.Limits{
		Set:    survey.SetMachinery,
		Values: values(survey.LimitWorkingAngleMax, 9.0, survey.LimitOddJointMax, 8.0),
		Off:    []string{survey.LimitSpeedAngle},
	}}).Limits
	want := survey.Limits{
		Set:    survey.SetMachinery,
		Values: values(survey.LimitNonuniformity, 1.0, survey.LimitWorkingAngleMax, 9.0, survey.LimitOddJointMax, 8.0),
		Off:    []string{survey.LimitEquivalentAngle, survey.LimitSpeedAngle},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

// The speed of a pose goes before rpm and before the road's; at 0 there is none.
func TestInSpeed(t *testing.T) {
	t.Parallel()
	for _, base := range []*survey.Survey{
		{Shafts: level(2), RPM: 900},
		onRoad(survey.Road{SpeedKMH: 90, RollingRadius: 330, FinalDrive: 4}),
	} {
		own := base.ShaftRPM()
		for _, test := range []struct {
			rpm  *float64
			want float64
		}{{nil, own}, {new(300.0), 300}, {new(0.0), 0}} {
			if got := base.In(survey.Pose{RPM: test.rpm}).ShaftRPM(); got != test.want {
				t.Errorf("got %g rpm, want %g", got, test.want)
			}
		}
		if base.ShaftRPM() != own {
			t.Error("the pose changed the speed of the driveline it was made from")
		}
	}
}
