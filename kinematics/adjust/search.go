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
	// Before is as measured, then in the poses that the plans are to suit: those of the
	// kind cruise, or all if they were asked for.
	Before []State
	// Fine is set where no limit is known to be broken: nothing needs to be changed.
	// There may still be a plan, that takes a doubt away or halves what is left.
	Fine bool
	// Plans touch different parts, or the same the other way; the best first.
	Plans []Plan
	// SetAside are the verdicts on limits that are broken and that no change within
	// reach mends without making something else worse. Where the vehicle is not driven
	// for hours, such a limit may be broken a little further by a plan that mends others.
	SetAside []Breach
	// Needed is what it would take, with changes beyond their ranges, where no plan
	// mends everything; nil: one or two of them would not do even if they could go
	// three times as far and either way.
	Needed *Plan

	Changes []survey.Change // that were tried, with their steps
	Assumed bool            // possible by common practice, because the survey lists none
	Refused []string        // changes that cannot be followed, and why
	Untried []string        // those of them that want a length, as a sweep names them
	// Twisted are shafts with yokes in phase between companions whose planes are not.
	Twisted    []string
	OtherPoses int      // of the survey, that the plans need not suit
	Remarks    []string // what was taken for granted or left out, one sentence each
	Tried      int64    // combinations
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
//   - leaves the least at the last shaft, at the worst ride height,
//   - and of what leaves about as much changes the least, in parts of what is
//     usual, and lifts the nose of the axle the least,
//
// in this order. What no plan mends stays as it is, or gets a little worse where the
// vehicle only passes through. Of the usual changes, a mount is lowered only where
// nothing else mends everything, and a shaft with its yokes in phase is cut only where
// that alone does.
//
// Search fails where no limit applies, where something is broken and no change can
// be followed, with ErrBudget, and with the error of ctx when that ends.
func Search(ctx context.Context, s *survey.Survey, opts Options) (*Result, error) {
	s = s.Complete()
	r, changes, err := choose(s, opts)
	if err != nil {
		return nil, err
	}
	asked := driven
	if opts.AllPoses {
		asked = everyPose
	}
	poses := inPoses(s, asked)
	r.OtherPoses = 1 + len(s.Poses) - len(poses)
	judged := newMeter(opts.Progress, "pose")
	if r.Before = known(opts.Before, poses); r.Before == nil {
		r.Before, err = states(ctx, poses, judged)
	}
	if err != nil {
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
		most: cmp.Or(opts.MostParts, usualMost), costs: newCosts(int64(len(poses)*len(s.Joints)), exact(r.Before), opts.Budget),
		tried: newMeter(opts.Progress, "combination"), judged: judged,
	}
	for _, c := range changes {
		if c.cuts {
			q.cuts, r.Twisted = append(q.cuts, c), append(r.Twisted, c.asked.On)
		} else {
			q.all, q.readily = append(q.all, c), append(q.readily, c.readily())
		}
	}
	q.most = min(q.most, len(q.all))
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

// known returns those of the states that are in the poses, nil unless all are there.
func known(states []State, poses []posed) []State {
	var list []State
	for _, s := range states {
		if slices.ContainsFunc(poses, func(p posed) bool { return p.pose == s.Pose }) {
			list = append(list, s)
		}
	}
	if len(list) < len(poses) {
		return nil
	}
	return list
}

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
	q.objective.firm()
	if err == nil && !r.Fine && (len(r.SetAside) > 0 || !mended(ranked)) {
		r.Needed, err = q.needed(ctx, s)
	}
	return err
}

// ranked returns what to make plans of, the best first, and sets aside what none of
// them mends.
func (q *searcher) ranked(ctx context.Context, s *survey.Survey, r *Result) ([]*candidate, error) {
	list, err := q.rank(ctx, s, r)
	if err != nil || r.Fine {
		return list, err
	}
	r.SetAside = q.setAside(r.Before)
	if q.objective.yield(q.evaluators[0]) {
		return q.rank(ctx, s, r)
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

// rank returns the candidates to make plans of. What is made lastly is tried only
// where nothing else mends everything, and counts only if it mends more.
func (q *searcher) rank(ctx context.Context, s *survey.Survey, r *Result) ([]*candidate, error) {
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
		more := q.objective.rank(all, &present)
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
			q.objective.owed[i][k].aside = aside
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
	for _, c := range q.all {
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
