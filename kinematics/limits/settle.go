package limits

import "fmt"

// Settle is what would settle a verdict that is too close to call.
type Settle struct {
	Way Way
	// Inputs are those that the way is about; nil where it is about the gauge.
	Inputs []Input
	More   int // readings of each of them, beside those that there are: ReadMore
	// Error of a reading of the gauge, in deg: FinerGauge.
	Error float64
	// Turned is whether a finer gauge is to be turned end for end, since the zero of the
	// one there is matters.
	Turned bool
	// Kept is whether the value as measured keeps the limit.
	Kept bool
}

// Way is how a doubt is settled.
type Way int

const (
	EnterUnknown   Way = iota // phases that nobody entered and that decide it
	ReadAnew                  // readings that do not agree, one of which is wrong
	ReadMore                  // as many more readings, which settle it in 95 % of cases if the value as measured is the true one
	TurnGauge                 // every slope anew with the gauge turned end for end, since its own zero is in the way
	FinerGauge                // by a gauge of a smaller error, if that shows the same
	MeasureClosely            // what is read by no gauge for angles is what decides it
	OnLimit                   // nothing: the value is on the limit
	LeaveAlone                // nothing, and nothing is at stake
)

// String returns the advice in one plain sentence, or two.
func (s *Settle) String() string {
	switch s.Way {
	case EnterUnknown:
		return fmt.Sprintf("Enter the %s.", names(s.Inputs))
	case ReadAnew:
		return fmt.Sprintf("Read the %s anew: the readings do not agree, and the wrong one counts in the mean.", names(s.Inputs))
	case ReadMore:
		return fmt.Sprintf("Read the %s %s and enter all readings: that settles it.", names(s.Inputs), times(s.More))
	case TurnGauge:
		return "Read every slope anew with the gauge turned end for end and enter both readings: that settles it."
	case FinerGauge:
		advice := "Read with a finer gauge"
		if s.Turned {
			advice += ", turned end for end"
		}
		return s.meanwhile(fmt.Sprintf("%s: one of ±%s settles it if it shows the same.", advice, Bounded(s.Error, unitDeg)))
	case MeasureClosely:
		return s.meanwhile(fmt.Sprintf("Measure the %s more closely.", names(s.Inputs)))
	case OnLimit:
		return "Reading it again will not settle it: it is on the limit, so take it as broken, or mend it."
	case LeaveAlone:
		return "Reading it again will not settle it: it is on the limit. Leave it alone: a joint as straight as that is no reason to change anything."
	default:
		panic(fmt.Sprintf("limits: nothing words way %d to settle a doubt", s.Way))
	}
}

// meanwhile adds what holds until somebody has taken an advice that costs a tool.
func (s *Settle) meanwhile(advice string) string {
	if s.Kept {
		return advice
	}
	return advice + " Until then take it as broken."
}

func times(n int) string {
	if n == 1 {
		return "once more each"
	}
	return fmt.Sprintf("%d times more each", n)
}
