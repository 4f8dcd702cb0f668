package adjust

import (
	"cmp"
	"math"
	"slices"

	"halfturn/kinematics/survey"
)

// setting is a change and how far it is made, in deg or the units of lengths.
type setting struct {
	*change
	value float64
}

// candidate is one combination of settings and what it comes to.
type candidate struct {
	*group
	settings []setting
	standing standing
	outcome
	change float64 // see effort
	// swing of the force on a centre bearing, the greatest, in N for each 100 N·m, to
	// what can be told apart; 0 where there is none.
	swing float64
}

// slight is what a degree counts of a change that is as large as any other.
const slight = 1e-6

// effort returns the sum of the settings, each in parts of what is usual.
func effort(settings []setting) float64 {
	sum := 0.0
	for _, set := range settings {
		if set.whole == 0 {
			sum += 1 + slight*math.Abs(set.value) // of turns that do the same the smallest
		} else {
			sum += math.Abs(set.value) / set.whole
		}
	}
	return math.Round(sum*1e9) / 1e9 // sums of the same parts in another order are the same
}

// compareCost puts the smaller change first, then the lower nose of the axle, which
// rises under power, then what leaves less and swings less, and then the lower values.
func (c *candidate) compareCost(other *candidate) int {
	return cmp.Or(cmp.Compare(c.change, other.change), cmp.Compare(c.nose(), other.nose()),
		cmp.Compare(c.left, other.left), cmp.Compare(c.swing, other.swing),
		slices.CompareFunc(c.settings, other.settings, func(a, b setting) int { return cmp.Compare(a.value, b.value) }))
}

// nose returns how far the candidate raises the nose of the last shaft, deg.
func (c *candidate) nose() float64 {
	for _, set := range c.settings {
		if set.asked.Change == survey.ChangeWedge {
			return set.value
		}
	}
	return 0
}
