package limits

import (
	"math"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

func TestDiagnose(t *testing.T) {
	t.Parallel()
	// Wheels at 10 Hz, shafts at 25 Hz.
	tyre := &survey.Gearing{Radius: 0.3, FinalDrive: 2.5, Spread: survey.RollingSpread / survey.RollingFactor}
	measured := &survey.Gearing{Radius: 0.3, FinalDrive: 2.5}
	for _, test := range []struct {
		name    string
		hz      float64
		engine  float64 // rpm
		gearing *survey.Gearing
		angles  bool
		want    string
	}{
		{"wheel", 10.2, 0, tyre, false, "fits the first order of the wheels (10.0 Hz): joint angles cannot be the cause, they shake twice in a turn of the shaft. Look at: balance and run-out of wheels and tyres."},
		{"wheel twice", 20, 0, tyre, false, "fits the second order of the wheels (20.0 Hz): joint angles cannot be the cause"},
		{"shaft", 25, 0, tyre, false, "fits the first order of the shafts (25.0 Hz): joint angles cannot be the cause"},
		{"shaft twice", 49, 0, tyre, true, "fits the second order of the shafts (50.0 Hz): joint angles can be the cause; balancing cannot cure"},
		{"off by as much as the tyre allows", 52, 0, tyre, true, "fits the second order of the shafts"},
		{"off by more than a measured radius allows", 54.2, 0, measured, false, "second order of the shafts (50.0 Hz), 8 % away: joint angles are unlikely to be the cause, but take"},
		{"nothing", 70, 0, tyre, false, "nearest is the second order of the shafts (50.0 Hz), 40 % away: joint angles are not the cause"},
		{"shafts only", 10, 0, nil, false, "nearest is the first order of the shafts (25.0 Hz), 60 % away: joint angles are not the cause"},
		{"shafts only, twice", 50, 0, nil, true, "fits the second order of the shafts"},
		{"wheels and shafts alike", 25, 0, &survey.Gearing{Radius: 0.3, FinalDrive: 1}, false,
			"fits the first order of the wheels (25.0 Hz) and the first order of the shafts (25.0 Hz): joint angles cannot be the cause"},
		{"the wheel's second is the shaft's", 50, 0, &survey.Gearing{Radius: 0.3, FinalDrive: 1}, true,
			"fits the second order of the wheels (50.0 Hz) and the second order of the shafts (50.0 Hz), which are too close together to tell apart"},
		{"near miss by the speedometer", 46.8, 0, measured, true,
			"46.8 Hz fits no rotation within 3 %, but may be the second order of the shafts (50.0 Hz, 6 % away) if the speedometer is off: joint angles are possible"},
		{"near miss of the shaft itself", 26.5, 0, measured, false,
			"nearest is the first order of the shafts (25.0 Hz), 6 % away: joint angles are not the cause. If the speedometer is off it may be that one: take the speed again, and look at: balance and run-out of the shafts"},
		{"engine", 41, 2460, measured, false, "41 Hz fits the first order of the engine (41.0 Hz): joint angles cannot be the cause"},
		{"near miss on larger tyres", 53.4, 0, measured, true,
			"53.4 Hz fits no rotation within 3 %, but may be the second order of the shafts (50.0 Hz, 7 % away) if the speedometer is off: joint angles are possible"},
		{"engine, or a near miss", 46.8, 2810, measured, true, "fits the first order of the engine (46.8 Hz), and may be the second order of the shafts (50.0 Hz) if"},
		{"engine or angles", 50, 1500, measured, true, "fits the second order of the engine (50.0 Hz) and the second order of the shafts (50.0 Hz), which are too close"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			f, err := Diagnose(test.hz, 1500, test.engine, test.gearing)
			if err != nil {
				t.Fatal(err)
			}
			if f.AnglesPossible != test.angles || !strings.Contains(f.Answer, test.want) {
				t.Errorf("angles %v: %q, want %v: %q", f.AnglesPossible, f.Answer, test.angles, test.want)
			}
		})
	}
}

func TestDiagnoseRefuses(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name    string
		hz, rpm float64
		want    string
	}{
		{"no frequency", 0, 1000, "felt frequency: 0 Hz: want above 0"},
		{"no speed", 43, 0, "shaft speed: 0 rpm: want above 0"},
		{"NaN", math.NaN(), 1000, "felt frequency: NaN Hz"},
		{"infinite", 43, math.Inf(1), "shaft speed: +Inf rpm"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			_, err := Diagnose(test.hz, test.rpm, 0, nil)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want %q", err, test.want)
			}
		})
	}
}

func TestParseSpeed(t *testing.T) {
	t.Parallel()
	g := &survey.Gearing{Radius: 1 / math.Pi, FinalDrive: 4} // rolls 2 m in a turn
	for _, test := range []struct {
		text    string
		gearing *survey.Gearing
		want    float64 // rpm
		err     string
	}{
		{"2800rpm", nil, 2800, ""},
		{"2800 rpm", g, 2800, ""},
		{"72km/h", g, 2400, ""},
		{"55.5MPH", g, 2400 * 55.5 * 1.609344 / 72, ""},
		{"72km/h", nil, 0, "speed 72 km/h: want a driveline with a road (tyre and final drive), or a speed in rpm"},
		{"72km/h", &survey.Gearing{Radius: 1e-3 / math.Pi, FinalDrive: 4}, 0, // metres taken for millimetres
			"speed 72 km/h: 2400000 rpm of the shafts by this tyre and final drive: want at most 100000 rpm"},
		{"72", g, 0, `speed "72": want a number and km/h, mph or rpm, such as 90km/h`},
		{"43Hz", g, 0, `speed "43Hz": want a number and km/h, mph or rpm`},
		{"-5km/h", g, 0, "want a number"},
		{"NaNkm/h", g, 0, "want a number"},
		{"1e3rpm", g, 0, "want a number"},
		{"0rpm", g, 0, `speed "0rpm": want more than 0 and at most 100000`},
		{"100001rpm", g, 0, "want more than 0 and at most 100000"},
		{strings.Repeat("9", 400) + "rpm", g, 0, "want more than 0"},
	} {
		t.Run(test.text[:min(len(test.text), 12)], func(t *testing.T) {
			t.Parallel()
			speed, err := ParseSpeed(test.text)
			var got float64
			if err == nil {
				got, err = speed.RPM(test.gearing)
			}
			if test.err != "" {
				if err == nil || !strings.Contains(err.Error(), test.err) {
					t.Errorf("error %v, want %q", err, test.err)
				}
				return
			}
			if err != nil || !near(got, test.want, 1e-9*test.want) {
				t.Errorf("%v rpm (%v), want %v", got, err, test.want)
			}
		})
	}
}

func TestParseFrequency(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		text string
		want float64
		err  string
	}{
		{"43Hz", 43, ""},
		{"21.5 Hz", 21.5, ""},
		{"94", 94, ""},
		{"94hz", 94, ""},
		{"43rpm", 0, `frequency "43rpm": want a number of hertz, such as 43Hz`},
		{"0Hz", 0, `frequency "0Hz": want more than 0`},
		{"43,5Hz", 0, "want a number of hertz"},
	} {
		t.Run(test.text, func(t *testing.T) {
			t.Parallel()
			got, err := ParseFrequency(test.text)
			if failed := err != nil; failed != (test.err != "") || failed && !strings.Contains(err.Error(), test.err) || got != test.want {
				t.Errorf("%v Hz and error %v, want %v and %q", got, err, test.want, test.err)
			}
		})
	}
}
