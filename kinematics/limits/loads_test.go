package limits

import (
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

// A maker's limit on the swing is judged where the torque and the lengths are given,
// and where they are not the remarks say so.
func TestBearingSwingVerdict(t *testing.T) {
	t.Parallel()
	const file = `{"torque_nm": 1500, "reading_error_deg": 0.1, "shafts": [{"down": 3.4}, {"name": "front", "down": 3.8, "length": 940},
		{"down": 6.1, "right": 1.2, "length": 1270}, {"down": 4}], "limits": {"set": "light-vehicle", "bearing_swing_n": 40}}`
	for _, test := range []struct {
		name, from, to string
		outcome        Outcome // "": not judged
		remark         string
	}{
		{"over", "", "", Over, ""},
		{"half the torque", "1500", "750", Within, ""},
		{"hardly too much", `_n": 40`, `_n": 42.9`, TooClose, ""},
		{"no torque", `"torque_nm": 1500, `, "", "", "No torque is given, so the bearing swing is not judged."},
		{"no length", `, "length": 1270`, "", "", "Not every length between two joints is given, so the bearing swing is not judged."},
		{"no limit", `, "bearing_swing_n": 40`, "", "", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			j := judge(t, driveline(t, strings.Replace(file, test.from, test.to, 1)))
			at := slices.IndexFunc(j.Verdicts, func(v Verdict) bool { return v.LimitName == survey.LimitBearingSwing })
			outcome := Outcome("")
			if at >= 0 {
				outcome = j.Verdicts[at].Outcome
			}
			if outcome != test.outcome {
				t.Errorf("got %q, want %q", outcome, test.outcome)
			}
			told := slices.ContainsFunc(j.Remarks, func(r string) bool { return strings.Contains(r, bearingSwing.Name) })
			if told != (test.remark != "") || told && !slices.Contains(j.Remarks, test.remark) {
				t.Errorf("remarks %q, want %q", j.Remarks, test.remark)
			}
		})
	}
}

// Without a torque the swing is shown for each 100 N·m, and no limit beside it.
func TestBearingSwingShown(t *testing.T) {
	t.Parallel()
	s := everyLimit(t)
	g, d := gauged(t, s)
	given := g.Show(d, nil)
	s.TorqueNM = 0
	unknown, _ := gauged(t, s)
	assumed := unknown.Show(d, nil)
	at := slices.IndexFunc(g.Shown, func(s Shown) bool { return s.Key == bearingSwing.Key })
	if at < 0 || unknown.Shown[at].Name != "bearing swing for each 100 N·m" || !near(given[at], 15*assumed[at], 1e-9) || g.Shown[at].AtMost != 40 || !math.IsNaN(unknown.Shown[at].AtMost) {
		t.Errorf("shown %v N of at most %v, without a torque %v of %v", given[at], g.Shown[at].AtMost, assumed[at], unknown.Shown[at].AtMost)
	}
	supports, _ := s.Supports()
	supports[1].Bearing /= 2
	unknown.Hold(supports)
	if got := unknown.Show(d, nil)[at]; !near(got, 2*assumed[at], 1e-9) {
		t.Errorf("with the bearing half as far away: %v N, want twice %v", got, assumed[at])
	}
}
