package adjust

import (
	"strings"
	"testing"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// read reads a driveline.
func read(t *testing.T, text string) *survey.Survey {
	t.Helper()
	s, err := survey.Read("case", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Of turns that do the same, half a turn being none, the smallest is told.
func TestSmallestTurn(t *testing.T) {
	t.Parallel()
	s := read(t, `{"rpm": 2400, "reading_error_deg": 0.1, "phase_error_deg": 1,
		"shafts": [{"name": "output", "down": 2.5}, {"name": "prop", "down": 6, "phase": -22.5}, {"name": "pinion", "down": 2.5}],
		"adjust": [{"change": "clocking", "on": "prop", "from": -180, "to": 180, "step": 22.5}]}`)
	if r := search(t, s, Options{}); len(r.Plans) == 0 || r.Plans[0].Steps[0].Value != 22.5 {
		t.Errorf("got %+v, want the yoke turned by one tooth of 16", r.Plans)
	}
}

// What it would take is told with no more parts than it takes.
func TestNeededTouchesTheFewestParts(t *testing.T) {
	t.Parallel()
	s := read(t, `{"rpm": 2900, "reading_error_deg": 0.1,
		"shafts": [{"name": "out", "down": 3, "length": 650}, {"name": "prop", "down": 8.2, "length": 1350}, {"name": "pinion", "down": 5.5, "length": 300}],
		"limits": {"set": "road-strict", "working_angle_max_deg": 6},
		"adjust": [{"change": "wedge", "on": "pinion", "from": -1, "to": 1, "step": 0.5}, {"change": "mount", "on": "out", "from": 0, "to": 6, "step": 2}]}`)
	if r := search(t, s, Options{}); r.Needed == nil || len(r.Needed.Steps) != 1 || r.Needed.Steps[0].Value != -2 {
		t.Errorf("got %+v, want a wedge of 2 deg alone", r.Needed)
	}
}

// A plan that is within comes before one that leaves a doubt, but not at the price of
// more parts or mirrored ends.
func TestSurestFirst(t *testing.T) {
	t.Parallel()
	one, two := make([]Step, 1), make([]Step, 2)
	doubt := Plan{Outcome: limits.TooClose, Steps: one}
	for _, test := range []struct {
		name string
		sure Plan
		want bool
	}{
		{"as few parts", Plan{Outcome: limits.Within, Steps: one}, true},
		{"more parts", Plan{Outcome: limits.Within, Steps: two}, false},
		{"mirrored", Plan{Outcome: limits.Within, Steps: one, Mirrored: true}, false},
		{"over", Plan{Outcome: limits.Over, Steps: one}, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			plans := []Plan{doubt, {Outcome: limits.Over}, test.sure}
			surestFirst(plans)
			if first := plans[0].Outcome != limits.TooClose; first != test.want || len(plans) != 3 || plans[2].Outcome == limits.TooClose {
				t.Errorf("got %s first, want it moved: %v", plans[0].Outcome, test.want)
			}
		})
	}
}

// Every centre bearing is told by itself.
func TestEveryBearingIsTold(t *testing.T) {
	t.Parallel()
	s := read(t, `{"rpm": 2300, "reading_error_deg": 0.1, "torque_nm": 2500, "limits": {"set": "heavy-road"},
		"shafts": [{"name": "gb", "down": 3, "length": 760}, {"name": "s1", "down": 3.5, "length": 900}, {"name": "s2", "down": 5, "length": 1000},
			{"name": "s3", "down": 7.5, "length": 1200}, {"name": "axle", "down": 3, "length": 400}]}`)
	r := search(t, s, Options{})
	if len(r.Plans) == 0 {
		t.Fatal("no plan")
	}
	notes := strings.Join(r.Notes(&r.Plans[0]), " ")
	for _, want := range []string{"the centre bearing of s1 is shaken by ±", "the centre bearing of s2 is shaken by ±"} {
		if !strings.Contains(notes, want) {
			t.Errorf("%q: want %q", notes, want)
		}
	}
}
