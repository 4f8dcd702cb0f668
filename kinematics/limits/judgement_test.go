package limits

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

func TestOutcome(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name                string
		sense               Sense
		below, value, above float64
		want                Outcome
	}{
		{"all below a most", AtMost, 0.5, 0.7, 0.9, Within},
		{"up to a most", AtMost, 0.5, 0.7, 1, Within},
		{"across a most", AtMost, 0.9, 1.05, 1.1, TooClose},
		{"from a most on", AtMost, 1, 1.05, 1.1, TooClose},
		{"all above a most", AtMost, 1.01, 1.05, 1.1, Over},
		{"all above a least", AtLeast, 1.01, 1.05, 1.1, Within},
		{"from a least on", AtLeast, 1, 1.05, 1.1, Within},
		{"across a least", AtLeast, 0.9, 0.95, 1.1, TooClose},
		{"all below a least", AtLeast, 0.5, 0.7, 0.9, Under},
		{"exact and on a most", AtMost, 1, 1, 1, Within},
		{"exact and above a most", AtMost, 1.001, 1.001, 1.001, Over},
		{"exact and on a least", AtLeast, 1, 1, 1, Within},
		{"exact and below a least", AtLeast, 0.999, 0.999, 0.999, Under},
		{"all above a most but the value as measured", AtMost, 1.01, 0, 1.2, TooClose},
		{"all above a least but the value as measured", AtLeast, 1.01, 0, 1.2, TooClose},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			l := Limit{Value: 1, Sense: test.sense}
			if got := l.outcome(spread{below: test.below, value: test.value, above: test.above}); got != test.want {
				t.Errorf("%v, %v to %v, %s 1: %s, want %s", test.value, test.below, test.above, test.sense, got, test.want)
			}
		})
	}
}

// What testdata/judgement.json says of outcomes, verdicts, answers and questions.
func TestJudge(t *testing.T) {
	t.Parallel()
	for _, c := range scenarios(t) {
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			j := judge(t, driveline(t, string(c.Driveline)))
			if !slices.Contains(c.Outcome, j.Outcome) {
				t.Errorf("%s: %s\nwant %s", j.Outcome, j.Answer, c.Outcome)
			}
			rest := j.Answer + " " + j.PhaseCure
			for _, want := range c.Answer {
				before, after, ok := strings.Cut(rest, want)
				if rest = after; !ok {
					t.Errorf("%s\nlacks, in this order, %q after %q", j.Answer, want, before)
					break
				}
			}
			if c.Question != nil && !slices.EqualFunc(j.Questions, *c.Question, strings.HasPrefix) {
				t.Errorf("asked %q, want %q", j.Questions, *c.Question)
			}
			for _, want := range c.Verdicts {
				if !slices.ContainsFunc(j.Verdicts, func(v Verdict) bool {
					return v.LimitName == want.LimitName && v.Outcome == want.Verdict &&
						(want.Value == nil || near(v.Value, *want.Value, 0.005))
				}) {
					t.Errorf("no verdict %+v among %+v", want, j.Verdicts)
				}
			}
		})
	}
}

// A pose is judged by the limits that hold where it is: all where it is cruising,
// accelerations and greatest angles under load, greatest angles only in travel.
func TestPosesAreJudgedByTheirKind(t *testing.T) {
	t.Parallel()
	shopRules := []string{survey.LimitCompanionDifference, survey.LimitWorkingAngleMin}
	accelerations := []string{survey.LimitResidualAccel, survey.LimitInertiaDriveAccel, survey.LimitInertiaCoastAccel}
	greatest := []string{survey.LimitWorkingAngleMax}
	standstill, slow := 0.0, 500.0
	for _, test := range []struct {
		name string
		pose survey.Pose
		want [][]string
		most float64 // greatest angle allowed
	}{
		{"cruising", survey.Pose{Kind: survey.Cruise}, [][]string{shopRules, accelerations, greatest}, 5.762},
		{"under load", survey.Pose{Kind: survey.Load}, [][]string{accelerations, greatest}, 5.762},
		{"in travel", survey.Pose{Kind: survey.Travel}, [][]string{greatest}, 5.762},
		{"not said", survey.Pose{}, [][]string{accelerations, greatest}, 5.762},
		{"at its own speed", survey.Pose{Kind: survey.Travel, RPM: &slow}, [][]string{greatest}, 11.5},
		{"standing still", survey.Pose{Kind: survey.Load, RPM: &standstill}, [][]string{greatest}, 11.5},
		{"by its own limits", survey.Pose{Kind: survey.Travel, Limits: survey.Limits{
			Values: map[string]float64{survey.LimitWorkingAngleMax: 20, survey.LimitCompanionDifference: 3}}},
			[][]string{shopRules[:1], greatest}, 20},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := inPlane(3, 7, 3)
			s.RPM, s.ReadingErrorDeg = 3000, 0.1
			test.pose.Name, test.pose.Shafts = "pose", []survey.PoseShaft{{Name: "shaft 2", Slope: survey.Down(12)}}
			var got []string
			for _, v := range judge(t, In(s, test.pose)).Verdicts {
				if !slices.Contains(got, v.LimitName) {
					got = append(got, v.LimitName)
				}
				if v.LimitName == survey.LimitWorkingAngleMax && !near(v.Limit, test.most, 0.001) {
					t.Errorf("%v deg are allowed, want %v", v.Limit, test.most)
				}
			}
			if want := slices.Concat(test.want...); !slices.Equal(slices.Sorted(slices.Values(got)), slices.Sorted(slices.Values(want))) {
				t.Errorf("judged %q, want %q", got, want)
			}
		})
	}
}

// Fine is said with what it rests on.
func TestFine(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ errors, want string }{
		{``, "Fine: all limits are kept, if the readings are exact, in 8 verdicts."},
		{`"gauge_error_deg": 0.2,`, "Fine: all limits are kept, if the gauge is placed exactly, in 8 verdicts."},
		{`"gauge_error_deg": 0.2, "reading_error_deg": 0.05,`, "Fine: all limits are kept, in 8 verdicts."},
	} {
		t.Run(test.errors, func(t *testing.T) {
			t.Parallel()
			s := driveline(t, `{"rpm": 2800, `+test.errors+` "shafts": [{"down": 3}, {"down": 5.2}, {"down": 3.2}]}`)
			if got := judge(t, s).Answer; got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}

// Yokes that stand out of phase for the sake of the whole line are not to be turned.
func TestPhaseMadeUpFor(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name, text string
		cured      bool
	}{
		{"alone", `{"rpm": 1000, "shafts": [{"down": 0}, {"down": 20, "phase": 30}, {"down": 0}]}`, true},
		{"three that close a triangle", `{"rpm": 1000, "shafts": [{"down": 0}, {"down": 20, "phase": 30}, {"down": 0, "phase": 30}, {"down": 20}]}`, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			j := judge(t, driveline(t, test.text))
			if cured, told := j.PhaseCure != "", strings.Contains(j.Answer, "the rest of the line makes up for"); cured != test.cured || told == test.cured {
				t.Errorf("answer %q, cure %q", j.Answer, j.PhaseCure)
			}
		})
	}
}

// What was not entered is said once; what is known is not.
func TestAssumed(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, text, want string }{
		{"nothing but slopes", `{"shafts": [{"down": 0}, {"down": 3}, {"down": 0}]}`,
			"Not entered, so taken for granted: all shafts run straight along and all yokes are in phase."},
		{"some of it", `{"shafts": [{"down": 0, "right": 0}, {"down": 3, "right": 1, "phase": 0}, {"down": 3}, {"down": 0, "right": 0}]}`,
			"Not entered, so taken for granted: shaft 3 runs straight along and the yokes of shaft 3 are in phase."},
		{"everything entered", `{"shafts": [{"down": 0, "right": 0}, {"down": 3, "right": 0, "phase": 0}, {"down": 0, "right": 0}]}`, ""},
		{"positions", `{"shafts": [{"down": 0, "right": 0}, {"phase": 0}, {"down": 0, "right": 0}],
			"joints": [{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 900, "right": 0, "down": 50}}]}`, ""},
		{"a phase that nobody can take for granted", `{"shafts": [{"down": 0, "right": 0}, {"down": 3, "right": 0}, {"down": 8, "right": 0}, {"down": 5, "right": 0}],
			"joints": [{}, {"kind": "constant-velocity"}, {}]}`, ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if got := judge(t, driveline(t, test.text)).Assumed; got != test.want {
				t.Errorf("assumed %q, want %q", got, test.want)
			}
		})
	}
}

// What is left is told in one way, with as much as is known.
func TestLeft(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, text, want string }{
		{"nothing", `{"rpm": 3000, "shafts": [{"name": "gearbox", "down": 3}, {"down": 5}, {"name": "pinion", "down": 3}]}`,
			"Shake left: none, pinion turns as evenly as gearbox."},
		// One joint of 10 deg: cos 10° = 0.98481, 1/cos 10° = 1.01543; its peak at 250 rpm
		// is printed as 21.0 rad/s² (S1-03).
		{"with a limit", `{"rpm": 250, "shafts": [{"down": 0}, {"name": "fan", "down": 10}]}`,
			"Shake left: 21.0 of 300 rad/s² allowed (as one joint at 10.0°), 8.3 times a second at 250 rev/min; speed of fan from −1.52 % to +1.54 %."},
		{"without", `{"rpm": 250, "limits": {"residual_accel_rad_s2": null}, "shafts": [{"down": 0}, {"name": "fan", "down": 10}]}`,
			"Shake left: 21.0 rad/s² (as one joint at 10.0°), 8.3 times"},
		{"without a speed", `{"shafts": [{"down": 0}, {"name": "fan", "down": 10}]}`,
			"Shake left: as one joint at 10.0°; speed of fan from −1.52 % to +1.54 %. Give the speed"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if got := judge(t, driveline(t, test.text)).Left; !strings.HasPrefix(got, test.want) {
				t.Errorf("left %q, want %q", got, test.want)
			}
		})
	}
}

func TestRemarks(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name, text string
		want       []string // a part of each, in order; all of them
	}{
		{"nothing to remark", `{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 3}, {"down": 5}, {"down": 3.1}]}`, nil},
		{"readings exact", `{"rpm": 2000, "shafts": [{"down": 3.1}, {"down": 6.1}, {"down": 3.1}]}`, []string{"No reading error is given"}},
		{"joints that add up", `{"rpm": 4000, "reading_error_deg": 0.01, "limits": {"set": "heavy-road"}, "shafts": [{"down": 0}, {"down": 1.4}, {"down": 3.4}, {"down": 0.45}]}`,
			[]string{"Each joint and each pair looks fine by itself, but what they leave adds up to 356 rad/s²."}},
		{"no speed", `{"reading_error_deg": 0.1, "shafts": [{"down": 3}, {"down": 5}, {"down": 3}]}`,
			[]string{"No speed is given, so what depends on it is not judged: working angle by speed, shake left, acceleration when driving and acceleration when coasting."}},
		{"speed from the road", `{"road": {"speed_kmh": 90, "tyre": "235/60R16", "final_drive": 3.9}, "reading_error_deg": 0.1, "shafts": [{"down": 3}, {"down": 5}, {"down": 3}]}`,
			[]string{"The 2789 rpm of the shafts assume that the tyre turns as if it were 3 % smaller"}},
		{"positions without a tape error", `{"rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 3}, {}, {"down": 3}],
			"joints": [{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 1000, "right": 0, "down": 90}}]}`,
			[]string{"No tape error is given, so what was measured by tape is taken as exact."}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			j := judge(t, driveline(t, test.text))
			if len(j.Remarks) != len(test.want) {
				t.Fatalf("remarks\n%s\nwant %d of them", strings.Join(j.Remarks, "\n"), len(test.want))
			}
			for i, want := range test.want {
				if !strings.Contains(j.Remarks[i], want) {
					t.Errorf("remark %q\nwant %q", j.Remarks[i], want)
				}
			}
		})
	}
}

func TestNothingIsJudged(t *testing.T) {
	t.Parallel()
	s := inPlane(0, 5)
	s.Limits = survey.OnlyLimits(nil)
	if j := judge(t, s); j.Outcome != "" || !strings.HasPrefix(j.Answer, "Nothing is judged") {
		t.Errorf("%q: %s, want that nothing is judged", j.Outcome, j.Answer)
	}
}

// A judgement ends with its context.
func TestJudgeIsInterrupted(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if j, err := Judge(ctx, everyLimit(t)); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v and error %v, want that it was cancelled", j, err)
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
			if j, err := Judge(t.Context(), s); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %v and error %v, want one with %q", j, err, test.want)
			}
		})
	}
}
