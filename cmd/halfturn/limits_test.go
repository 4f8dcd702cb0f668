package main

import (
	"strings"
	"testing"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

func TestLimitsShowsEverySet(t *testing.T) {
	t.Parallel()
	code, text, stderr := invoke("", "limits")
	if code != exitDone {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	unbroken := strings.Join(strings.Fields(text), " ")
	for _, set := range limits.Sets {
		for _, l := range set.Limits(3000) {
			for _, want := range []string{set.Name + ": " + set.For, "(" + l.Name + ")", l.Why, l.Basis} {
				if !strings.Contains(unbroken, want) {
					t.Errorf("%s, %s: lacks %q", set.Name, l.Name, want)
				}
			}
		}
	}
	requireWidth(t, text)
	_, one, _ := invoke("", "limits", survey.SetMachinery)
	if strings.Contains(one, survey.SetRoadStrict) || !strings.HasPrefix(one, survey.SetMachinery+": ") {
		t.Errorf("of one set:\n%s", one)
	}
}

func TestLimitsMistakes(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		args []string
		want string
	}{
		{[]string{"limits", "racing"}, `"racing": want out of light-vehicle`},
		{[]string{"limits", "--rpm", "0"}, "--rpm: 0 rev/min"},
		{[]string{"limits", "--rpm", "NaN"}, "--rpm: NaN rev/min"},
	} {
		code, stdout, stderr := invoke("", test.args...)
		if code != exitUsage || stdout != "" || !strings.Contains(stderr, test.want) {
			t.Errorf("%q: exit %d, output %q, remarks %q, want %q", test.args, code, stdout, stderr, test.want)
		}
	}
}
