package adjust

import (
	"cmp"
	"math"
	"slices"

	"halfturn/kinematics/limits"
)

// pick is the best candidate of a group.
type pick struct {
	*group
	candidate
	within bool // by the full verdict but for what is set aside, in every pose asked for
}

// pick returns the best candidate of a group from its frontier, which is not
// empty: the first, so that with the least change, whose full verdict is within;
// where none is, the first with as much room as the last, in per cent.
func (q *quest) pick(g *group, f frontier) (pick, error) {
	i, err := q.firstWithin(f)
	within := i >= 0
	if !within {
		most := f[len(f)-1].percent()
		i = slices.IndexFunc(f, func(c candidate) bool { return c.percent() == most })
	}
	return pick{g, f[i], within}, err
}

// noticeable is how much more room, in parts of a limit, is of use.
const noticeable = 0.01

// percent is the guarded room of what is not within: a hair more is not worth more
// change or more parts.
func (r room) percent() float64 { return math.Round(100 * r.guarded) }

// firstWithin returns the index of the first candidate whose full verdict is
// within, or -1. The frontier was reckoned with the present uncertainty, which
// changes little; the full verdict is taken to get no worse along it.
func (q *quest) firstWithin(f frontier) (int, error) {
	// A limit that is broken without any error of measurement stays broken.
	low, high := slices.IndexFunc(f, func(c candidate) bool { return c.margin >= 0 }), len(f)-1
	if low < 0 {
		return -1, nil
	}
	if ok, err := q.isWithin(f[high]); err != nil || !ok {
		return -1, err
	}
	// f[high] is within, and nothing before f[low]. If the uncertainty has not
	// changed, the first with any room is the one; look around it first.
	try := slices.IndexFunc(f, func(c candidate) bool { return c.guarded >= 0 })
	for step := 1; low < high; step *= 2 {
		try = min(max(low, try), high-1)
		ok, err := q.isWithin(f[try])
		if err != nil {
			return -1, err
		}
		if ok {
			high = try
			try = high - min(step, (high-low+1)/2)
		} else {
			low = try + 1
			try = low - 1 + min(step, (high-low+1)/2)
		}
	}
	return high, nil
}

// isWithin reports whether the full verdict of a candidate, but for what is set
// aside, is within in every pose asked for.
func (q *quest) isWithin(c candidate) (bool, error) {
	if c.margin < 0 {
		return false, nil
	}
	for i, p := range inPoses(corrected(q.survey, c.settings), q.allPoses) {
		j, err := limits.Judge(p.survey)
		if err != nil {
			return false, err
		}
		for k, v := range j.Verdicts {
			if v.Outcome != limits.Within && !q.stands[i].aside[k] {
				return false, nil
			}
		}
	}
	return true, nil
}

// compareRank orders picks, the best first: those within all limits by the
// number of parts touched, then by how much they change, then by the room they
// leave; behind them those too close to call and those that break a limit, by
// the room, in per cent of a limit, then likewise. Equals are told apart by the
// excess of what is set aside.
func compareRank(a, b pick) int {
	byRoom := cmp.Compare(b.guarded, a.guarded)
	if !a.within {
		byRoom = cmp.Compare(b.percent(), a.percent())
	}
	byEffort := cmp.Or(cmp.Compare(len(a.changes), len(b.changes)), cmp.Compare(a.change, b.change))
	switch {
	case a.class() != b.class():
		return cmp.Compare(a.class(), b.class())
	case a.within:
		return cmp.Or(byEffort, byRoom, compareExcess(a.room, b.room))
	default:
		return cmp.Or(byRoom, byEffort, compareExcess(a.room, b.room))
	}
}

// compareExcess compares the excess in per cent of a limit: a hair less is
// nothing.
func compareExcess(a, b room) int {
	return cmp.Compare(math.Round(100*a.excess), math.Round(100*b.excess))
}

func (p pick) class() int {
	switch {
	case p.within:
		return 0
	case p.margin >= 0:
		return 1 // within only as measured
	default:
		return 2
	}
}

// shortlist returns at most most picks that differ in kind, the best first: of
// those within, each that does not do with more parts what another does with
// some of them; then, where none is within, the best; then single changes, to
// show what they come to. What is not within must at least leave more room than
// there is at present.
func shortlist(picks []pick, present room, most int) []pick {
	picks = slices.SortedStableFunc(slices.Values(picks), compareRank)
	var list []pick
	for i, p := range picks {
		more := slices.ContainsFunc(list, func(kept pick) bool { return kept.within && p.contains(kept.group) })
		helps := p.within || p.guarded >= present.guarded+noticeable && (i == 0 || len(p.changes) == 1)
		if helps && !more && len(list) < most {
			list = append(list, p)
		}
	}
	return list
}
