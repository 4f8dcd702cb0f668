// Package proof checks the exact motion against what others print, against rigid
// bodies, against many digits and against theory. Tests hold every check, and a
// user can run them in the program itself.
package proof

import (
	"math"
	"slices"
)

// Check is a value of ours beside the one that it must agree with.
type Check struct {
	Group string // what kind of value this is, with its unit
	What  string // which one of them
	ID    string // row of testdata/published.csv; "" if it is not from there
	Kind  Kind
	// Source is who prints or computes the value.
	Source string
	// Printed is the value as the source has it.
	Printed string
	// Want is what Ours must agree with: the value of Printed, or what must
	// stand there instead if it is a misprint.
	Want float64
	Ours float64
	// Tolerance is how far Ours may be from Want: for a printed value half a unit
	// of its last digit, otherwise the rounding of doubles.
	Tolerance float64
	// Where is the place of the worst difference of many; "" if there is one only.
	Where string
}

// Kind says how the source's value relates to the exact one.
type Kind string

const (
	Exact Kind = "value"
	// Approximation is rounded on the way or follows a small-angle formula; Ours
	// is computed in the same way, and another check has the exact value.
	Approximation Kind = "approximation"
	Misprint      Kind = "misprint"
)

// Difference returns ours less the value it must agree with.
func (c Check) Difference() float64 { return c.Ours - c.Want }

// OK reports whether the difference is tolerable.
func (c Check) OK() bool { return math.Abs(c.Difference()) <= c.Tolerance }

// Checks runs every check, group by group.
func Checks() []Check {
	checks := slices.Concat(published(), theory(), multibody(), highPrecision())
	order := map[string]int{}
	for i, c := range checks {
		if _, ok := order[c.Group]; !ok {
			order[c.Group] = i
		}
	}
	slices.SortStableFunc(checks, func(a, b Check) int { return order[a.Group] - order[b.Group] })
	return checks
}
