package page

import (
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
)

// scale is an axis with its range settled.
type scale struct {
	Interval
	log     bool
	floored bool // the range is Axis.Least, all data being within it
	ticks   []plot.Tick
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
