package adjust

import (
	"context"
	"math"
	"slices"

	"halfturn/kinematics/limits"
)

// marks tells judged quantities apart, by stand.
type marks [][]bool

func (m marks) any() bool {
	return slices.ContainsFunc(m, func(s []bool) bool { return slices.Contains(s, true) })
}

func (m marks) equal(other marks) bool { return slices.EqualFunc(m, other, slices.Equal[[]bool]) }

// marked returns the marks of the quantities for which holds is true.
func (q *quest) marked(holds func(stand, quantity int) bool) marks {
	m := make(marks, len(q.stands))
	for i, t := range q.stands {
		m[i] = make([]bool, len(t.aside))
		for k := range m[i] {
			m[i][k] = holds(i, k)
		}
	}
	return m
}

// without returns a quest of its own in which the marked quantities are set aside.
func (q *quest) without(aside marks) *quest {
	rest := *q
	rest.best, rest.stands = nil, nil
	for i, t := range q.stands {
		left := *t
		left.aside = aside[i]
		rest.stands = append(rest.stands, &left)
	}
	return &rest
}

// breaches returns the verdicts of the states that are not within, of what is
// set aside or of the rest.
func (q *quest) breaches(states []State, aside bool) []Breach {
	var list []Breach
	for i, s := range states {
		for k, v := range s.Judgement.Verdicts {
			if v.Outcome != limits.Within && q.stands[i].aside[k] == aside {
				list = append(list, Breach{s.Pose, v})
			}
		}
	}
	return list
}

// mend searches again where no pick is within. Plans are ranked by what is worst,
// so that none looks of any use when that is something that no change mends. What
// nothing brings within its limit is therefore set aside, and the rest corrected.
// Where the rest needs no correction, or none can be found, only that is set aside
// which nothing so much as betters.
//
// The result is the quest in which they are set aside, and its picks: none where
// nothing can be done.
func (q *quest) mend(ctx context.Context, changes []*change, most int, picks []pick) (*quest, []pick, error) {
	best, err := q.reach(ctx, changes, most)
	if err != nil {
		return nil, nil, err
	}
	hopeless := func(i, k int) bool { return best[i][k] < -rounding }
	untouched := func(i, k int) bool { return hopeless(i, k) && best[i][k] < q.present(i, k)+noticeable }
	var searched marks
	for _, holds := range []func(i, k int) bool{hopeless, untouched} {
		aside := q.marked(holds)
		if !aside.any() || aside.equal(searched) {
			continue
		}
		searched = aside
		rest := q.without(aside)
		if len(rest.breaches(q.before, false)) == 0 {
			continue
		}
		found, err := rest.search(ctx, changes, most)
		if err != nil {
			return nil, nil, err
		}
		if ok, err := rest.helps(found); ok || err != nil {
			return rest, found, err
		}
	}
	if ok, err := q.helps(picks); ok || err != nil {
		return q, picks, err
	}
	return q.without(q.marked(hopeless)), nil, nil
}

// rounding is the margin that limits.Limit.Kept forgives.
const rounding = 1e-9

// present returns the margin of a quantity as measured.
func (q *quest) present(i, k int) float64 { return q.before[i].Judgement.Verdicts[k].Margin() }

// helps reports whether there is a plan among the picks.
func (q *quest) helps(picks []pick) (bool, error) {
	b, err := newBench(q.stands)
	return err == nil && len(shortlist(picks, b.try(nil), 1)) > 0, err
}

// reach returns the largest margin to which any combination brings each quantity,
// or one that is at least 0. A search has met every combination made in steps. It
// has not set what can take any value for the good of one quantity; where that
// could matter, each is searched for by itself.
func (q *quest) reach(ctx context.Context, changes []*change, most int) (best [][]float64, err error) {
	best = make([][]float64, len(q.stands))
	for i, t := range q.stands {
		best[i] = make([]float64, len(t.aside))
		for k := range best[i] {
			best[i][k] = max(q.present(i, k), q.best[i][k])
			if best[i][k] < -rounding && !decided(changes, t.gauge.Judged[k].Limit) {
				if best[i][k], err = q.alone(i, k).farthest(ctx, changes, most); err != nil {
					return nil, err
				}
			}
		}
	}
	return best, nil
}

// decided reports whether the changes made in steps alone decide a limited quantity.
func decided(changes []*change, limit limits.Limit) bool {
	for _, c := range changes {
		if c.values == nil && !(c.clocks() && limit.ByAngles) {
			return false
		}
	}
	return true
}

// alone returns a quest for one quantity.
func (q *quest) alone(stand, quantity int) *quest {
	return q.without(q.marked(func(i, k int) bool { return i != stand || k != quantity }))
}

// farthest returns the largest margin that a search comes to, or the first that
// is at least 0.
func (q *quest) farthest(ctx context.Context, changes []*change, most int) (float64, error) {
	best := math.Inf(-1)
	for size := 1; size <= most && best < 0; size++ {
		frontiers, err := q.explore(ctx, groups(changes, size))
		if err != nil {
			return 0, err
		}
		for _, f := range frontiers {
			if len(f) > 0 {
				best = max(best, f[len(f)-1].margin)
			}
		}
	}
	return best, nil
}
