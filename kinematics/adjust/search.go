package adjust

import (
	"cmp"
	"context"
	"errors"
	"runtime"
	"slices"
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// MostPlans is how many plans Search returns at the most.
const MostPlans = 6

// usualMost is how many changes are combined unless more are asked for.
const usualMost = 4

// Result is what can be done about a driveline.
type Result struct {
	Before []State // as measured, then in each pose if all were asked for
	// Fine is set where no limit is known to be broken: nothing needs to be changed.
	// There may still be a plan, that takes a doubt away or halves what is left.
	Fine bool
	// Plans touch different parts, or the same the other way; the best first.
	Plans []Plan
	// SetAside are the verdicts on limits that are broken and that no change within
	// reach mends without making something else worse.
	SetAside []Breach
	// Needed is what it would take, with changes beyond their ranges, where no plan
	// mends everything; nil: one or two of them would not do even if they could go
	// three times as far and either way.
	Needed *Plan

	Changes []survey.Change // that were tried, with their steps
	Assumed bool            // possible by common practice, because the survey lists none
	Refused []string        // changes that cannot be followed, and why
	Remarks []string        // what was taken for granted or left out, one sentence each
	Tried   int64           // combinations
}

// Search looks for the changes that a good technician would make to a valid
// driveline. Every change is made in practical steps; every setting of one change
// and of two together is tried in the exact model, of more changes and of very long
// drivelines as many as can be afforded: Remarks tell what was left out.
//
// A plan makes nothing worse than it is as measured and keeps every limit that it
// touches and that the readings can prove. Of such plans the best
//
//   - mends the gravest limits and the most of them,
//   - touches the fewest parts, where each part more must mend a limit or halve
//     what is left,
//   - leaves the ends parallel rather than mirrored, on a sprung axle,
//   - leaves the least at the last shaft,
//   - and of what leaves about as much changes the least, in parts of what is
//     usual, and lifts the nose of the axle the least,
//
// in this order. What no plan mends stays as it is.
//
// Search fails where no limit applies, where something is broken and no change can
// be followed, with ErrBudget, and with the error of ctx when that ends.
func Search(ctx context.Context, s *survey.Survey, opts Options) (*Result, error) {
	s = s.Complete()
	r, changes, err := choose(s, opts)
	if err != nil {
		return nil, err
	}
	poses := inPoses(s, opts.AllPoses)
	judged := newMeter(opts.Progress, "pose")
	if len(opts.Before) >= len(poses) {
		r.Before = opts.Before[:len(poses)]
	} else if r.Before, err = states(ctx, poses, judged); err != nil {
		return nil, err
	}
	if len(r.Before[0].Judgement.Verdicts) == 0 {
		return nil, errors.New("nothing is judged, so that nothing can be corrected: want a driveline with a limit")
	}
	r.Fine = len(breaches(r.Before, broken)) == 0
	if len(changes) == 0 {
		if r.Fine {
			return r, nil
		}
		return nil, errors.New(strings.Join(append([]string{"no change can be tried"}, r.Refused...), "\n"))
	}
	q := &searcher{
		changes: changes, most: min(len(changes), cmp.Or(opts.MostParts, usualMost)),
		costs: newCosts(int64(len(poses)*len(s.Joints)), exact(r.Before), opts.Budget),
		tried: newMeter(opts.Progress, "combination"), judged: judged,
	}
	if r.Fine {
		q.most = 1
	}
	for range runtime.GOMAXPROCS(0) {
		e, err := newEvaluator(poses)
		if err != nil {
			return nil, err
		}
		q.evaluators = append(q.evaluators, e)
	}
	if err := r.find(ctx, s, q); err != nil {
		return nil, err
	}
	r.Tried = q.tried.done
	r.Remarks = remarks(r, s, q)
	return r, nil
}

// find looks for the plans, and for what it would take where none mends all.
func (r *Result) find(ctx context.Context, s *survey.Survey, q *searcher) error {
	if err := q.aim(ctx, s, r); err != nil {
		return err
	}
	all, err := q.search(ctx, q.most)
	if err != nil {
		return err
	}
	present, _ := q.candidate(q.evaluators[0], nil, nil)
	ranked := q.objective.rank(all, &present)
	r.SetAside = q.setAside(r.Before)
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
	if err == nil && !r.Fine && (len(ranked) == 0 || !ranked[0].standing.mended()) {
		r.Needed, err = q.needed(ctx, s)
	}
	return err
}

// setAside returns the verdicts on broken limits that no candidate mends, and has
// the objective leave them out of what is asked.
func (q *searcher) setAside(before []State) []Breach {
	var list []Breach
	for i, state := range before {
		for k, v := range state.Judgement.Verdicts {
			mends := func(e evaluator) bool { return e[i].most[k] >= -rounding }
			if broken(v.Outcome) && !slices.ContainsFunc(q.evaluators, mends) {
				q.objective.owed[i][k].aside = true
				list = append(list, Breach{state.Pose, v})
			}
		}
	}
	return list
}

// aim sets the objective. How uncertain a corrected driveline is, is reckoned at what
// would be best if all readings were exact.
func (q *searcher) aim(ctx context.Context, s *survey.Survey, r *Result) error {
	e := q.evaluators[0]
	q.objective = newObjective(e, r.Before, nil)
	q.objective.doubts = r.Fine
	switch {
	case exact(r.Before):
		return nil
	case q.judgements < 2: // one is kept for a plan
		q.leaveOut("to reckon anew, before choosing, how far the errors of the readings reach once it is corrected")
		q.objective = newObjective(e, r.Before, r.Before)
		q.objective.doubts = r.Fine
		return nil
	}
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
		if toward, err = states(ctx, afterwards(corrected(s, c.settings), e), q.judged); err != nil {
			return err
		}
	}
	q.objective = newObjective(e, r.Before, toward)
	q.objective.doubts = r.Fine
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
	for _, c := range q.changes {
		wide.changes = append(wide.changes, c.widened())
	}
	all, err := wide.search(ctx, min(2, q.most))
	if err != nil {
		return nil, err
	}
	best := q.objective.choose(all)
	if best == nil || !best.standing.mended() {
		return nil, nil
	}
	if err := q.judge(1); err != nil {
		return nil, err
	}
	plan, err := q.plan(ctx, s, q.evaluators[0], best)
	return &plan, err
}

// remarks says what is taken for granted and what was left out, one sentence each.
func remarks(r *Result, s *survey.Survey, q *searcher) []string {
	var list []string
	if r.Assumed {
		list = append(list, "The file lists no changes: these are taken to be possible by common practice, without a source.")
	}
	for _, c := range q.changes {
		if text := c.remark(s); !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	for _, what := range q.leftOut {
		list = append(list, "Left out: "+what+".")
	}
	return list
}

// exact reports whether nothing that the states were judged by is uncertain.
func exact(states []State) bool {
	return !slices.ContainsFunc(states, func(s State) bool { return len(s.Judgement.Inputs) > 0 })
}

// notWithin reports whether a limit is broken or in doubt.
func notWithin(o limits.Outcome) bool { return o != limits.Within }

// broken reports whether a limit is known to be broken.
func broken(o limits.Outcome) bool { return o == limits.Over || o == limits.Under }
