package survey_test

import (
	"fmt"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

func TestGroups(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ joints, want string }{
		{`[{}, {}, {}, {}, {}]`, "[]"},
		{`[{"companion": "joint 2"}, {}, {}, {}, {}]`, "[[0 1]]"},
		{`[{"companion": ["joint 2"]}, {"companion": "joint 1"}, {}, {}, {"companion": "joint 4"}]`, "[[0 1] [3 4]]"},
		{`[{}, {}, {"companion": ["joint 5", "joint 1"]}, {}, {}]`, "[[0 2 4]]"},
		{`[{}, {"companion": ["joint 3", "joint 4"]}, {"companion": ["joint 4", "joint 2"]}, {}, {}]`, "[[1 2 3]]"},
	} {
		file := fmt.Sprintf(`{"shafts": [%s{"down": 0}], "joints": %s}`, strings.Repeat(`{"down": 0}, `, 5), test.joints)
		s, err := survey.Read("groups.json", strings.NewReader(file))
		if err != nil {
			t.Error(err)
			continue
		}
		if got := fmt.Sprint(s.Groups()); got != test.want {
			t.Errorf("%s: got %s, want %s", test.joints, got, test.want)
		}
	}
}
