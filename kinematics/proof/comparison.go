package proof

import (
	"fmt"
	"math"
)

// epsilon is the distance from 1 to the next double; a rounding moves a number by
// up to half of it, relative.
const epsilon = 0x1p-52

// comparison is a number of ours beside that of another program.
type comparison struct {
	what, where           string
	ours, want, tolerance float64
}

// part returns how much of the tolerance the difference takes.
func (c comparison) part() float64 {
	difference := math.Abs(c.ours - c.want)
	switch {
	case difference == 0:
		return 0 // whatever the tolerance
	case math.IsNaN(difference):
		return math.Inf(1)
	}
	return difference / c.tolerance
}

// worst returns one check for each thing compared: of the comparison that takes
// most of its tolerance, as a difference from zero.
func worst(group, source string, comparisons []comparison) []Check {
	var order []string
	found, count := map[string]comparison{}, map[string]int{}
	for _, c := range comparisons {
		if count[c.what] == 0 {
			order = append(order, c.what)
		}
		if count[c.what] == 0 || c.part() > found[c.what].part() {
			found[c.what] = c
		}
		count[c.what]++
	}
	var checks []Check
	for _, what := range order {
		c := found[what]
		checks = append(checks, Check{
			Group: group, What: fmt.Sprintf("%s, %d values", what, count[what]), Kind: Exact, Source: source,
			Printed: "0", Ours: c.ours - c.want, Tolerance: c.tolerance, Where: c.where,
		})
	}
	return checks
}
