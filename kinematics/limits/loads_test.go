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

// Under power torque acts on the bearing: there the maker's limit holds, as where it is
// cruising, and not where the wheels hang in the air.
func TestBearingSwingInPoses(t *testing.T) {
	t.Parallel()
	s := driveline(t, `{"torque_nm": 1500, "rpm": 2500, "shafts": [{"down": 3}, {"name": "front", "down": 3.3, "length": 1120},
		{"name": "rear", "down": 5.4, "length": 1270}, {"down": 3.3}], "limits": {"set": "light-vehicle", "bearing_swing_n": 40}}`)
	swing := func(v Verdict) bool { return v.LimitName == survey.LimitBearingSwing }
	if at := slices.IndexFunc(judge(t, s).Verdicts, swing); at < 0 {
		t.Fatal("the swing is not judged as measured")
	}
	lower := survey.Limits{Values: map[string]float64{survey.LimitBearingSwing: 20}}
	for _, test := range []struct {
		pose  survey.Pose
		limit float64 // 0: not judged
	}{
		{survey.Pose{Kind: survey.Cruise}, 40},
		{survey.Pose{Kind: survey.Load}, 40},
		{survey.Pose{}, 40},
		{survey.Pose{Kind: survey.Travel}, 0},
		{survey.Pose{Kind: survey.Travel, Limits: lower}, 20},
		{survey.Pose{Kind: survey.Load, Limits: lower}, 20},
	} {
		test.pose.Name, test.pose.Shafts = "pose", []survey.PoseShaft{{Name: "rear", Slope: survey.Down(7)}}
		verdicts := judge(t, In(s, test.pose)).Verdicts
		at := slices.IndexFunc(verdicts, swing)
		switch {
		case (at >= 0) != (test.limit > 0):
			t.Errorf("%q, %v: judged %v, want %v", test.pose.Kind, test.pose.Limits.Values, at >= 0, test.limit > 0)
		case at >= 0 && (verdicts[at].Limit != test.limit || verdicts[at].Outcome != Over):
			t.Errorf("%q: %s at most %v N, want %s at most %v N", test.pose.Kind, verdicts[at].Outcome, verdicts[at].Limit, Over, test.limit)
		}
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
