package limits

import (
	"fmt"
	"math"
	"slices"
)

// settle says of every verdict that is too close to call what would settle it. Where
// one wants a finer gauge, that settles the others too: nobody reads twice.
func settle(verdicts []Verdict, inputs []Input, shares [][]float64) {
	var doubts []doubt
	var finest *Settle
	for q := range verdicts {
		v := &verdicts[q]
		if v.Outcome != TooClose {
			continue
		}
		d := newDoubt(v, inputs, shares[q])
		doubts = append(doubts, d)
		if v.Settle = d.settle(); v.Settle.Way == FinerGauge && (finest == nil || v.Settle.Error < finest.Error) {
			finest = v.Settle
		}
	}
	for _, d := range doubts {
		switch d.Settle.Way {
		case ReadMore, TurnGauge, FinerGauge:
			if finest != nil && d.settledBy(finest) {
				same := *finest
				same.Kept = d.Settle.Kept
				d.Settle = &same
			}
		}
		d.ToSettle = d.Settle.String()
	}
}

// doubt is a verdict that is too close to call.
type doubt struct {
	*Verdict
	inputs []Input
	// shares are what the inputs contribute, in the unit of the value, so large that
	// together they reach as far toward the limit as the interval.
	shares []float64
	total  float64 // of their squares
}

func newDoubt(v *Verdict, inputs []Input, shares []float64) doubt {
	d := doubt{Verdict: v, inputs: inputs}
	for _, share := range shares {
		d.total += share * share
	}
	reach := v.High - v.Value
	if v.Limit < v.Value {
		reach = v.Value - v.Low
	}
	more := 1.0
	if d.total > 0 {
		more = max(more, reach/(1.96*math.Sqrt(d.total)))
	}
	for _, share := range shares {
		d.shares = append(d.shares, share*more)
	}
	d.total *= more * more
	return d
}

// settle finds what would settle the doubt, by the easiest way that does.
func (d doubt) settle() *Settle {
	s := &Settle{Kept: d.Kept()}
	if s.Inputs = d.those(Input.unknown); s.Inputs != nil {
		s.Way = EnterUnknown
		return s
	}
	if d.total == 0 { // no error by itself matters
		s.Way = OnLimit
		return s
	}
	if s.Inputs = d.those(func(in Input) bool { return in.scattered }); s.Inputs != nil {
		s.Way = ReadAnew
		return s
	}
	for _, try := range d.tries() {
		if try.Kept = s.Kept; d.settledBy(&try) {
			return &try
		}
	}
	s.Way, s.Inputs = MeasureClosely, d.those(func(in Input) bool { return !in.byGauge() && !in.isZero() })
	if s.Inputs != nil && d.settledBy(s) {
		return s
	}
	s.Way, s.Inputs = OnLimit, nil
	if d.Class == TooStraight {
		s.Way = LeaveAlone
	}
	return s
}

// those returns the inputs of a kind that matter.
func (d doubt) those(of func(Input) bool) []Input {
	var list []Input
	for i, share := range d.shares {
		if share*share >= d.total/20 && of(d.inputs[i]) {
			list = append(list, d.inputs[i])
		}
	}
	return list
}

// tries returns the ways that may settle the doubt, the easiest first.
func (d doubt) tries() []Settle {
	var tries []Settle
	again := d.those(func(in Input) bool { return in.one > 0 })
	for n := range mostReadings {
		tries = append(tries, Settle{Way: ReadMore, Inputs: again, More: n + 1})
	}
	zero := slices.IndexFunc(d.inputs, Input.isZero)
	if zero >= 0 {
		last := len(tries)
		if d.shares[zero] == slices.Max(d.shares) {
			last = 0 // no reading without turning does much
		}
		tries = slices.Insert(tries, last, Settle{Way: TurnGauge})
	}
	for _, finer := range finerGauges {
		if slices.ContainsFunc(d.inputs, func(in Input) bool { return in.byGauge() && in.StandardUncertainty > finer/math.Sqrt(3) }) {
			tries = append(tries, Settle{Way: FinerGauge, Error: finer, Turned: zero >= 0})
		}
	}
	return tries
}

// settledBy reports whether a way settles the doubt.
func (d doubt) settledBy(s *Settle) bool {
	uncertain, scatter := 0.0, 0.0
	for i, share := range d.shares {
		u, sd := s.leaves(&d.inputs[i])
		uncertain = math.Hypot(uncertain, share*u/d.inputs[i].StandardUncertainty)
		scatter = math.Hypot(scatter, share*sd/d.inputs[i].StandardUncertainty)
	}
	return certain*uncertain+likely*scatter <= math.Abs(d.Limit-d.Value)
}

// leaves returns the standard uncertainty of an input, and how far it scatters about
// the present value, once it is measured as s says. What a finer gauge reads, and what
// is measured more closely, is taken to show the same as before.
func (s *Settle) leaves(in *Input) (uncertain, scatter float64) {
	switch s.Way {
	case ReadMore:
		if slices.ContainsFunc(s.Inputs, func(a Input) bool { return a.Name == in.Name }) {
			all := float64(in.readings + s.More)
			return max(in.one/math.Sqrt(all), in.least), in.one * math.Sqrt(float64(s.More)) / all
		}
	case TurnGauge:
		switch {
		case in.isZero():
			return 0, 0
		case in.holdsZero:
			u := max(in.one/math.Sqrt2, in.least)
			return u, u
		}
	case FinerGauge:
		u := s.Error / math.Sqrt(3)
		if s.Turned {
			u /= math.Sqrt2
		}
		switch {
		case s.Turned && in.isZero():
			return 0, 0
		case in.byGauge():
			return min(u, in.StandardUncertainty), 0
		}
	case MeasureClosely:
		if !in.byGauge() {
			return 0, 0
		}
		return min(finerGauges[len(finerGauges)-1]/math.Sqrt(3), in.StandardUncertainty), 0
	default:
		panic(fmt.Sprintf("limits: nothing says what way %d leaves in doubt", s.Way))
	}
	return in.StandardUncertainty, 0
}

// mostReadings that anyone takes of one slope beside those there are.
const mostReadings = 5

// finerGauges are the errors of a reading of usual gauges, in deg, the coarsest first.
// Common practice, no source. What even the last cannot tell from a limit is on it.
var finerGauges = []float64{0.2, 0.1, 0.05}

// The value must be as many standard uncertainties from the limit that a draw is hardly
// beyond it, and as many standard deviations of the readings to come that they hardly
// fall short by more: each but for 2.5 and 5 % of a normal distribution. A twentieth
// more is for what is not quite normal and linear.
const (
	certain = 1.05 * 1.960
	likely  = 1.05 * 1.645
)
