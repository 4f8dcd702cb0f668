package adjust

import (
	"maps"
	"math"
	"slices"

	"halfturn/kinematics/limits"
)

// choose returns the best of candidates by the whole objective, nil of none: that
// of the best standing that touches the fewest parts, unless each part more halves
// what is left, where that can be felt.
func (o *objective) choose(all []*candidate) *candidate {
	if len(all) == 0 {
		return nil
	}
	first := slices.MinFunc(all, func(a, b *candidate) int { return a.standing.compare(b.standing) })
	bySize := make(map[int][]*candidate)
	for _, c := range all {
		if c.standing == first.standing {
			bySize[len(c.settings)] = append(bySize[len(c.settings)], c)
		}
	}
	var chosen *candidate
	for _, size := range slices.Sorted(maps.Keys(bySize)) {
		c := o.ofSize(bySize[size])
		if chosen == nil || chosen.share > limits.Unfelt && c.left <= chosen.left*math.Pow(0.5, float64(size-len(chosen.settings))) {
			chosen = c
		}
	}
	return chosen
}

// ofSize returns the best of candidates of the same standing and number of parts.
// Shafts that are mirrored cancel at one height only: on springs they are rather
// parallel.
func (o *objective) ofSize(some []*candidate) *candidate {
	var all sides
	for _, c := range some {
		all[side(c.mirrored)].insert(*c)
	}
	if o.sprung && len(all[0]) > 0 {
		return all[0].best()
	}
	all[0].merge(all[1])
	return all[0].best()
}

// shortlist returns the candidates to make plans of, the best first: such as are of use
// and touch no more parts than the best. The other way of what mends as much may
// leave a doubt. Beside a plan that touches several, single changes show what they
// come to.
func (o *objective) shortlist(all []*candidate, present *candidate) []*candidate {
	all = slices.DeleteFunc(slices.Clone(all), func(c *candidate) bool { return !o.helps(c, present) })
	first := o.choose(all)
	var list []*candidate
	for c := first; c != nil && len(list) < MostPlans; c = o.choose(all) {
		list = append(list, c)
		all = slices.DeleteFunc(all, func(other *candidate) bool {
			single := len(other.settings) == 1 && len(first.settings) > 1 && !other.mirrored
			otherWay := other.mirrored && other.standing.mends(first.standing)
			same := other.mirrored == c.mirrored && c.contains(other.group) && other.contains(c.group)
			return same || len(other.settings) > len(first.settings) || other.standing != first.standing && !single && !otherWay
		})
	}
	if o.doubts && len(list) > 1 {
		list = list[:1]
	}
	return list
}

// helps reports whether a candidate is better than leaving all as it is: it mends a limit,
// which stays broken nowhere or else without leaving more; or it takes a doubt away and
// leaves no more; or, where what is left can be felt, it halves that with each part, the
// first of which need only leave noticeably less where too much is left anyhow.
func (o *objective) helps(c, present *candidate) bool {
	halved := present.left * math.Pow(0.5, float64(len(c.settings)))
	switch {
	case c.standing.compare(present.standing) > 0:
		return false
	case !c.standing.mends(present.standing) && c.whole:
		return true
	case c.standing != present.standing:
		return c.left <= about(present.left, aboutDeg)
	case present.share <= limits.Unfelt:
		return false
	case present.standing.leavesTooMuch():
		return about(c.left, aboutDeg) < present.left && c.left <= 2*halved
	default:
		return c.left <= halved
	}
}
