package limits

import (
	"math"
	"slices"
)

// Settle is what would settle a verdict that is too close to call.
type Settle struct {
	// Inputs are to be read More times each, beside the readings that there are: if
	// the value as measured is the true one, that settles it in 95 % of cases. More 0
	// says that not even five more readings do, unless TurnGauge.
	Inputs []Input
	More   int
	// TurnGauge is whether every slope is to be read anew instead, with the gauge
	// turned end for end, since its own zero is in the way.
	TurnGauge bool
	// Unknown are the phases that nobody entered and that decide it.
	Unknown []Input
}

// mostReadings that anyone takes of one slope beside those there are.
const mostReadings = 5

// The value must be as many standard uncertainties from the limit that a draw is hardly
// beyond it, and as many standard deviations of the readings to come that they hardly
// fall short by more: each but for 2.5 and 5 % of a normal distribution. A twentieth
// more is for what is not quite normal and linear.
const (
	certain = 1.05 * 1.960
	likely  = 1.05 * 1.645
)

// newSettle returns what would settle a verdict that is too close, of which the
// inputs contribute these shares.
func newSettle(v Verdict, inputs []Input, shares []float64) *Settle {
	total := 0.0
	var unknown, again []Input
	for i, share := range shares {
		total += share * share
		if inputs[i].unknown() && share > 0 {
			unknown = append(unknown, inputs[i])
		}
	}
	if len(unknown) > 0 || total == 0 {
		return &Settle{Unknown: unknown}
	}
	for i, share := range shares {
		if share*share >= total/20 && inputs[i].one > 0 { // the rest is not worth while
			again = append(again, inputs[i])
		}
	}
	// What matters is how far the interval reaches toward the limit, which near 0 is
	// more than the shares say.
	reach := v.High - v.Value
	if v.Limit < v.Value {
		reach = v.Value - v.Low
	}
	shares = slices.Clone(shares)
	for i := range shares {
		shares[i] *= max(1, reach/(1.96*math.Sqrt(total)))
	}
	var tries []*Settle
	for n := range mostReadings {
		tries = append(tries, &Settle{Inputs: again, More: n + 1})
	}
	if zero := slices.IndexFunc(inputs, Input.isZero); zero >= 0 {
		last := len(tries)
		if shares[zero] == slices.Max(shares) {
			last = 0 // no reading without turning does much
		}
		tries = slices.Insert(tries, last, &Settle{TurnGauge: true})
	}
	for _, s := range tries {
		if uncertain, scatter := s.leaves(inputs, shares); certain*uncertain+likely*scatter <= math.Abs(v.Limit-v.Value) {
			return s
		}
	}
	return new(Settle)
}

// leaves returns the standard uncertainty of a quantity, and how far its value
// scatters about the present one, once everything is read as s says.
func (s *Settle) leaves(inputs []Input, shares []float64) (uncertain, scatter float64) {
	for i, share := range shares {
		in := &inputs[i]
		u, sd := in.StandardUncertainty, 0.0
		switch {
		case s.TurnGauge && in.isZero():
			u = 0
		case s.TurnGauge && in.holdsZero:
			u = max(in.one/math.Sqrt2, in.least)
			sd = u
		case slices.ContainsFunc(s.Inputs, func(a Input) bool { return a.Name == in.Name }):
			all := float64(in.readings + s.More)
			u = max(in.one/math.Sqrt(all), in.least)
			sd = in.one * math.Sqrt(float64(s.More)) / all
		}
		uncertain = math.Hypot(uncertain, share*u/in.StandardUncertainty)
		scatter = math.Hypot(scatter, share*sd/in.StandardUncertainty)
	}
	return uncertain, scatter
}
