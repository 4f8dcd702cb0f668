package adjust

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"

	"gonum.org/v1/gonum/stat/combin"

	"halfturn/kinematics/limits"
)

// searcher tries combinations of changes.
type searcher struct {
	evaluators []evaluator // one for each goroutine
	objective  *objective
	changes    []*change // to combine: readily, or all
	most       int       // of them at once
	// readily made are all but for what is done only where nothing else mends
	// everything; cuts are tried alone, see change.cuts.
	readily, all, cuts []*change
	*costs
	leftOut []string // what was not tried because there is too much of it

	tried, judged *meter // combinations and poses
}

// usualMost is how many changes are combined unless more are asked for.
const usualMost = 4

// newSearcher returns one that tries changes of a driveline in all its poses. exact is
// whether its readings are.
func newSearcher(poses []posed, changes []*change, exact bool, opts Options) (*searcher, error) {
	joints := int64(len(poses) * len(poses[0].survey.Joints))
	q := &searcher{costs: newCosts(joints, exact, opts.Budget), tried: newMeter(opts.Progress, "combination")}
	for _, c := range changes {
		if c.cuts {
			q.cuts = append(q.cuts, c)
		} else {
			q.all, q.readily = append(q.all, c), append(q.readily, c.readily())
		}
	}
	q.most = min(cmp.Or(opts.MostParts, usualMost), len(q.all))
	for range runtime.GOMAXPROCS(0) {
		e, err := newEvaluator(poses)
		if err != nil {
			return nil, err
		}
		q.evaluators = append(q.evaluators, e)
	}
	return q, nil
}

// search returns the candidates of every group of up to most changes that could be
// chosen. Larger groups are tried only as long as more parts could be of use.
func (q *searcher) search(ctx context.Context, most int) ([]*candidate, error) {
	var all []*candidate
	for size := 1; size <= most; size++ {
		if c := q.objective.choose(all); c != nil && c.standing.perfect() && c.share <= limits.Unfelt {
			break
		}
		found, err := q.ofSize(ctx, size)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

// fewest values of a change that show where its best lies.
const fewest = 4

// ofSize returns the candidates of every group of as many changes that could be
// chosen. Where there are too many combinations, only some values of each change
// are tried, and then what lies around those that could be chosen of these.
func (q *searcher) ofSize(ctx context.Context, size int) ([]*candidate, error) {
	afford := q.bound(size)
	if few := math.Pow(fewest, float64(size)) * combin.GeneralizedBinomial(float64(len(q.changes)), float64(size)); size > 1 && few > float64(afford) {
		q.leaveOut("%d changes at once, of the %d there are", size, len(q.changes))
		return nil, nil
	}
	full := groups(q.changes, size)
	sparse, most := full, 0
	for _, c := range q.changes {
		most = max(most, len(c.values))
	}
	for q.cost(sparse) > afford && most > fewest {
		most = max(fewest, most*3/4)
		sparse = thinned(full, most)
	}
	if size > 1 && q.cost(sparse) > afford {
		q.leaveOut("%d changes at once (%d combinations)", size, combinations(full))
		return nil, nil
	}
	found, err := q.explore(ctx, sparse)
	if err != nil || combinations(sparse) == combinations(full) {
		return found, err
	}
	of := "one change"
	if size > 1 {
		of = fmt.Sprintf("%d changes", size)
	}
	q.leaveOut("of the %d combinations of %s all but %d and those around the best of these", combinations(full), of, combinations(sparse))
	slices.SortStableFunc(found, func(a, b *candidate) int {
		return cmp.Or(a.standing.compare(b.standing), cmp.Compare(a.left, b.left))
	})
	found = found[:min(q.refinable(size), len(found))]
	closer := make([]frontier, len(found))
	err = parallel(ctx, len(q.evaluators), len(found), func(worker, i int) error {
		closer[i] = q.refine(q.evaluators[worker], found[i])
		return q.spend(0)
	})
	return slices.Concat(closer...), err
}

// At the most so many of the best of thinned groups are looked around, each so many
// times.
const (
	mostRefined = 100
	mostRounds  = 16
)

// refinable returns how many candidates of so many changes may be looked around.
func (q *searcher) refinable(size int) int {
	each := mostRounds * math.Pow(nearby, float64(size)) * float64(q.joints)
	return max(1, min(mostRefined, int(float64(q.bound(2))/each)))
}

func (q *searcher) leaveOut(format string, args ...any) {
	q.leftOut = append(q.leftOut, fmt.Sprintf(format, args...))
}

// cost returns the steps that the combinations take.
func (q *searcher) cost(groups []*group) int64 { return combinations(groups) * q.joints }

// jobSteps is how many steps one job takes at the most: some milliseconds' worth, so
// that a search ends at once with its context.
const jobSteps = 1 << 14

// explore tries every combination of every group and returns those of each group
// that could be chosen, with the shafts parallel and with them mirrored. The result
// does not depend on the number of goroutines.
func (q *searcher) explore(ctx context.Context, groups []*group) ([]*candidate, error) {
	type job struct {
		group    int
		from, to int64
	}
	var jobs []job
	tries := max(1, jobSteps/q.joints)
	for i, g := range groups {
		for from, all := int64(0), g.combinations(); from < all; from += tries {
			jobs = append(jobs, job{i, from, min(from+tries, all)})
		}
	}
	if err := q.spend(q.cost(groups)); err != nil {
		return nil, err
	}
	q.tried.add(0, combinations(groups))
	found := make([]sides, len(jobs))
	err := parallel(ctx, len(q.evaluators), len(jobs), func(worker, i int) error {
		j := jobs[i]
		found[i] = q.try(q.evaluators[worker], groups[j.group], j.from, j.to)
		q.tried.add(j.to-j.from, 0)
		return nil
	})
	if err != nil {
		return nil, err
	}
	merged := make([]sides, len(groups))
	for i, j := range jobs {
		for side := range found[i] {
			merged[j.group][side].merge(found[i][side])
		}
	}
	var all []*candidate
	for _, s := range merged {
		all = append(all, slices.Concat(s[0], s[1])...)
	}
	return all, nil
}

// try tries a run of the combinations of a group.
func (q *searcher) try(e evaluator, g *group, from, to int64) sides {
	var found sides
	var settings []setting
	for i := from; i < to; i++ {
		settings = g.combination(settings, i)
		c, ok := q.candidate(e, g, settings)
		if !ok {
			continue
		}
		if f := &found[side(c.mirrored)]; f.open(&c) {
			c.swing = e[0].swing()
			f.insert(c)
		}
	}
	return found
}

// candidate tries settings; ok is false where they make no driveline or something
// worse than it is.
func (q *searcher) candidate(e evaluator, g *group, settings []setting) (c candidate, ok bool) {
	standing, ok := q.objective.standing(e, settings)
	if !ok {
		return c, false
	}
	return candidate{group: g, settings: settings, standing: standing, outcome: q.objective.outcome(e), change: effort(settings)}, true
}

// refine looks near a candidate of a thinned group, in ever smaller steps, for what
// leaves less.
func (q *searcher) refine(e evaluator, c *candidate) frontier {
	strides := make([]int, len(c.changes))
	for i, ch := range c.changes {
		strides[i] = stride(ch.values, len(c.values[i]))
	}
	for round := 1; ; round++ {
		near := &group{changes: c.changes}
		finest := true
		for i, set := range c.settings {
			finest = finest && strides[i] == 1
			strides[i] = (strides[i] + 1) / 2
			near.values = append(near.values, around(set.change.values, set.value, strides[i]))
		}
		q.spent.Add(near.combinations() * q.joints)
		found := q.try(e, near, 0, near.combinations())[side(c.mirrored)]
		least := found[0]
		if settled := finest && least.left >= c.left && least.standing == c.standing; settled || round == mostRounds {
			return found
		}
		c = least
	}
}
