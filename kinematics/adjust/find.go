package adjust

import (
	"cmp"
	"context"
	"slices"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// find looks for the plans, and for what it would take where none mends all.
func (r *Result) find(ctx context.Context, s *survey.Survey, q *searcher) error {
	q.objective = newObjective(q.evaluators[0], r.Before)
	q.objective.doubts = r.Fine
	ranked, err := q.ranked(ctx, s, r)
	if err != nil {
		return err
	}
	if most := int(q.judgements); len(ranked) > most {
		q.leaveOut("%d of the %d plans found, for which all %d poses would have to be judged", len(ranked)-most, len(ranked), len(r.Before))
		ranked = ranked[:most]
	}
	if err := q.judge(len(ranked)); err != nil {
		return err
	}
	r.Plans = make([]Plan, len(ranked))
	err = parallel(ctx, len(q.evaluators), len(ranked), func(worker, i int) (err error) {
		r.Plans[i], err = q.plan(ctx, s, q.evaluators[worker], ranked[i])
		return err
	})
	surestFirst(r.Plans)
	q.objective.firm()
	if err == nil && !r.Fine && (len(r.SetAside) > 0 || !mended(ranked)) {
		r.Needed, err = q.needed(ctx, s)
	}
	return err
}

// surestFirst moves a plan that is within to the front of one that is in doubt, unless it
// touches more parts or leaves the ends mirrored instead.
func surestFirst(plans []Plan) {
	if len(plans) == 0 || plans[0].Outcome != limits.TooClose {
		return
	}
	first := &plans[0]
	i := slices.IndexFunc(plans, func(p Plan) bool {
		return p.Outcome == limits.Within && len(p.Steps) <= len(first.Steps) && (first.Mirrored || !p.Mirrored)
	})
	if i > 0 {
		sure := plans[i]
		copy(plans[1:i+1], plans[:i])
		plans[0] = sure
	}
}

// ranked returns what to make plans of, the best first, and sets aside what none of
// them mends.
func (q *searcher) ranked(ctx context.Context, s *survey.Survey, r *Result) ([]*candidate, error) {
	list, err := q.shortlist(ctx, s, r)
	if err != nil || r.Fine {
		return list, err
	}
	r.SetAside = q.setAside(r.Before)
	if q.objective.yield(q.evaluators[0]) {
		return q.shortlist(ctx, s, r)
	}
	if len(q.cuts) == 0 {
		return list, nil
	}
	cut, err := q.cut(ctx)
	switch {
	case err != nil || cut == nil:
	case mended(list): // by moving parts
		list = append(list[:min(len(list), MostPlans-1)], cut)
	default:
		list, r.SetAside = []*candidate{cut}, q.setAside(r.Before)
	}
	return list, err
}

// shortlist returns the candidates to make plans of. What is made lastly is tried only
// where nothing else mends everything, and counts only if it mends more.
func (q *searcher) shortlist(ctx context.Context, s *survey.Survey, r *Result) ([]*candidate, error) {
	q.changes, q.leftOut = q.readily, nil
	if err := q.aim(ctx, s, r); err != nil {
		return nil, err
	}
	present, _ := q.candidate(q.evaluators[0], nil, nil)
	leftOut := q.leftOut
	var list []*candidate
	for _, changes := range [][]*change{q.readily, q.all} {
		q.changes, q.leftOut = changes, slices.Clone(leftOut)
		all, err := q.search(ctx, q.most)
		if err != nil {
			return nil, err
		}
		more := q.objective.shortlist(all, &present)
		if len(list) == 0 || len(more) > 0 && more[0].standing.compare(list[0].standing) < 0 {
			list = more
		}
		if r.Fine || mended(list) || slices.Equal(q.readily, q.all) {
			break
		}
	}
	return list, nil
}

// mended reports whether the best of the list mends everything.
func mended(list []*candidate) bool { return len(list) > 0 && list[0].standing.mended() }

// setAside returns the verdicts on broken limits that no candidate mends, and has
// the objective leave them out of what is asked.
func (q *searcher) setAside(before []State) []Breach {
	var list []Breach
	for i, state := range before {
		for k, v := range state.Judgement.Verdicts {
			mends := func(e evaluator) bool { return e[i].most[k] >= -rounding }
			aside := broken(v.Outcome) && !slices.ContainsFunc(q.evaluators, mends)
			q.objective.owed[i][k].setAside = aside
			if aside {
				list = append(list, Breach{state.Pose, v})
			}
		}
	}
	return list
}

// aim reckons how uncertain a corrected driveline is, at what would be best if all
// readings were exact.
func (q *searcher) aim(ctx context.Context, s *survey.Survey, r *Result) error {
	switch {
	case exact(r.Before):
		return nil
	case q.judgements < 2: // one is kept for a plan
		q.leaveOut("to reckon anew, before choosing, how far the errors of the readings reach once it is corrected")
		q.objective.reckon(r.Before)
		return nil
	}
	q.objective.reckon(nil)
	all, err := q.search(ctx, min(2, q.most))
	if err != nil {
		return err
	}
	q.leftOut = nil // it is searched again
	toward := r.Before
	if c := q.objective.choose(all); c != nil {
		if err := q.judge(1); err != nil {
			return err
		}
		if toward, err = states(ctx, afterwards(corrected(s, c.settings), q.evaluators[0]), q.judged); err != nil {
			return err
		}
	}
	q.objective.reckon(toward)
	return nil
}

// needed returns what would mend everything if every change could go three times
// as far and either way; nil where that would not do.
func (q *searcher) needed(ctx context.Context, s *survey.Survey) (*Plan, error) {
	if q.judgements == 0 {
		q.leaveOut("what it would take to mend everything with changes beyond their ranges")
		return nil, nil
	}
	wide := &searcher{evaluators: q.evaluators, objective: q.objective, costs: q.costs, tried: newMeter(nil, ""), judged: q.judged}
	for _, c := range q.all {
		wide.changes = append(wide.changes, c.widened())
	}
	all, err := wide.search(ctx, min(2, q.most))
	if err != nil {
		return nil, err
	}
	all = slices.DeleteFunc(all, func(c *candidate) bool { return !c.standing.mended() })
	if len(all) == 0 {
		return nil, nil
	}
	fewest := slices.MinFunc(all, func(a, b *candidate) int { return cmp.Compare(len(a.settings), len(b.settings)) })
	best := q.objective.choose(slices.DeleteFunc(all, func(c *candidate) bool { return len(c.settings) > len(fewest.settings) }))
	if err := q.judge(1); err != nil {
		return nil, err
	}
	plan, err := q.plan(ctx, s, q.evaluators[0], best)
	return &plan, err
}
