package survey_test

import (
	"math"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

func read(t *testing.T, file string) *survey.Survey {
	t.Helper()
	s, err := survey.Read("drive.json", strings.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSupports(t *testing.T) {
	t.Parallel()
	type held = kinematics.Support
	for _, test := range []struct {
		name    string
		file    string
		want    []held
		assumed bool
	}{
		{"one joint", `{"shafts": [{"down": 1, "length": 500}, {"down": 2}]}`,
			[]held{{Length: 0.5}, {}}, false},
		{"one piece needs no bearing", `{"shafts": [{"down": 1}, {"down": 2, "length": 1250}, {"down": 1}]}`,
			[]held{{}, {Length: 1.25}, {}}, false},
		{"three pieces, bearings assumed", `{"units": "in", "shafts": [{"down": 1}, {"down": 2, "length": 40}, {"down": 3, "length": 50}, {"down": 4, "length": 60}, {"down": 1}]}`,
			[]held{{}, {Length: 1.016, Held: true, Bearing: 1.016}, {Length: 1.27, Held: true, Bearing: 1.27}, {Length: 1.524}, {}}, true},
		{"bearings given, before the lengths", `{"shafts": [{"down": 1}, {"down": 2}, {"down": 3, "bearing": 0}, {"down": 1}]}`,
			[]held{{}, {}, {Held: true}, {}}, false},
		{"bearing given", `{"shafts": [{"down": 1}, {"down": 2, "length": 900, "bearing": 850}, {"down": 3, "length": 1000}, {"down": 1}]}`,
			[]held{{}, {Length: 0.9, Held: true, Bearing: 0.85}, {Length: 1}, {}}, false},
		{"by positions", `{"shafts": [{"down": 0}, {}, {}, {"down": 0}], "joints": [{"at": {"along": 0, "right": 0, "down": 0}},
			{"at": {"along": 400, "right": 0, "down": 300}}, {"at": {"along": 1000, "right": 0, "down": 300}}]}`,
			[]held{{}, {Length: 0.5, Held: true, Bearing: 0.5}, {Length: 0.6}, {}}, true},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			got, assumed := read(t, test.file).Supports()
			if assumed != test.assumed || len(got) != len(test.want) {
				t.Fatalf("got %d supports, assumed %t: want %d, %t", len(got), assumed, len(test.want), test.assumed)
			}
			for i, want := range test.want {
				g := got[i]
				if g.Held != want.Held || math.Abs(g.Length-want.Length) > tolerance || math.Abs(g.Bearing-want.Bearing) > tolerance {
					t.Errorf("shaft %d: got %+v, want %+v", i, g, want)
				}
			}
		})
	}
}

// Loads grow with the torque, which is taken as 100 N·m where none is given.
func TestLoads(t *testing.T) {
	t.Parallel()
	const file = `{"torque_nm": 1500, "shafts": [{"down": 3.4}, {"down": 3.8, "length": 940}, {"down": 6.1, "right": 1.2, "length": 1270}, {"down": 4}]}`
	given := loads(t, file)
	assumed := loads(t, strings.Replace(file, `"torque_nm": 1500, `, "", 1))
	if given.TorqueNM != 1500 || given.TorqueAssumed || assumed.TorqueNM != 100 || !assumed.TorqueAssumed {
		t.Errorf("torque: got %g, assumed %t, and %g, assumed %t", given.TorqueNM, given.TorqueAssumed, assumed.TorqueNM, assumed.TorqueAssumed)
	}
	swing := given.Forces.Bearings[0].Force.Swing()
	if one := assumed.Forces.Bearings[0].Force.Swing(); math.Abs(swing-15*one) > 1e-12*swing {
		t.Errorf("swing: got %g N, and %g N of a fifteenth of the torque", swing, one)
	}
	if unmeasured := loads(t, strings.Replace(file, `, "length": 1270`, "", 1)); unmeasured.Forces != nil || unmeasured.Unmeasured != 2 || len(unmeasured.Couples.Joints) != 3 {
		t.Errorf("without the length of the rear shaft: got forces %v, unmeasured %d, %d couples; want none, 2, 3",
			unmeasured.Forces, unmeasured.Unmeasured, len(unmeasured.Couples.Joints))
	}
}

func loads(t *testing.T, file string) *survey.Loads {
	t.Helper()
	s := read(t, file)
	d, err := s.Driveline()
	if err != nil {
		t.Fatal(err)
	}
	return s.Loads(d)
}
