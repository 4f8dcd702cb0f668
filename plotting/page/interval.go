package page

import (
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/plot"
)

// An Interval is a range of values. The zero Interval means that none is given.
type Interval struct {
	Min, Max float64
}

// Around returns the interval that reaches half to both sides of a centre.
func Around(centre, half float64) Interval {
	return Interval{Min: centre - half, Max: centre + half}
}

// nothing is the interval that including any value makes that value.
var nothing = Interval{Min: math.Inf(1), Max: math.Inf(-1)}

func (i Interval) including(values ...float64) Interval {
	for _, v := range values {
		if !math.IsNaN(v) {
			i.Min, i.Max = min(i.Min, v), max(i.Max, v)
		}
	}
	return i
}

// String writes the interval as text: "±0.1" or "0.99 to 1.01".
func (i Interval) String() string {
	number := func(v float64) string { return Minus(strconv.FormatFloat(v, 'g', -1, 64)) }
	if i.Min == -i.Max {
		return "±" + number(i.Max)
	}
	return number(i.Min) + " to " + number(i.Max)
}

func (i Interval) given() bool {
	return i != Interval{}
}

// grown returns the smallest interval that holds both, where the other is given.
func (i Interval) grown(by Interval) Interval {
	if !by.given() {
		return i
	}
	return i.including(by.Min, by.Max)
}

func (i Interval) covers(j Interval) bool {
	return i.Min <= j.Min && i.Max >= j.Max
}

func (i Interval) check(what string) error {
	if !i.given() {
		return nil
	}
	if !(i.Min < i.Max) || i.Min < -largestValue || i.Max > largestValue || i.Max-i.Min < smallestSpan*i.size() {
		return fmt.Errorf("%s: %g to %g: want two finite values in rising order, not closer than 1e-9 of them", what, i.Min, i.Max)
	}
	return nil
}

// size is the largest magnitude in the interval.
func (i Interval) size() float64 {
	return max(math.Abs(i.Min), math.Abs(i.Max))
}

// ticksIn returns the ticks in an interval, their labels fit for every format.
func ticksIn(ticks []plot.Tick, i Interval) []plot.Tick {
	slack := edge * (i.Max - i.Min)
	var in []plot.Tick
	for _, t := range ticks {
		if t.Value >= i.Min-slack && t.Value <= i.Max+slack {
			t.Label = clean(t.Label)
			in = append(in, t)
		}
	}
	return in
}

// Limits of what an axis can show. Beyond largestValue differences overflow; below
// smallestSpan of its values an axis could not be labelled, and rounding noise would
// begin to show.
const (
	largestValue = 1e300
	smallestSpan = 1e-9
)
