package page

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
)

// Steps is a plot.Ticker of even steps of 1, 2 or 5 times a power of ten. The number of
// digits follows from the step, so that no label is rounded. There are no ticks where
// they could not be told apart: on a range that is not finite or narrower than 1e-12 of
// its values.
type Steps struct {
	Want int // labels aimed at, at most 100; fewer may come, but never fewer than 2. 0 means 6
}

// Ticks implements plot.Ticker.
func (s Steps) Ticks(lo, hi float64) []plot.Tick {
	span := hi - lo
	if math.IsInf(span, 0) || !(span > 1e-12*max(math.Abs(lo), math.Abs(hi))) {
		return nil
	}
	want := s.Want
	if want <= 0 {
		want = 6
	}
	var ticks []plot.Tick
	for intervals := max(min(want, 100)-1, 1); len(ticks) < 2; intervals *= 2 {
		ticks = niceStep(span/float64(intervals)).within(lo, hi)
	}
	return ticks
}

// Turn is a plot.Ticker for degrees of rotation: labels at every quarter turn, minor
// ticks between them. An axis that shows fewer than two quarter turns, or more than
// twelve, gets Steps.
type Turn struct {
	Minor float64 // spacing of the minor ticks in degrees, a divisor of 90 not below 1; 0 means 30
}

// Ticks implements plot.Ticker.
func (t Turn) Ticks(lo, hi float64) []plot.Tick {
	minor := t.Minor
	if !(minor >= 1) {
		minor = 30
	}
	if quarters := (hi - lo) / 90; !(quarters >= 1 && quarters <= 12) {
		return Steps{}.Ticks(lo, hi)
	}
	var ticks []plot.Tick
	labels := 0
	for n := math.Ceil(lo/minor - edge); n <= hi/minor+edge; n++ {
		tick := plot.Tick{Value: n * minor}
		if math.Mod(tick.Value, 90) == 0 {
			tick.Label = step{1, 0}.label(tick.Value, false)
			labels++
		}
		ticks = append(ticks, tick)
	}
	if labels < 2 {
		return Steps{}.Ticks(lo, hi)
	}
	return ticks
}

// Decades is a plot.Ticker for logarithmic axes, lo > 0: labels at powers of ten, or at
// 1, 2 and 5 times powers of ten where there are fewer than two of those. Over less than
// that it falls back to Steps.
type Decades struct {
	Want int // labels aimed at. 0 means 6
}

// Ticks implements plot.Ticker.
func (d Decades) Ticks(lo, hi float64) []plot.Tick {
	if !(lo > 0 && hi > lo) || math.IsInf(hi, 0) {
		return nil
	}
	want := d.Want
	if want <= 0 {
		want = 6
	}
	for _, mantissas := range []string{"1", "125"} {
		if ticks, labels := decades(lo, hi, want, mantissas); labels >= 2 {
			return ticks
		}
	}
	return Steps{Want: want}.Ticks(lo, hi)
}

// decades returns the ticks at whole multiples of powers of ten, and how many of them
// carry labels: those with one of the given mantissas, in about as many decades as
// wanted.
func decades(lo, hi float64, want int, mantissas string) (ticks []plot.Tick, labels int) {
	first, last := int(math.Floor(math.Log10(lo))), int(math.Ceil(math.Log10(hi)))
	every := max(1, (last-first+want-1)/want)
	exponential := first < -4 || last > 6
	for e := first; e <= last; e++ {
		for m := 1; m <= 9; m++ {
			s := step{m, e}
			tick := plot.Tick{Value: s.times(1)}
			switch {
			case tick.Value < lo*(1-1e-9) || tick.Value > hi*(1+1e-9):
				continue
			case strings.Contains(mantissas, strconv.Itoa(m)) && e%every == 0:
				tick.Label = s.label(1, exponential)
				labels++
			case last-first > 4: // minor ticks would run together
				continue
			}
			ticks = append(ticks, tick)
		}
	}
	return ticks, labels
}

// edge is the part of a step by which a tick may lie outside the axis: rounding must not
// drop a tick at its end.
const edge = 1e-6

// A step is mantissa·10^exponent.
type step struct {
	mantissa, exponent int
}

// niceStep returns the smallest step of 1, 2 or 5 times a power of ten that is not below
// raw > 0.
func niceStep(raw float64) step {
	e := int(math.Floor(math.Log10(raw)))
	for _, m := range []int{1, 2, 5} {
		if s := (step{m, e}); s.times(1) >= raw*(1-1e-9) { // 0.2 stays 0.2 where raw is 0.20000000000000004
			return s
		}
	}
	return step{1, e + 1}
}

// RoundUp returns the least of 1, 2 or 5 times a power of ten that is not below v > 0.
func RoundUp(v float64) float64 { return niceStep(v).times(1) }

// times returns n steps; dividing by 10^k rather than multiplying by 10^-k makes 3 steps
// of 0.1 exactly 0.3.
func (s step) times(n float64) float64 {
	n *= float64(s.mantissa)
	if s.exponent < 0 {
		return n / math.Pow10(-s.exponent)
	}
	return n * math.Pow10(s.exponent)
}

// within returns the multiples of the step in [lo, hi].
func (s step) within(lo, hi float64) []plot.Tick {
	size := max(math.Abs(lo), math.Abs(hi))
	exponential := size < 1e-4 || size >= 1e6
	var ticks []plot.Tick
	for n := math.Ceil(lo/s.times(1) - edge); n <= hi/s.times(1)+edge; n++ {
		ticks = append(ticks, plot.Tick{Value: min(max(s.times(n), lo), hi), Label: s.label(n, exponential)})
	}
	return ticks
}

// label writes n steps with the digits that the step has: 0.96, 1.00, 1.04, or 9.6·10⁻⁷,
// 1.00·10⁻⁶, 1.04·10⁻⁶.
func (s step) label(n float64, exponential bool) string {
	v := s.times(n)
	if v == 0 {
		return "0" // whatever the step, so that panels below each other agree
	}
	if !exponential {
		return Minus(strconv.FormatFloat(v, 'f', max(0, -s.exponent), 64))
	}
	digits := int(math.Floor(math.Log10(math.Abs(v))+1e-9)) - s.exponent
	mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(v, 'e', max(digits, 0), 64), "e")
	e, _ := strconv.Atoi(exponent) // as strconv wrote it
	power := PowerOfTen(e)
	if mantissa == "1" {
		return power
	}
	return Minus(mantissa) + "·" + power
}

// PowerOfTen writes 10⁻⁷ for −7.
func PowerOfTen(e int) string {
	return "10" + strings.Map(func(r rune) rune {
		if r == '-' {
			return '⁻'
		}
		return []rune(superscripts)[r-'0']
	}, strconv.Itoa(e))
}

// Minus writes a minus sign for a leading hyphen.
func Minus(number string) string {
	if rest, ok := strings.CutPrefix(number, "-"); ok {
		return "−" + rest
	}
	return number
}
