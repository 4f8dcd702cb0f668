package adjust

import (
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// longestPinion is how long the way from the last joint to the centre line of the
// axle is at the most, in parts of the shaft before it: common practice, no source.
const longestPinion = 0.5

// missing returns the names of the shafts whose lengths are not known and decide what
// a candidate's wedge comes to: where the longest pinion that is usual would leave
// noticeably more than none, or would keep other limits.
func (q *searcher) missing(e evaluator, s *survey.Survey, c *candidate) []string {
	at := -1
	settings := make([]setting, len(c.settings))
	for i, set := range c.settings {
		if set.tiltOnly {
			long := *set.change
			long.ratio, set.change = longestPinion, &long
			at = set.at
		}
		settings[i] = set
	}
	if at < 0 {
		return nil
	}
	if with, ok := q.candidate(e, c.group, settings); ok && with.standing == c.standing && with.left <= about(c.left, aboutDeg) {
		return nil
	}
	var names []string
	for k := at; k <= at+1; k++ {
		if !e[0].geometry.known[k] {
			names = append(names, s.Shafts[k].Name)
		}
	}
	return names
}

// unsure is the outcome of what depends on a length that is not known.
func unsure(o limits.Outcome) limits.Outcome {
	if o == limits.Within {
		return limits.TooClose
	}
	return o
}
