package limits

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"halfturn/kinematics/survey"
)

// Judgement is what is to be said of a driveline as measured.
type Judgement struct {
	// Outcome is that of the worst verdict: Over or Under where a limit is broken,
	// else TooClose, else Within; "" where nothing is judged.
	Outcome  Outcome
	Answer   string // one plain sentence: fine, not fine or too close to call, and why
	Verdicts []Verdict
	Remarks  []string // one sentence each: what the verdicts alone do not say

	Set       Set
	Roles     Roles
	RPM       float64    // of the first shaft; 0: not given
	Inputs    []Input    // what is measured with an error; an angle that is not given has none
	Crossings []Crossing // speeds at which the limits are reached
}

// Judge returns the judgement of a driveline as measured. It fails with what
// survey.Survey.Validate says of one that is not valid, and where its errors are so
// large that some values within them make no driveline. It ends early, with the
// error of the context, when that is done.
func Judge(ctx context.Context, s *survey.Survey) (*Judgement, error) {
	g, err := NewGauge(s)
	if err != nil {
		return nil, err
	}
	return judged(ctx, s.Complete(), g)
}

// JudgeAs is Judge with the roles that the joints have in another state of the same
// driveline, such as before a correction, so that the verdicts are on the same
// quantities in both.
func JudgeAs(ctx context.Context, s *survey.Survey, roles Roles) (*Judgement, error) {
	s = s.Complete()
	g, err := newGauge(s, s.ShaftRPM(), &roles)
	if err != nil {
		return nil, err
	}
	return judged(ctx, s, g)
}

// judged judges a complete driveline.
func judged(ctx context.Context, s *survey.Survey, g *Gauge) (*Judgement, error) {
	inputs, spreads, err := propagate(ctx, s, g)
	if err != nil {
		return nil, err
	}
	j := &Judgement{Set: g.Set, Roles: g.Roles, RPM: g.RPM, Inputs: inputs}
	for q, judged := range g.Judged {
		j.Verdicts = append(j.Verdicts, newVerdict(judged, spreads[q], inputs))
	}
	j.Outcome, j.Answer = answer(j.Verdicts)
	if j.Crossings, err = Crossings(s); err != nil {
		return nil, err
	}
	j.Remarks = remarks(s, g, j.Verdicts)
	return j, nil
}

// answer returns the outcome of all verdicts together and the sentence for it.
func answer(verdicts []Verdict) (Outcome, string) {
	broken := only(verdicts, Over, Under)
	close := only(verdicts, TooClose)
	switch {
	case len(broken) > 0:
		v := worst(broken)
		return v.Outcome, fmt.Sprintf("Not fine because %s%s.", v, more(len(broken)-1, "broken"))
	case len(close) > 0:
		v := worst(close)
		return TooClose, fmt.Sprintf("Too close to call because %s%s; %s.", v, more(len(close)-1, "in doubt"), v.Settle)
	case len(verdicts) > 0:
		return Within, fmt.Sprintf("Fine: all limits are kept, in %d verdicts.", len(verdicts))
	default:
		return "", "Nothing is judged: no limit applies."
	}
}

// only returns the verdicts of the given outcomes.
func only(verdicts []Verdict, outcomes ...Outcome) []Verdict {
	return slices.DeleteFunc(slices.Clone(verdicts), func(v Verdict) bool { return !slices.Contains(outcomes, v.Outcome) })
}

// worst returns the verdict whose value is furthest beyond its limit, in
// proportion to the limit; of equals the first, whatever the rounding.
func worst(verdicts []Verdict) Verdict {
	margin := func(v Verdict) float64 { return math.Round(1e9 * v.Margin()) }
	return slices.MinFunc(verdicts, func(a, b Verdict) int { return cmp.Compare(margin(a), margin(b)) })
}

// more says how many other limits are broken or in doubt.
func more(n int, what string) string {
	switch n {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf(", and 1 more limit is %s", what)
	default:
		return fmt.Sprintf(", and %d more limits are %s", n, what)
	}
}
