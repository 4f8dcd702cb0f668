package page

import (
	"fmt"
	"math"
	"slices"
	"strconv"

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

// Limits of what an axis can show. Beyond largestValue differences overflow; below
// smallestSpan of its values an axis could not be labelled, and rounding noise would
// begin to show.
const (
	largestValue = 1e300
	smallestSpan = 1e-9
)

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

// scale is an axis with its range settled.
type scale struct {
	Interval
	log     bool
	floored bool // the range is Axis.Least, all data being within it
	ticks   []plot.Tick
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

// norm returns where a value stands on the scale, 0 at its lower and 1 at its upper end.
// It is NaN for values ≤ 0 on a logarithmic scale.
func (s scale) norm(v float64) float64 {
	return s.normalizer().Normalize(s.Min, s.Max, v)
}

func (s scale) normalizer() plot.Normalizer {
	if s.log {
		return logarithmic{}
	}
	return plot.LinearScale{}
}

// logarithmic is plot.LogScale without its panic: a value ≤ 0 stands nowhere.
type logarithmic struct{}

// Normalize implements plot.Normalizer.
func (logarithmic) Normalize(lo, hi, v float64) float64 {
	if !(v > 0) {
		return math.NaN()
	}
	return math.Log(v/lo) / math.Log(hi/lo)
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

// thin takes the label off every second labelled tick, but never off zero.
func (s *scale) thin() {
	s.ticks = slices.Clone(s.ticks)
	var labelled []*plot.Tick
	zero := 0 // its place among them; as if it were the first where there is none
	for i := range s.ticks {
		if t := &s.ticks[i]; t.Label != "" {
			if t.Value == 0 {
				zero = len(labelled)
			}
			labelled = append(labelled, t)
		}
	}
	if len(labelled) == 3 && zero == 1 && labelled[1].Value == 0 { // it must not be left alone
		labelled[0].Label = ""
		return
	}
	for i := 1 - zero%2; i < len(labelled); i += 2 {
		labelled[i].Label = ""
	}
}

// balance puts labels on zero and next to it, where a range that reaches about as far below
// zero as above would have none on one side: 2 lies within it, but −2 does not.
func (s *scale) balance(length vg.Length, of func(string) extent) {
	labelled := func(t plot.Tick, sign float64) bool { return t.Label != "" && sign*t.Value > 0 }
	below := slices.ContainsFunc(s.ticks, func(t plot.Tick) bool { return labelled(t, -1) })
	above := slices.ContainsFunc(s.ticks, func(t plot.Tick) bool { return labelled(t, 1) })
	if below && above || !(max(-s.Min, s.Max) < 2*min(-s.Min, s.Max)) {
		return
	}
	for want := 2; want <= 8; want++ {
		three := *s
		three.ticks = Steps{Want: want}.Ticks(s.Min, s.Max)
		if three = three.aboutZero(); three.labels() == 3 {
			if three.clear(length, of) {
				s.ticks = three.ticks
			}
			return
		}
	}
}

// aboutZero returns the scale with labels on zero and next to it alone.
func (s scale) aboutZero() scale {
	s.ticks = slices.Clone(s.ticks)
	last, zero := -1, -1 // labels before the present one
	for i := range s.ticks {
		t := &s.ticks[i]
		switch {
		case t.Label == "":
			continue
		case t.Value == 0:
			zero = i
		case t.Value < 0 && last >= 0:
			s.ticks[last].Label = ""
		case t.Value > 0 && last != zero:
			t.Label = ""
			continue
		}
		last = i
	}
	return s
}

func (s scale) fits(length vg.Length, of func(string) extent) bool {
	var room vg.Length
	for _, t := range s.ticks {
		e := of(t.Label)
		room = max(room, e.size+e.gap)
	}
	return room*vg.Length(s.labels()) <= length
}

// clear reports whether labels that stand closer than they should can still be told apart.
func (s scale) clear(length vg.Length, of func(string) extent) bool {
	var last vg.Length
	first := true
	for _, t := range s.ticks {
		if t.Label == "" {
			continue
		}
		at := vg.Length(s.norm(t.Value)) * length
		if e := of(t.Label); !first && at-last < e.size+e.least {
			return false
		}
		last, first = at, false
	}
	return true
}

func (s scale) labels() int {
	n := 0
	for _, t := range s.ticks {
		if t.Label != "" {
			n++
		}
	}
	return n
}
