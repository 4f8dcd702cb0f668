package limits

import (
	"fmt"

	"halfturn/kinematics/survey"
)

// Outcome says on which side of a limit a quantity lies, as far as the errors of
// the measurement allow to tell.
type Outcome string

// The outcomes: the coverage interval lies entirely within the limit, entirely
// above a limit that must not be exceeded, entirely below one that must be
// reached, or across the limit.
const (
	Within   Outcome = "within"
	Over     Outcome = "over"
	Under    Outcome = "under"
	TooClose Outcome = "too close to call"
)

// Verdict is one quantity judged by one limit (JCGM 106:2012).
type Verdict struct {
	Subject     string // name of the joint, joints or shaft
	Quantity    string
	Value       float64 // of the driveline as measured, in Unit
	Uncertainty float64 // half the width of the coverage interval; 0: nothing is uncertain
	Limit       float64
	Unit        string
	Outcome     Outcome
	Basis       string

	LimitName string  // one of survey.LimitNames
	Sense     Sense   // of the limit
	Low, High float64 // the coverage interval, as many draws below it as above
	Linear    float64 // standard uncertainty by linearised propagation
	// Shares are the contributions of Judgement.Inputs, in Unit: the root mean
	// square change of the quantity when the input moves by its standard
	// uncertainty either way.
	Shares []float64
	Settle *Settle // how to tell, where Outcome is TooClose
}

func newVerdict(j Judged, s spread, inputs []Input) Verdict {
	v := Verdict{
		Subject: j.Subject, Quantity: j.Limit.Quantity, Value: s.Value,
		Uncertainty: (s.High - s.Low) / 2, Limit: j.Limit.Value, Unit: j.Limit.Unit,
		Outcome: j.Limit.outcome(s.Low, s.High), Basis: j.Limit.Basis,
		LimitName: j.Limit.Name, Sense: j.Limit.Sense,
		Low: s.Low, High: s.High, Linear: s.Linear, Shares: s.Shares,
	}
	if v.Outcome == TooClose {
		v.Settle = newSettle(v, inputs)
	}
	return v
}

// outcome judges a coverage interval.
func (l Limit) outcome(low, high float64) Outcome {
	switch {
	case l.Kept(low) && l.Kept(high):
		return Within
	case l.Kept(low) || l.Kept(high):
		return TooClose
	case l.Sense == AtLeast:
		return Under
	default:
		return Over
	}
}

// Margin is Limit.Margin of the value.
func (v Verdict) Margin() float64 {
	return Limit{Value: v.Limit, Sense: v.Sense}.Margin(v.Value)
}

// String returns the verdict as a clause, such as "the working angle at centre
// joint, 3.41°, is over 3°".
func (v Verdict) String() string {
	what := fmt.Sprintf("%s, %s,", v.about(), against(v.Value, v.Limit, v.Unit))
	limit := Bounded(v.Limit, v.Unit)
	if v.Outcome == TooClose {
		return fmt.Sprintf("%s may be anything from %s to %s, on either side of %s",
			what, Amount(v.Low, v.Unit), Amount(v.High, v.Unit), limit)
	}
	return fmt.Sprintf("%s is %s %s", what, v.Outcome, limit)
}

// about names the quantity and its subject.
func (v Verdict) about() string {
	where := "at"
	if v.LimitName == survey.LimitCompanionDifference {
		where = "between"
	}
	return fmt.Sprintf("the %s %s %s", v.Quantity, where, v.Subject)
}
