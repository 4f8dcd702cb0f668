package limits

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

func TestOutcome(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name      string
		sense     Sense
		low, high float64
		want      Outcome
	}{
		{"all below a most", AtMost, 0.5, 0.9, Within},
		{"up to a most", AtMost, 0.5, 1, Within},
		{"across a most", AtMost, 0.9, 1.1, TooClose},
		{"from a most on", AtMost, 1, 1.1, TooClose},
		{"all above a most", AtMost, 1.01, 1.1, Over},
		{"all above a least", AtLeast, 1.01, 1.1, Within},
		{"from a least on", AtLeast, 1, 1.1, Within},
		{"across a least", AtLeast, 0.9, 1.1, TooClose},
		{"all below a least", AtLeast, 0.5, 0.9, Under},
		{"exact and on a most", AtMost, 1, 1, Within},
		{"exact and above a most", AtMost, 1.001, 1.001, Over},
		{"exact and on a least", AtLeast, 1, 1, Within},
		{"exact and below a least", AtLeast, 0.999, 0.999, Under},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			l := Limit{Value: 1, Sense: test.sense}
			if got := l.outcome(test.low, test.high); got != test.want {
				t.Errorf("%v to %v, %s 1: %s, want %s", test.low, test.high, test.sense, got, test.want)
			}
		})
	}
}

func TestJudge(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name    string
		text    string
		outcome Outcome
		answer  string   // a part of it
		remarks []string // a part of each, in order; all of them
	}{
		{"all is well",
			`{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 3}, {"down": 5}, {"down": 3.1}]}`,
			Within, "Fine: all limits are kept, in 11 verdicts.", nil},
		{"limit exactly met, readings exact",
			`{"rpm": 2000, "shafts": [{"down": 3.1}, {"down": 6.1}, {"down": 4.1}]}`,
			Within, "Fine", []string{"No reading error is given"}},
		{"angles match, planes twisted",
			`{"rpm": 3000, "reading_error_deg": 0.05, "shafts": [{"down": 0}, {"down": 2.8}, {"down": 2.8, "right": 2.8}]}`,
			Over, "Not fine because the torsional acceleration left at shaft 3, 471 rad/s², is over 300 rad/s²",
			[]string{"The working angles at joint 1 and joint 2 match, but their planes are twisted by 90.0°: together they act as one joint of 3.96°.",
				"Printed limits disagree on the torsional acceleration left at shaft 3, 471 rad/s²: it is over 402.3 rad/s²"}},
		{"angles match, yokes out of phase",
			`{"rpm": 3000, "reading_error_deg": 0.05, "shafts": [{"down": 0}, {"down": 2.8, "phase": 90}, {"down": 0}]}`,
			Over, "torsional acceleration left",
			[]string{"match, but the yokes between them are 90.0° out of phase: together they act as one joint of 3.96°.",
				"Printed limits disagree on the torsional acceleration left"}},
		{"planes twisted and yokes clocked to make up for it",
			`{"rpm": 3000, "reading_error_deg": 0.05, "phase_error_deg": 1, "shafts": [{"down": 0}, {"down": 2.8, "phase": 90}, {"down": 2.8, "right": 2.8}]}`,
			Within, "Fine", nil},
		{"planes twisted and yokes clocked to no avail",
			`{"rpm": 3000, "reading_error_deg": 0.05, "shafts": [{"down": 0}, {"down": 2.8, "phase": 35}, {"down": 2.8, "right": 2.8}]}`,
			Over, "torsional acceleration left",
			[]string{"match, but their planes and yokes stand 55.0° from where they cancel",
				"Printed limits disagree on the torsional acceleration left"}},
		{"angles match, but are too large for it",
			`{"rpm": 500, "reading_error_deg": 0.05, "shafts": [{"down": 0}, {"down": 20}, {"down": 0.8}],
			  "limits": {"set": "slow-heavy", "speed_angle_rpm_deg": null}}`,
			Over, "equivalent angle left",
			[]string{"match, but at angles as large as these the rest of the difference is too much",
				"Although the equivalent angle left at shaft 3, 5.71°, is over 5°, at 500 rpm no more than 27.3 of the allowed 300 rad/s²"}},
		{"angles differ, harmless at this speed",
			`{"rpm": 600, "reading_error_deg": 0.1, "shafts": [{"down": 0}, {"down": 2.8}, {"down": 1.6}]}`,
			Over, "Not fine because the working angle difference between joint 1 and joint 2, 1.60°, is over 1°.",
			[]string{"Although the working angle difference between joint 1 and joint 2, 1.60°, is over 1°, at 600 rpm no more than 7.70 of the allowed 300 rad/s² is left at shaft 3",
				"Printed limits disagree on the working angle difference between joint 1 and joint 2, 1.60°: it is over 1.5°"}},
		{"three joints sum although each pair looks fine",
			`{"rpm": 4000, "reading_error_deg": 0.01, "shafts": [{"down": 0}, {"down": 1.4}, {"down": 3.4}, {"down": 0.45}]}`,
			Over, "Not fine because the torsional acceleration left at shaft 4, 356 rad/s², is over 300 rad/s².",
			[]string{"Each joint and each pair looks fine by itself, but what the 3 joints leave adds up to 356 rad/s².",
				"Printed limits disagree on the working angle without companion",
				"Printed limits disagree on the torsional acceleration left"}},
		{"too close to call",
			`{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 0}, {"down": 2.9}, {"down": 0}]}`,
			TooClose, "Too close to call because the working angle at joint 1, 2.90°, may be anything from 2.75° to 3.06°, on either side of 3°, and 1 more limit is in doubt; the slope of shaft 1 contributes most (50 %); a reading error of 0.057° would settle it.", nil},
		{"a joint dead straight",
			`{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 3}, {"down": 3}, {"down": 5}, {"down": 3}]}`,
			Under, "Not fine because the working angle at joint 1, 0°, is under 0.5°.", nil},
		{"one joint alone",
			`{"rpm": 1000, "reading_error_deg": 0.1, "shafts": [{"down": 0}, {"down": 2.5}]}`,
			Over, "Not fine because the working angle without companion at joint 1, 2.50°, is over 1.5°.",
			[]string{"Nothing cancels the fluctuation of joint 1, which has no companion.",
				"Although the working angle without companion at joint 1"}},
		{"constant-velocity joints only",
			`{"rpm": 3000, "reading_error_deg": 0.1, "shafts": [{"down": 0}, {"down": 20}], "joints": [{"kind": "constant-velocity"}]}`,
			Within, "Fine: all limits are kept, in 2 verdicts.", nil},
		{"constant-velocity joint between Cardan joints",
			`{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 0}, {"down": 2}, {"down": 20}, {"down": 22}],
			  "joints": [{}, {"kind": "constant-velocity"}, {}]}`,
			Within, "Fine: all limits are kept, in 13 verdicts.", nil},
		{"constant-velocity joint between Cardan joints out of phase",
			`{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 0}, {"down": 2.7, "phase": 45}, {"down": 20, "phase": 45}, {"down": 22.7}],
			  "joints": [{}, {"kind": "constant-velocity"}, {}]}`,
			Over, "Not fine because the equivalent angle left at shaft 4, 3.82°, is over 3°.",
			[]string{"The working angles at joint 1 and joint 3 match, but their planes and yokes stand 90.0° from where they cancel",
				"Although the equivalent angle left at shaft 4"}},
		{"no speed",
			`{"reading_error_deg": 0.1, "shafts": [{"down": 3}, {"down": 5}, {"down": 3}]}`,
			Within, "Fine: all limits are kept, in 6 verdicts.",
			[]string{"No speed is given, so what depends on it is not judged: working angle by speed, torsional acceleration left, driving torsional acceleration, coasting torsional acceleration and speed times working angle."}},
		{"speed from the road",
			`{"road": {"speed_kmh": 90, "tyre": "235/60R16", "final_drive": 3.9}, "reading_error_deg": 0.1, "shafts": [{"down": 3}, {"down": 5}, {"down": 3}]}`,
			Within, "Fine",
			[]string{"The 2789 rpm of the shafts assume that the tyre turns as if it were 3 % smaller"}},
		{"positions without a tape error",
			`{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 3}, {}, {"down": 3}],
			  "joints": [{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 1000, "right": 0, "down": 90}}]}`,
			Within, "Fine", []string{"No tape error is given"}},
		{"repeated readings that disagree",
			`{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 3}, {"down": [4.8, 5.1]}, {"down": [3, 3.2]}]}`,
			Within, "Fine", []string{"The readings of the slope of shaft 2 lie 0.300° apart, more than a reading error of 0.1° allows"}},
		{"everything switched off",
			`{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 0}, {"down": 5}], "joints": [{"kind": "constant-velocity"}],
			  "limits": {"residual_accel_rad_s2": null, "equivalent_angle_deg": null}}`,
			"", "Nothing is judged", nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			j := judge(t, driveline(t, test.text))
			if j.Outcome != test.outcome || !strings.Contains(j.Answer, test.answer) {
				t.Errorf("%s: %s\nwant %s: %s", j.Outcome, j.Answer, test.outcome, test.answer)
			}
			if len(j.Remarks) != len(test.remarks) {
				t.Fatalf("remarks\n%s\nwant %d of them", strings.Join(j.Remarks, "\n"), len(test.remarks))
			}
			for i, want := range test.remarks {
				if !strings.Contains(j.Remarks[i], want) {
					t.Errorf("remark %q\nwant %q", j.Remarks[i], want)
				}
			}
		})
	}
}

func TestJudgeIsDeterministic(t *testing.T) {
	t.Parallel()
	first := judge(t, everyLimit(t))
	for range 3 {
		if again := judge(t, everyLimit(t)); !reflect.DeepEqual(again.Verdicts, first.Verdicts) {
			t.Fatal("the same driveline is judged otherwise the next time")
		}
	}
}

// Any valid driveline gives numbers that can be written.
func TestJudgeGivesNumbers(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 1))
	kinds := []string{"cardan", "constant-velocity", "double-cardan"}
	pick := func(values ...float64) float64 { return values[rng.IntN(len(values))] }
	for range 80 {
		n := 2 + rng.IntN(4)
		file := map[string]any{"limits": map[string]any{"set": Sets[rng.IntN(len(Sets))].Name}}
		for key, v := range map[string]float64{
			"rpm":               pick(0, 1e-3, 3000, 1e5),
			"reading_error_deg": pick(0, 1e-9, 0.1, 3),
			"phase_error_deg":   pick(0, 1, 45),
		} {
			if v > 0 {
				file[key] = v
			}
		}
		var shafts, joints []map[string]any
		for i := range n {
			shaft := map[string]any{"down": pick(0, 1e-12, 5, -5, 40*rng.Float64()), "right": pick(0, 0, 3, 20*rng.Float64())}
			if 0 < i && i < n-1 {
				shaft["phase"] = pick(0, 45, 90, 360*rng.Float64())
			}
			shafts = append(shafts, shaft)
			if i > 0 {
				joints = append(joints, map[string]any{"kind": kinds[rng.IntN(3)]})
			}
		}
		file["shafts"], file["joints"] = shafts, joints
		text, err := json.Marshal(file)
		if err != nil {
			t.Fatal(err)
		}
		j := judge(t, driveline(t, string(text)))
		for _, v := range j.Verdicts {
			// Encoding fails for NaN and infinities, wherever they stand.
			if _, err := json.Marshal(v); err != nil || math.Signbit(v.Uncertainty) || v.Low > v.High {
				t.Errorf("%s\nverdict %+v: %v", text, v, err)
			}
		}
		if _, err := json.Marshal(j.Crossings); err != nil {
			t.Errorf("%s\ncrossings: %v", text, err)
		}
		if strings.Contains(j.Answer+strings.Join(j.Remarks, ""), "NaN") {
			t.Errorf("%s\n%s %q", text, j.Answer, j.Remarks)
		}
	}
}

// What is not valid is refused, also where it is built in code.
func TestJudgeRefuses(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		spoil func(*survey.Survey)
		want  string
	}{
		{"speed that is no number", func(s *survey.Survey) { s.RPM = math.NaN() }, "rpm: NaN rpm"},
		{"error that is no number", func(s *survey.Survey) { s.ReadingErrorDeg = math.NaN() }, "reading_error_deg: NaN deg"},
		{"infinite reading", func(s *survey.Survey) { s.Shafts[1].Slope.Deg[0] = math.Inf(1) }, "shafts[1].down: +Inf deg"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := inPlane(3, 6, 3)
			test.spoil(s)
			if j, err := Judge(s); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v and error %v, want one with %q", j, err, test.want)
			}
		})
	}
}

// A driveline whose true value lies on the limit is rarely called within it or
// over it.
func TestOnTheLimitIsTooCloseToCall(t *testing.T) {
	t.Parallel()
	truth := inPlane(0, 4, 1)
	truth.ReadingErrorDeg = 0.2
	truth.Limits = alone(survey.LimitCompanionDifference, 1)
	g, err := NewGauge(truth)
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(1, 1))
	const runs = 400
	called := make(map[Outcome]int)
	for range runs {
		_, spreads, err := propagate(misread(truth, rng), g)
		if err != nil {
			t.Fatal(err)
		}
		called[g.Judged[0].Limit.outcome(spreads[0].Low, spreads[0].High)]++
	}
	// 2.5 % each, 10 of 400, with a scatter of 3.
	for _, o := range []Outcome{Within, Over} {
		if called[o] > 20 {
			t.Errorf("%d of %d measurements are called %s, want some 10", called[o], runs, o)
		}
	}
}
