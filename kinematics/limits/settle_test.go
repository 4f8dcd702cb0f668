package limits

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// Someone who does better by what the advice says can tell.
func TestAdviceSettles(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 1))
	asked, settled := 0, 0
	for asked < 60 {
		s := inPlane(3*rng.Float64(), 3+2*rng.Float64(), 3*rng.Float64())
		s.RPM, s.ReadingErrorDeg = 3000, 0.2
		for _, v := range only(judge(t, s).Verdicts, TooClose) {
			if v.Settle.Want == 0 {
				continue
			}
			asked++
			better := s.Complete()
			better.ReadingErrorDeg = v.Settle.Want
			again := judge(t, better).Verdicts
			i := slices.IndexFunc(again, func(w Verdict) bool { return w.LimitName == v.LimitName && w.Subject == v.Subject })
			if again[i].Outcome != TooClose {
				settled++
			}
		}
	}
	// The advice is linear and the intervals of squares are not: it may miss a few.
	if settled < asked*95/100 {
		t.Errorf("%d of %d verdicts are settled by what the advice asks for, want nearly all", settled, asked)
	}
}

func TestAdvice(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, text, want string }{
		{"tape",
			`{"rpm": 2000, "tape_error": 3, "shafts": [{"down": 0}, {}, {"down": 0}], "limits": {"working_angle_max_deg": 3.1, "companion_difference_deg": null},
			  "joints": [{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 1000, "right": 0, "down": 52}}]}`,
			"the position (down) of joint 1 contributes most (50 %); a tape error of "},
		{"phase",
			`{"rpm": 2000, "phase_error_deg": 5, "reading_error_deg": 0.01, "shafts": [{"down": 0}, {"down": 2.9, "phase": 8}, {"down": 0}]}`,
			"the phase of shaft 2 contributes most (100 %); a phase error of "},
		{"scatter",
			`{"rpm": 2000, "reading_error_deg": 0.1, "limits": {"set": "road-strict"}, "shafts": [{"down": [0, 0.6]}, {"down": 2.8}, {"down": 0}]}`,
			"by the scatter of its readings"},
		{"more than one error can do",
			`{"rpm": 2000, "reading_error_deg": 0.1, "tape_error": 10, "limits": {"set": "road-strict"}, "shafts": [{"down": 0.9}, {}, {"down": 0}],
			  "joints": [{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 1000, "right": 0, "down": 50.6}}]}`,
			"all errors together would have to shrink to "},
		{"on the limit",
			`{"rpm": 2000, "reading_error_deg": 0.1, "limits": {"set": "road-strict"}, "shafts": [{"down": 0}, {"down": 3}, {"down": 0.5}]}`,
			"the value lies on the limit, where no measurement settles it"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if j := judge(t, driveline(t, test.text)); !strings.Contains(j.Answer, test.want) {
				t.Errorf("answer %q, want %q", j.Answer, test.want)
			}
		})
	}
}
