package limits

import (
	"slices"
	"testing"

	"halfturn/kinematics/survey"
)

// What is allowed at each speed is the tightest limit of the set, and no printed one is
// tighter.
func TestAnglesAllowed(t *testing.T) {
	t.Parallel()
	s := driveline(t, threeJoints)
	s.Limits.Set, s.Limits.Off = survey.SetMachinery, []string{survey.LimitSpeedAngle}
	set, err := Of(s)
	if err != nil {
		t.Fatal(err)
	}
	allowed, printed := set.AnglesOf("", 6000), set.Printed(survey.LimitWorkingAngleMax, 6000)
	if len(printed) != 3 || allowed.RPM[len(allowed.RPM)-1] != 6000 {
		t.Fatalf("%d printed limits up to %v rpm, want 3 up to 6000", len(printed), allowed.RPM[len(allowed.RPM)-1])
	}
	for i, rpm := range allowed.RPM {
		want, _ := set.Limit(survey.LimitWorkingAngleMax, rpm)
		if allowed.Value[i] != want.Value {
			t.Errorf("allowed %v deg at %v rpm, want %v", allowed.Value[i], rpm, want.Value)
		}
	}
	for _, c := range printed {
		for i, rpm := range c.RPM {
			if allowed, _ := set.Limit(survey.LimitWorkingAngleMax, rpm); c.Value[i] < allowed.Value {
				t.Errorf("%s prints %v deg at %v rpm, less than the %v allowed", c.Basis, c.Value[i], rpm, allowed.Value)
			}
		}
	}
	s.Limits.Off = append(s.Limits.Off, survey.LimitWorkingAngleMax)
	if set, err = Of(s); err != nil {
		t.Fatal(err)
	}
	if c := set.AnglesOf("", 6000); len(c.RPM) != 0 {
		t.Errorf("a limit that is off: got %d points, want none", len(c.RPM))
	}
}

// A joint with a limit of its own has the tighter of both, and one of speed times angle
// falls with the speed.
func TestAnglesAllowedOfARole(t *testing.T) {
	t.Parallel()
	s := driveline(t, threeJoints)
	s.Limits = survey.OnlyLimits(map[string]float64{
		survey.LimitWorkingAngleMax: 8, survey.LimitOddJointMax: 0.5, survey.LimitSpeedAngle: 12000,
	})
	set, err := Of(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		role      string
		rpm, want float64
	}{
		{"", 1000, 8}, {"", 2000, 6}, {"", 6000, 2}, // 12000 rpm·deg
		{survey.LimitOddJointMax, 1000, 0.5}, {survey.LimitOddJointMax, 6000, 0.5},
		{survey.LimitLoneJointMax, 1000, 8}, // it has none
	} {
		c := set.AnglesOf(test.role, 6000)
		if i := slices.Index(c.RPM, test.rpm); i < 0 || c.Value[i] != test.want {
			t.Errorf("%q at %g rpm: point %d of %v, want %g deg", test.role, test.rpm, i, c.Value, test.want)
		}
	}
}

// A printed table changes in steps: from one row to the next within less than can be
// told apart, and nowhere else.
func TestTablesChangeInSteps(t *testing.T) {
	t.Parallel()
	table := tableBound{{1000, 6}, {1500, 4}, {2000.5, 3}}
	c := newCurve(3000, []bound{table}, table.at)
	if c.RPM[0] > 1e-9 || c.RPM[len(c.RPM)-1] != 2000.5 {
		t.Errorf("from %v to %v rpm, want from standstill to the last row", c.RPM[0], c.RPM[len(c.RPM)-1])
	}
	var steps []float64
	for i := 1; i < len(c.RPM); i++ {
		if c.Value[i] != c.Value[i-1] {
			steps = append(steps, c.RPM[i-1])
			if width := c.RPM[i] - c.RPM[i-1]; width > 1e-9 {
				t.Errorf("from %v to %v deg within %v rpm, want a step", c.Value[i-1], c.Value[i], width)
			}
		}
	}
	if !slices.Equal(steps, []float64{1000, 1500}) {
		t.Errorf("steps at %v rpm, want at the rows, 1000 and 1500", steps)
	}
}
