package page

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
)

// An Axis is one direction of a panel. Its zero value takes its range from the data.
type Axis struct {
	Label  string      // quantity and unit: "speed deviation, %"
	Range  Interval    // what is shown, whatever the data are; zero: from the data
	Least  Interval    // what is shown at least, the stated noise floor; zero: the data alone decide
	Ticker plot.Ticker // at least two labelled ticks; nil: Steps that fit the axis, Decades if Log
	Log    bool        // logarithmic; values ≤ 0 are gaps
	Bare   bool        // ticks and grid without numbers and label: the panel below carries them
}

// settle returns the scale of an axis for the data on it. Data at the ends of the range
// get room beyond them, a fraction pad of the range.
func (a Axis) settle(data Interval, pad float64) (scale, error) {
	if err := a.Range.check("range"); err != nil {
		return scale{}, err
	}
	if err := a.Least.check("least range"); err != nil {
		return scale{}, err
	}
	s := scale{log: a.Log}
	switch {
	case a.Range.given():
		s.Interval = a.Range
	case data.Min > data.Max && a.Least.given():
		s.Interval = a.Least
	case data.Min > data.Max:
		return scale{}, fmt.Errorf("nothing to draw: want at least one finite value")
	case !(data.size() <= largestValue):
		return scale{}, fmt.Errorf("data from %g to %g: want finite values up to %g", data.Min, data.Max, largestValue)
	case a.Least.given() && a.Least.covers(data):
		s.Interval, s.floored = a.Least, true
	default:
		s.Interval = a.padded(data, pad)
		s.Interval = s.grown(a.Least)
	}
	if a.Log && s.Min <= 0 {
		return scale{}, fmt.Errorf("range from %g to %g on a logarithmic axis: want values > 0", s.Min, s.Max)
	}
	return s, nil
}

// padded returns the range of the data with room at both ends, but not across zero where
// all data are on one side.
func (a Axis) padded(data Interval, pad float64) Interval {
	span := data.Max - data.Min
	switch {
	case data.size() < 1/largestValue: // nothing but zeros
		return Around(0, 1)
	case span < smallestSpan*data.size(): // one value, and rounding noise
		return Around(data.Min+span/2, data.size()/20)
	case a.Log:
		factor := math.Pow(data.Max/data.Min, pad)
		return Interval{Min: data.Min / factor, Max: data.Max * factor}
	}
	wide := Interval{Min: data.Min - pad*span, Max: data.Max + pad*span}
	if data.Min >= 0 {
		wide.Min = max(wide.Min, 0)
	}
	if data.Max <= 0 {
		wide.Max = min(wide.Max, 0)
	}
	return wide
}

// extent is how long a label is along its axis, how far it should stand from the next, and
// how far it must.
type extent struct{ size, gap, least vg.Length }

// mark puts ticks on the scale of an axis of a given length: no more labels than stand
// well apart, but never fewer than two.
func (a Axis) mark(s *scale, length vg.Length, of func(label string) extent) error {
	const most = 8 // labels; more would not be read
	for want := 2 * most; want >= 2; want-- {
		switch {
		case a.Ticker != nil:
			s.ticks = ticksIn(a.Ticker.Ticks(s.Min, s.Max), s.Interval)
		case a.Log:
			s.ticks = Decades{Want: want}.Ticks(s.Min, s.Max)
		default:
			s.ticks = Steps{Want: want}.Ticks(s.Min, s.Max)
		}
		if a.Ticker != nil || (s.labels() <= most && s.fits(length, of)) {
			break
		}
	}
	for s.labels() > 2 && !s.fits(length, of) && !(s.labels() == 3 && s.clear(length, of)) {
		s.thin()
	}
	if a.Ticker == nil && !a.Log {
		s.balance(length, of)
	}
	if s.labels() < 2 {
		return fmt.Errorf("%d numbers on the axis from %g to %g: want at least 2", s.labels(), s.Min, s.Max)
	}
	return nil
}
