package limits

import (
	"cmp"
	"context"
	"math"
	"slices"

	"halfturn/kinematics/survey"
)

// Judgement is what is to be said of a driveline as measured.
type Judgement struct {
	// Questions are to be answered before the rest, which is "as entered".
	Questions []string
	// Outcome is that of the gravest verdict: Over or Under where a limit is broken,
	// else TooClose, else Within; "" where nothing is judged.
	Outcome Outcome
	Answer  string // plain sentences: fine, not fine or too close to call, and why
	Why     string // what is broken or else in doubt, as a clause; "" where all is within
	// PhaseCure says how yokes that are out of phase are to be turned, which a correction
	// may say too; "" where none are.
	PhaseCure string
	Left      string // what is left at the last shaft, in one plain sentence
	Assumed   string // what is taken for granted because nobody entered it, in one; "" for nothing
	Verdicts  []Verdict
	Remarks   []string // one sentence each: what the verdicts alone do not say

	Set        Set
	Roles      Roles
	Mismatches []Mismatch // of the companions, in the order of Roles
	RPM        float64    // of the first shaft; 0: not given
	Inputs     []Input    // what is measured with an error; an angle that is not given has none
	Crossings  []Crossing // speeds at which the limits are reached
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

// In returns the driveline in a pose, as survey.Survey.In, judged by those limits
// that hold in a pose of its kind: where it is cruising all; under load accelerations
// and greatest angles; in travel greatest angles only. A pose that does not say what
// it is counts as under load: the rules of a shop hold at ride height, where the
// driveline is measured, or in a pose that is named as cruising. Limits that the pose
// sets itself hold in any case.
func In(s *survey.Survey, pose survey.Pose) *survey.Survey {
	posed := s.In(pose)
	in := slices.Index(survey.PoseKinds, cmp.Or(pose.Kind, survey.Load))
	for _, name := range survey.LimitNames {
		_, own := pose.Limits.Values[name]
		if in > slices.Index(survey.PoseKinds, kindOf(name).holds) && !own && !slices.Contains(posed.Limits.Off, name) {
			delete(posed.Limits.Values, name) // the pose has a map of its own
			posed.Limits.Off = append(posed.Limits.Off, name)
		}
	}
	return posed
}

// judged judges a complete driveline.
func judged(ctx context.Context, s *survey.Survey, g *Gauge) (*Judgement, error) {
	t, err := newTrial(s, g.Roles)
	if err != nil {
		return nil, err
	}
	spreads, err := t.propagate(ctx, g)
	if err != nil {
		return nil, err
	}
	j := &Judgement{Set: g.Set, Roles: g.Roles, RPM: g.RPM, Inputs: t.inputs}
	for q, judged := range g.Judged {
		j.Verdicts = append(j.Verdicts, newVerdict(judged, spreads[q]))
	}
	if err := j.settle(t, g); err != nil {
		return nil, err
	}
	d, err := s.Driveline()
	if err != nil {
		return nil, err
	}
	j.Mismatches = mismatches(s, d, g.Roles)
	if j.Crossings, err = Crossings(s); err != nil {
		return nil, err
	}
	motions := d.Driving(nil)
	j.word(&wording{survey: s, gauge: g, judgement: j, driveline: d, last: motions[len(motions)-1]})
	return j, nil
}

// settle says for each verdict that is too close to call what would settle it.
func (j *Judgement) settle(t *trial, g *Gauge) error {
	if len(only(j.Verdicts, TooClose)) == 0 {
		return nil
	}
	shares, err := t.contributions(g)
	if err != nil {
		return err
	}
	settle(j.Verdicts, t.inputs, shares)
	return nil
}

// only returns the verdicts of the given outcomes.
func only(verdicts []Verdict, outcomes ...Outcome) []Verdict {
	return slices.DeleteFunc(slices.Clone(verdicts), func(v Verdict) bool { return !slices.Contains(outcomes, v.Outcome) })
}

// gravest returns of each class the verdict furthest beyond its limit, in proportion
// to the limit; of equals the first, whatever the rounding.
func gravest(verdicts []Verdict) []Verdict {
	margin := func(v Verdict) float64 { return math.Round(1e9 * v.Margin()) }
	var list []Verdict
	for class := TooBent; class <= TooStraight; class++ {
		of := slices.DeleteFunc(slices.Clone(verdicts), func(v Verdict) bool { return v.Class != class })
		if len(of) > 0 {
			list = append(list, slices.MinFunc(of, func(a, b Verdict) int { return cmp.Compare(margin(a), margin(b)) }))
		}
	}
	return list
}
