package limits

import (
	"fmt"
	"math"
)

// Settle is what would settle a verdict that is too close to call.
type Settle struct {
	Input string  // name of the input that contributes most
	Part  float64 // its part of the variance, 0 to 1
	// Error is the field of the file that gives its half-width, Want what the
	// half-width would have to be, everything else as it is; 0: that alone would
	// not do. Want is estimated in proportion, with a tenth in hand.
	Error string
	Want  float64
	Unit  string // of Want
	// Factor is to what fraction all errors together would have to shrink; 0:
	// nothing would do, the value lies on the limit as far as anyone can read.
	Factor float64
	// Scatter is whether it is the scatter of repeated readings rather than the
	// instrument that makes Input contribute.
	Scatter bool
}

// newSettle returns what would settle a verdict.
func newSettle(v Verdict, inputs []Input) *Settle {
	top, total := 0, 0.0
	for i, share := range v.Shares {
		total += share * share
		if share > v.Shares[top]*(1+1e-6) { // of equals the first, whatever the rounding
			top = i
		}
	}
	s := &Settle{
		Input: inputs[top].Name,
		Error: inputs[top].Error,
		Unit:  inputs[top].Unit,
	}
	if total > 0 {
		s.Part = v.Shares[top] * v.Shares[top] / total
	}
	s.Scatter = inputs[top].Scatter > inputs[top].HalfWidth/math.Sqrt(3)
	// The part of the interval between the value and its end beyond the limit
	// must shrink to the distance of the limit.
	reach := v.High - v.Value
	if v.Limit < v.Value {
		reach = v.Value - v.Low
	}
	if factor := inHand * math.Abs(v.Limit-v.Value) / reach; factor >= finest {
		s.Factor = factor
	}

	// Of the variance, only what the half-widths of this kind make can shrink.
	shrinks := 0.0
	for i, in := range inputs {
		if in.Error == s.Error {
			part := in.HalfWidth / (math.Sqrt(3) * in.StandardUncertainty())
			shrinks += v.Shares[i] * v.Shares[i] * part * part
		}
	}
	if left := s.Factor*s.Factor*total - (total - shrinks); left > 0 {
		s.Want = roundDown(inputs[top].HalfWidth * math.Sqrt(left/shrinks))
	}
	return s
}

// inHand keeps a tenth back, because the estimate is linear and the limit is not
// to be met on a hair.
const inHand = 0.9

// finest is to what fraction errors can shrink at the most: no instrument that
// lies under a vehicle is better than another by more.
const finest = 0.05

// roundDown rounds a number down to two digits.
func roundDown(v float64) float64 {
	step := math.Pow(10, math.Floor(math.Log10(v))-1)
	return math.Floor(v/step) * step
}

// String returns the advice in one plain sentence.
func (s *Settle) String() string {
	most := fmt.Sprintf("the %s contributes most (%.0f %%)", s.Input, 100*s.Part)
	if s.Scatter {
		most += " by the scatter of its readings"
	}
	switch {
	case s.Want > 0:
		return fmt.Sprintf("%s; a %s of %s would settle it", most, errorNames[s.Error], Bounded(s.Want, s.Unit))
	case s.Factor > 0:
		return fmt.Sprintf("%s; all errors together would have to shrink to %.0f %% to settle it", most, 100*s.Factor)
	default:
		return most + "; the value lies on the limit, where no measurement settles it"
	}
}

// errorNames are the words for the fields of errors.
var errorNames = map[string]string{
	"reading_error_deg": "reading error",
	"phase_error_deg":   "phase error",
	"tape_error":        "tape error",
}
