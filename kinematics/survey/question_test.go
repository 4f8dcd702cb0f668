package survey_test

import (
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

func TestQuestions(t *testing.T) {
	t.Parallel()
	shafts := func(rest string) string {
		return `{"shafts": [{"down": 1}, ` + rest + `, {"down": 1}]}`
	}
	for _, test := range []struct {
		name, file string
		road       bool
		want       []string // how each question begins
	}{
		{"nothing odd", `{"rpm": 10000, "shafts": [{"down": 45}, {"down": 3, "length": 150}, {"down": 3, "length": 4000}, {"turned": [3, -1]}]}`, true, nil},
		{"radius in metres", `{"shafts": [{"down": 1}, {"down": 1}], "road": {"rolling_radius": 0.34, "final_drive": 3.9}}`, true,
			[]string{"tyre: it rolls as one of 0.68 mm across: is its size in mm"}},
		{"radius in millimetres of a file in inches", `{"units": "in", "shafts": [{"down": 1}, {"down": 1}], "road": {"speed_mph": 65, "rolling_radius": 340, "final_drive": 3.9}}`, true,
			[]string{"tyre: it rolls as one of 17272 mm across: is its size in inches"}},
		{"smallest tyre", `{"shafts": [{"down": 1}, {"down": 1}], "road": {"rolling_radius": 100, "final_drive": 3.9}}`, true, nil},
		{"greatest tyre", `{"shafts": [{"down": 1}, {"down": 1}], "road": {"rolling_radius": 1250, "final_drive": 3.9}}`, true, nil},
		{"fast", `{"rpm": 10001, "shafts": [{"down": 1}, {"down": 1}]}`, true, []string{"speed: the shafts turn at 10001 rev/min"}},
		{"a point that parts thousands", `{"rpm": 2.800, "shafts": [{"down": 1}, {"down": 1}]}`, true,
			[]string{"speed: the shafts turn at 2.8 rev/min: is that meant, or does a point part thousands?"}},
		{"slow machinery", `{"rpm": 2.8, "shafts": [{"down": 1}, {"down": 1}]}`, false, nil},
		{"just not slow", `{"rpm": 50, "shafts": [{"down": 1}, {"down": 1}]}`, true, nil},
		{"fast on the road", `{"shafts": [{"down": 1}, {"down": 1}], "road": {"speed_kmh": 500, "rolling_radius": 300, "final_drive": 4}}`, true,
			[]string{"speed: the shafts turn at 17684 rev/min"}},
		{"flange face", `{"shafts": [{"down": 80}, {"incline": 87}, {"down": 86.5}]}`, false, nil},
		{"flange face under a vehicle", `{"shafts": [{"down": 3, "name": "output"}, {"incline": 87, "name": "shaft"}, {"down": 46}]}`, true,
			[]string{"shaft: 87 deg: read on a flange face? Then enter 3 deg", "shaft 3: 46 deg: read on a flange face? Then enter 44 deg"}},
		{"flange face that rises", shafts(`{"down": -86.5}`), true, []string{"shaft 2: -86.5 deg: read on a flange face? Then enter -3.5 deg"}},
		{"sign of a turned reading", shafts(`{"turned": [6.1, -5.9]}`), true,
			[]string{"shaft 2: turned end for end the gauge shows -5.9 deg instead of 6.1 deg"}},
		{"a turned reading further off than the gauge can be", `{"rpm": 2600, "reading_error_deg": 0.1, "gauge_error_deg": 0.2, "shafts": [{"turned": [3.0, 3.7]}, {"turned": [7.0, 7.5]}, {"turned": [4.4, 4.5]}]}`, true,
			[]string{"shaft 1: turned end for end the gauge shows 3.7 deg instead of 3 deg"}},
		{"a wild reading", shafts(`{"down": [5.5, 5.6, 8.5]}`), true,
			[]string{"shaft 2: the readings of its slope lie 3 deg apart: is 8.5 deg misread?"}},
		{"readings that the error does not explain", `{"reading_error_deg": 0.1, "shafts": [{"down": 1}, {"down": [4.8, 5.1]}, {"down": [3, 3.2], "right": [0, 0.3]}]}`, false,
			[]string{"shaft 2: the readings of its slope lie 0.3 deg apart: is one of them misread?",
				"shaft 3: the readings of its heading lie 0.3 deg apart"}},
		{"a pair of turned readings is no scatter", `{"reading_error_deg": 0.1, "shafts": [{"down": 3}, {"turned": [4.5, 5.5]}, {"down": 3}]}`, true, nil},
		{"length in metres", shafts(`{"down": 3, "length": 1.2}`), true, []string{"shaft 2: 1.2 mm from joint to joint: is that in mm"}},
		{"length in millimetres", `{"units": "in", "shafts": [{"down": 1, "length": 900}, {"down": 3, "length": 1200}, {"down": 2, "length": 1}]}`, true,
			[]string{"shaft 2: 1200 in from joint to joint: is that in inches"}},
		{"length by positions", `{"shafts": [{"down": 1}, {}, {"down": 1}], "joints": [
			{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 149, "right": 0, "down": 0}}]}`, true,
			[]string{"shaft 2: 149 mm from joint to joint"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s, err := survey.Read("asked.json", strings.NewReader(test.file))
			if err != nil {
				t.Fatal(err)
			}
			got := s.Questions(test.road)
			if len(got) != len(test.want) {
				t.Fatalf("got %q, want %q", got, test.want)
			}
			for i, want := range test.want {
				if !strings.HasPrefix(got[i], want) {
					t.Errorf("got %q, want %q …", got[i], want)
				}
			}
		})
	}
}
