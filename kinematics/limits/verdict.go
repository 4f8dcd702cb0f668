package limits

import "slices"

// Outcome says on which side of a limit a quantity lies, as far as the errors of
// the measurement allow to tell.
type Outcome string

// The outcomes: nearly all of what the readings may stand for keeps the limit;
// nearly all is above a limit that must not be exceeded, or below one that must be
// reached; or neither.
const (
	Within   Outcome = "within"
	Over     Outcome = "over"
	Under    Outcome = "under"
	TooClose Outcome = "too close to call"
)

// Verdict is one quantity judged by one limit (after JCGM 106:2012): Within where at
// least 97.5 % of the draws keep the limit, and the value as measured does; broken
// where at most 2.5 % do, and that does not.
type Verdict struct {
	Subject     string  `json:"subject"`    // name of the joint, joints or shaft
	LimitName   string  `json:"limit_name"` // one of survey.LimitNames
	Quantity    string  `json:"quantity"`
	Value       float64 `json:"value"`       // of the driveline as measured, in Unit
	Uncertainty float64 `json:"uncertainty"` // half the width of the coverage interval; 0: nothing is uncertain
	// Low and High are the coverage interval. It need not be centred on Value: where
	// the readings cannot tell a quantity from 0, Low is 0 and High what it may be at
	// most.
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	Limit   float64 `json:"limit"`
	Unit    string  `json:"unit"`
	Outcome Outcome `json:"verdict"`
	Basis   string  `json:"basis"`

	Sense Sense `json:"sense"` // of the limit
	Class Class `json:"-"`     // of the limit
	// Settle is how to tell, where Outcome is TooClose, and ToSettle the same in a
	// sentence.
	Settle   *Settle `json:"-"`
	ToSettle string  `json:"to_settle,omitempty"`
}

func newVerdict(j Judged, s spread) Verdict {
	return Verdict{
		Subject: j.Subject, LimitName: j.Limit.Name, Quantity: j.Limit.Quantity,
		Value: s.value, Uncertainty: (s.high - s.low) / 2, Low: s.low, High: s.high,
		Limit: j.Limit.Value, Unit: j.Limit.Unit, Outcome: j.Limit.outcome(s), Basis: j.Limit.Basis,
		Sense: j.Limit.Sense, Class: j.Limit.Class,
	}
}

// outcome judges a quantity by the points that few draws are below and above, but
// never against the value as measured: errors that cancel in it seldom do in a draw.
func (l Limit) outcome(s spread) Outcome {
	worst, best := s.above, s.below
	if l.Sense == AtLeast {
		worst, best = s.below, s.above
	}
	switch {
	case l.Kept(worst) && l.Kept(s.value):
		return Within
	case l.Kept(best) || l.Kept(s.value):
		return TooClose
	case l.Sense == AtLeast:
		return Under
	default:
		return Over
	}
}

// Kept is Limit.Kept of the value as measured.
func (v Verdict) Kept() bool {
	return Limit{Value: v.Limit, Sense: v.Sense}.Kept(v.Value)
}

// unproven reports whether nothing but the error of the readings speaks against a
// verdict that is too close to call.
func (v Verdict) unproven() bool {
	return v.Kept() && !slices.Contains([]Way{EnterUnknown, ReadAnew, OnLimit}, v.Settle.Way)
}

// Margin is Limit.Margin of the value.
func (v Verdict) Margin() float64 {
	return Limit{Value: v.Limit, Sense: v.Sense}.Margin(v.Value)
}
