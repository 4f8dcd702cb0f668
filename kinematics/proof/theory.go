package proof

import (
	"math"
	"slices"
	"strconv"
)

// theory checks what must hold without anybody having computed it.
func theory() []Check {
	return slices.Concat(closures(), coasting(), cancellation(), orders(), pairs(), twoViews(), doubleCardans())
}

// law is where the values of some checks come from, and how many roundings of
// doubles lie between two ways to such a value.
type law struct {
	group, source string
	roundings     float64
}

func (l law) check(what string, want, ours float64) Check {
	return Check{
		Group: l.group, What: what, Kind: Exact, Source: l.source,
		Printed: strconv.FormatFloat(want, 'g', 4, 64), Want: want, Ours: ours,
		Tolerance: l.roundings * epsilon / 2 * max(1, math.Abs(want)),
	}
}
