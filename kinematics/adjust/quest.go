package adjust

import (
	"context"
	"math"
	"slices"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// quest is a search under way.
type quest struct {
	survey   *survey.Survey
	stands   []*stand
	before   []State
	allPoses bool
	workers  int
	progress func(tried int64) // told how many more have been tried
	// best is the largest margin of each judged quantity of each stand in all that
	// was tried.
	best [][]float64
}

// reached counts what a bench has tried.
func (q *quest) reached(b bench) {
	if q.best == nil {
		q.best = make([][]float64, len(b))
	}
	for i := range b {
		for k, m := range b[i].best {
			if len(q.best[i]) <= k {
				q.best[i] = append(q.best[i], m)
			}
			q.best[i][k] = max(q.best[i][k], m)
		}
	}
}

// search returns the best candidate of every group of at most most changes that
// could win: groups are left out when a part of theirs is within already, or,
// from pairs on, when fewer changes have served.
func (q *quest) search(ctx context.Context, changes []*change, most int) ([]pick, error) {
	var picks []pick
	serves := func(p pick) bool { return p.within }
	for size := 1; size <= most; size++ {
		if size > 2 && slices.ContainsFunc(picks, serves) {
			break
		}
		groups := slices.DeleteFunc(groups(changes, size), func(g *group) bool {
			return slices.ContainsFunc(picks, func(p pick) bool { return p.within && g.contains(p.group) })
		})
		frontiers, err := q.explore(ctx, groups)
		if err != nil {
			return nil, err
		}
		found := make([]pick, len(groups))
		err = parallel(ctx, q.workers, len(groups), func(_, i int) (err error) {
			if len(frontiers[i]) > 0 {
				found[i], err = q.pick(groups[i], frontiers[i])
			}
			return err
		})
		if err != nil {
			return nil, err
		}
		picks = append(picks, slices.DeleteFunc(found, func(p pick) bool { return p.group == nil })...)
	}
	return picks, nil
}

// plans works out at most most of the picks.
func (q *quest) plans(ctx context.Context, picks []pick, most int) ([]Plan, error) {
	b, err := newBench(q.stands)
	if err != nil {
		return nil, err
	}
	picks = shortlist(picks, b.try(nil), most)
	plans := make([]Plan, len(picks))
	return plans, parallel(ctx, q.workers, len(picks), func(_, i int) (err error) {
		plans[i], err = q.plan(picks[i])
		return err
	})
}

// needed returns what would do if every change could go three times as far and
// either way; nil where that would not help.
func (q *quest) needed(ctx context.Context, changes []*change) (*Plan, error) {
	wide := q.without(q.marked(func(int, int) bool { return false }))
	wide.progress = func(int64) {}
	var wider []*change
	for _, c := range changes {
		w := *c
		w.asked = widened(c.asked)
		w.values = settings(w.asked)
		wider = append(wider, &w)
	}
	picks, err := wide.search(ctx, wider, min(2, len(wider)))
	if err != nil {
		return nil, err
	}
	plans, err := wide.plans(ctx, picks, 1)
	if err != nil || len(plans) == 0 || plans[0].Outcome != limits.Within {
		return nil, err
	}
	return &plans[0], nil
}

// widened returns a change that goes three times as far, either way, in steps so
// large that a hundred do. A clocking, which repeats, stays within half a turn.
func widened(c survey.Change) survey.Change {
	reach := 3 * max(math.Abs(c.From), math.Abs(c.To))
	if c.Change == survey.ChangeClocking {
		reach = min(reach, clockReach)
	}
	if c.Step > 0 {
		c.Step *= math.Ceil(reach / c.Step / 50)
		reach = c.Step * math.Floor(reach/c.Step)
	}
	c.From, c.To = -reach, reach
	return c
}
