package adjust

import (
	"slices"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// longestPinion is how long the way from the last joint to the centre line of the
// axle is at the most, in parts of the shaft before it: common practice, no source.
const longestPinion = 0.5

// missing returns the names of the shafts whose lengths are not known and decide how
// large a candidate's wedge must be.
func (q *searcher) missing(e evaluator, s *survey.Survey, c *candidate) []string {
	k := slices.IndexFunc(c.settings, func(set setting) bool { return set.tiltOnly })
	if k < 0 || !q.dependsOnLength(e, c, k) {
		return nil
	}
	var names []string
	at := c.settings[k].at
	for i := at; i <= at+1; i++ {
		if !e[0].geometry.known[i] {
			names = append(names, s.Shafts[i].Name)
		}
	}
	return names
}

// dependsOnLength reports whether with the longest pinion that is usual wedge k of a
// candidate would keep other limits, or one step more or less of it leave noticeably
// less.
func (q *searcher) dependsOnLength(e evaluator, c *candidate, k int) bool {
	settings := slices.Clone(c.settings)
	long := *settings[k].change
	long.ratio, settings[k].change = longestPinion, &long
	with, ok := q.candidate(e, c.group, settings)
	if !ok || with.standing != c.standing {
		return true
	}
	wedge := settings[k].value
	for _, step := range []float64{-long.step, long.step} {
		settings[k].value = wedge + step
		if near, ok := q.candidate(e, c.group, settings); ok && near.standing.compare(with.standing) <= 0 && about(near.left, aboutDeg) < with.left {
			return true
		}
	}
	return false
}

// unsure is the outcome of what depends on a length that is not known.
func unsure(o limits.Outcome) limits.Outcome {
	if o == limits.Within {
		return limits.TooClose
	}
	return o
}
