package survey

import (
	"fmt"
	"strconv"
	"strings"
)

// bounds say which numbers a field may have.
type bounds struct {
	what      string // such as "a slope"
	low, high float64
	aboveLow  bool // low itself is out
	belowHigh bool // high itself is out
	unit      string
	// hint says what a number that is out may have been meant for; nil: nothing.
	hint func(v float64) string
}

// A rule gives the bounds of a number when they are asked for: some depend on what
// stands before it in the file, such as the unit of lengths.
type rule func() bounds

// above is over (low, high], within over [low, high], between over (low, high).

func above(low, high float64, what, unit string) rule {
	return func() bounds { return bounds{what: what, low: low, high: high, aboveLow: true, unit: unit} }
}

func within(low, high float64, what, unit string) rule {
	return func() bounds { return bounds{what: what, low: low, high: high, unit: unit} }
}

func between(low, high float64, what, unit string) rule {
	return func() bounds {
		return bounds{what: what, low: low, high: high, aboveLow: true, belowHigh: true, unit: unit}
	}
}

// slope is that of a shaft, in deg.
func slope() bounds {
	b := between(-90, 90, "a slope", "deg")()
	b.hint = OnFlange
	return b
}

func (b bounds) want() string {
	low, high := strconv.FormatFloat(b.low, 'f', -1, 64), strconv.FormatFloat(b.high, 'f', -1, 64)
	format := "%s from %s to %s %s"
	switch {
	case b.belowHigh:
		format = "%s between %s and %s %s"
	case b.aboveLow:
		format = "%s above %s and at most %s %s"
	}
	return strings.TrimSpace(fmt.Sprintf(format, b.what, low, high, b.unit))
}

// wantOf is want for a number that is out.
func (b bounds) wantOf(v float64) string {
	if b.hint != nil && b.hint(v) != "" {
		return b.want() + "; " + b.hint(v)
	}
	return b.want()
}

// hold reports whether v lies within the bounds; NaN does not.
func (b bounds) hold(v float64) bool {
	return (b.low < v || b.low == v && !b.aboveLow) && (v < b.high || v == b.high && !b.belowHigh)
}

func (b bounds) schema(types any) *node {
	low, high := "minimum", "maximum"
	if b.aboveLow {
		low = "exclusiveMinimum"
	}
	if b.belowHigh {
		high = "exclusiveMaximum"
	}
	return jsonObject("type", types, low, b.low, high, b.high)
}
