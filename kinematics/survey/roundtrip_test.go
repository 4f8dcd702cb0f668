package survey_test

import (
	"bytes"
	"math"
	"reflect"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// slopes and positions together use every field of a file; no driveline can have
// all of them at once.

func slopes() *survey.Survey {
	return &survey.Survey{
		Name: "Everything by slopes", Note: "first line <&>\n\tsecond line, ½°",
		RPM: 2800.5, TorqueNM: 1200, ReadingErrorDeg: 0.1, GaugeErrorDeg: 0.2, GaugeResolutionDeg: 0.05, PhaseErrorDeg: 1, TapeError: 2,
		Shafts: []survey.Shaft{
			{Name: "output", Slope: survey.Down(3.4), Length: 680},
			{Name: "front", Slope: survey.Incline(3.8, 3.7, 3.75), Heading: survey.Right(-1.2), Length: 940, PhaseDeg: survey.Readings{-30}},
			{Slope: survey.Down(0), Length: 1e-3, Bearing: new(0.0)},
			{Name: "pinion", Slope: survey.Turned(2.25, 2), Heading: survey.Offset(-3), Length: 240},
		},
		Joints: []survey.Joint{
			{Name: "odd", Kind: kinematics.ConstantVelocity},
			{Name: "wide", Kind: kinematics.DoubleCardan, SynchronousDeg: 12.5},
			{},
		},
		Limits: survey.Limits{
			Set: survey.SetMachinery,
			Values: map[string]float64{
				survey.LimitWorkingAngleMax: 7, survey.LimitNonuniformity: 0.0027,
			},
			Off: []string{survey.LimitOddJointMax, survey.LimitSpeedAngle},
		},
		Adjust: []survey.Change{
			{Change: survey.ChangeWedge, On: "pinion", From: -4, To: 4, Step: 0.5},
			{Change: survey.ChangeClocking, On: "shaft 3", From: 0, To: 360, Step: 360. / 26},
			{Change: survey.ChangeBearingHeight, On: "wide", From: 0, To: 0},
		},
		Poses: []survey.Pose{
			{Name: "as measured"},
			{Name: "laden", Kind: survey.Load, RPM: new(0.0), Limits: survey.Limits{Set: survey.SetSlowHeavy, Off: []string{survey.LimitOddJointMin}}, Shafts: []survey.PoseShaft{
				{Name: "output", Slope: survey.Incline(2)},
				{Name: "pinion", Slope: survey.Down(1, 2), Heading: survey.Right(0.5)},
			}},
		},
	}
}

func positions() *survey.Survey {
	return &survey.Survey{
		Units: survey.Inch, TapeError: 0.125,
		Shafts: []survey.Shaft{{Slope: survey.Down(0)}, {}, {Slope: survey.Down(0)}},
		Joints: []survey.Joint{
			{At: &survey.Point{Along: 0, Right: -19.5, Down: 6.25}, Companions: []string{"joint 2"}},
			{At: &survey.Point{Along: 38.25, Right: -18.75, Down: 17.5}},
		},
		Road: &survey.Road{SpeedMPH: 65, Tyre: "LT285/70R17", FinalDrive: 4.1},
		Poses: []survey.Pose{{Name: "droop", Joints: []survey.PoseJoint{
			{Name: "joint 2", At: &survey.Point{Along: 37, Right: -18.75, Down: 21.5}},
		}}},
	}
}

// level are shafts that lie level and straight along.
func level(n int) []survey.Shaft {
	shafts := make([]survey.Shaft, n)
	for i := range shafts {
		shafts[i].Slope = survey.Down(0)
	}
	return shafts
}

func onRoad(road survey.Road) *survey.Survey {
	return &survey.Survey{Shafts: level(2), Road: &road}
}

func TestRoundTrip(t *testing.T) {
	t.Parallel()
	used := make(map[string]bool) // fields that are not zero in some case
	for _, test := range []struct {
		name   string
		survey *survey.Survey
	}{
		{"least", &survey.Survey{Shafts: level(2)}},
		{"slopes", slopes()},
		{"positions", positions()},
		{"group", &survey.Survey{Shafts: level(4), Joints: []survey.Joint{{Companions: []string{"joint 2", "joint 3"}}, {}, {}}}},
		{"speed in km/h", onRoad(survey.Road{SpeedKMH: 90, RollingRadius: 330, FinalDrive: 1})},
		{"tyre by diameter", onRoad(survey.Road{TyreDiameter: 690, FinalDrive: 3.73})},
	} {
		t.Run(test.name, func(t *testing.T) {
			var file bytes.Buffer
			if err := test.survey.Write(&file); err != nil {
				t.Fatal(err)
			}
			got, err := survey.Read("written.json", bytes.NewReader(file.Bytes()))
			if err != nil {
				t.Fatalf("%v\n%s", err, file.Bytes())
			}
			if want := test.survey.Complete(); !reflect.DeepEqual(got, want) {
				t.Errorf("got\n%+v\nwant\n%+v\nfrom\n%s", got, want, file.Bytes())
			}
			walk(reflect.ValueOf(test.survey), func(field string, v reflect.Value) {
				used[field] = used[field] || !v.IsZero()
			})
		})
	}
	for field, used := range used {
		if !used {
			t.Errorf("no case has %s", field)
		}
	}
}

// walk calls f for every field of every struct reached from v.
func walk(v reflect.Value, f func(field string, v reflect.Value)) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			walk(v.Elem(), f)
		}
	case reflect.Slice:
		for i := range v.Len() {
			walk(v.Index(i), f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f(v.Type().Name()+"."+v.Type().Field(i).Name, v.Field(i))
			walk(v.Field(i), f)
		}
	}
}

// Every number of a Survey built in code is checked for being one.
func TestValidateNaN(t *testing.T) {
	t.Parallel()
	for _, build := range []func() *survey.Survey{
		slopes,
		positions,
		func() *survey.Survey {
			return onRoad(survey.Road{SpeedKMH: 90, RollingRadius: 330, FinalDrive: 1})
		},
	} {
		if err := build().Validate(); err != nil {
			t.Fatal(err)
		}
		for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			for i := 0; ; i++ {
				s := build()
				number, field := nthNumber(s, i)
				if !number.IsValid() {
					break
				}
				number.SetFloat(bad)
				if err := s.Validate(); err == nil {
					t.Errorf("got no error for %s = %g", field, bad)
				}
			}
		}
	}
}

// nthNumber returns the number n of s in the order of walk, and its name; the
// value is invalid when there are fewer.
func nthNumber(s *survey.Survey, n int) (number reflect.Value, name string) {
	count := 0
	take := func(field string, v reflect.Value) {
		if count == n {
			number, name = v, field
		}
		count++
	}
	walk(reflect.ValueOf(s), func(field string, v reflect.Value) {
		switch {
		case v.Kind() == reflect.Float64:
			take(field, v)
		case v.Type() == reflect.TypeFor[survey.Readings]():
			for i := range v.Len() {
				take(field, v.Index(i))
			}
		}
	})
	return number, name
}

func TestValidate(t *testing.T) {
	t.Parallel()
	two := func() *survey.Survey { return &survey.Survey{Shafts: level(2)} }
	for _, test := range []struct {
		name   string
		change func(s *survey.Survey)
		want   string
	}{
		{"nothing wrong", func(*survey.Survey) {}, ""},
		{"no shafts", func(s *survey.Survey) { s.Shafts = nil }, "shafts: 0 entries: want 2 to 64"},
		{"several", func(s *survey.Survey) {
			s.Shafts[0].Slope = survey.Down(95)
			s.Shafts[1].Length = -1
		}, "shafts[0].down: 95 deg: want a slope between -90 and 90 deg; read on a flange face? Then enter -5 deg, as along the shaft\n" +
			"shafts[1].length: -1 mm: want a length from 0.001 to 1000000 mm"},
		{"repeated reading", func(s *survey.Survey) { s.Shafts[0].Heading = survey.Right(1, -90) },
			"shafts[0].right[1]: -90 deg: want a heading between -90 and 90 deg"},
		{"empty readings", func(s *survey.Survey) { s.Shafts[0].Slope.Deg = survey.Readings{} },
			"shafts[0].down: 0 entries: want 1 to 100"},
		{"slope of no kind", func(s *survey.Survey) {
			s.Shafts[0].Slope.By, s.Shafts[1].Heading = survey.ByRight, survey.Heading{Values: survey.Readings{3}}
		}, `shafts[0]: a slope by "right": want one of "down", "incline", "turned"` + "\n" +
			`shafts[1]: a heading by "": want one of "right", "offset"`},
		{"unit", func(s *survey.Survey) { s.Units = "ft" }, `units: "ft": want one of "mm", "in"`},
		{"text that is not UTF-8", func(s *survey.Survey) { s.Name = "\xff" },
			`name: "\xff": want a text without line ends, tabs and other control characters`},
		{"final drive", func(s *survey.Survey) { s.Road = &survey.Road{RollingRadius: 330} },
			"road.final_drive: 0: want a ratio above 0 and at most 1000"},
		{"change of nothing", func(s *survey.Survey) { s.Adjust = make([]survey.Change, 1) },
			`adjust[0].change: "": want one of "wedge", "bearing-height", "bearing-side", "mount", "clocking", "length"` + "\n" +
				`adjust[0].on: "": want a text that is not blank`},
		{"pose joint without a position", func(s *survey.Survey) {
			s.Joints = []survey.Joint{{At: &survey.Point{}}}
			s.Poses = []survey.Pose{{Name: "x", Joints: []survey.PoseJoint{{Name: "joint 1"}}}}
		}, "poses[0].joints[0].at: missing: want an object { … }"},
		{"unknown limits", func(s *survey.Survey) {
			s.Limits.Values = map[string]float64{"noise": 1}
			s.Limits.Off = []string{"taste"}
		}, `limits.noise: unknown limit: want ` + oneOfLimits + "\n" + `limits.taste: unknown limit: want ` + oneOfLimits},
		{"limit that is no number", func(s *survey.Survey) {
			s.Limits.Values = map[string]float64{survey.LimitNonuniformity: math.NaN()}
		}, "limits.nonuniformity: NaN: want a limit above 0 and at most 1000000000"},
		{"limit on and off", func(s *survey.Survey) {
			s.Limits.Values = map[string]float64{survey.LimitNonuniformity: 1}
			s.Limits.Off = []string{survey.LimitNonuniformity}
		}, "limits.nonuniformity: both a value and off: want one of the two"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := two()
			test.change(s)
			got := ""
			if err := s.Validate(); err != nil {
				got = err.Error()
			}
			if got != test.want {
				t.Errorf("got\n%s\nwant\n%s", got, test.want)
			}
			var file bytes.Buffer
			if err := s.Write(&file); (err == nil) != (test.want == "") || (err != nil) != (file.Len() == 0) {
				t.Errorf("Write: got error %v and %d bytes", err, file.Len())
			}
		})
	}
}

var oneOfLimits = `one of "` + strings.Join(survey.LimitNames, `", "`) + `"`
