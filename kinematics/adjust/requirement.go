package adjust

import (
	"math"

	"halfturn/kinematics/limits"
)

// requirement is what a candidate owes to one judged quantity.
type requirement struct {
	limit  limits.Limit
	value  float64 // as measured
	margin float64 // as measured
	broken bool    // as measured, by the verdict
	doubt  bool    // as measured, by the verdict
	// slack is the margin from which on the readings prove that the limit is kept;
	// proof is false where no value would do.
	slack    float64
	proof    bool
	beside   int     // the requirement that bounds the same quantity from the other side, or −1
	least    float64 // margin that may be left: nothing gets worse
	setAside bool    // nothing within reach mends it
	yields   bool    // it is not asked for, for the sake of what can be mended
}

// reach returns how far the coverage interval reaches toward the limit, in parts of it.
func reach(v limits.Verdict) float64 {
	if v.Sense == limits.AtLeast {
		return max(0, (v.Value-v.Low)/v.Limit)
	}
	return max(0, (v.High-v.Value)/v.Limit)
}

// otherSide returns the tightest limit that bounds quantity k from the other side,
// −1 for none.
func otherSide(judged []limits.Judged, k int) int {
	best := -1
	for i, j := range judged {
		if j.Subject != judged[k].Subject || j.Limit.Unit != judged[k].Limit.Unit || j.Limit.Sense == judged[k].Limit.Sense {
			continue
		}
		tighter := best < 0 || (j.Limit.Value < judged[best].Limit.Value) == (j.Limit.Sense == limits.AtMost)
		if tighter {
			best = i
		}
	}
	return best
}

// provable reports whether there is a value of which the readings would prove that
// it keeps the limit, and the one on its other side.
func provable(owed []requirement, k int) bool {
	r := owed[k]
	if r.beside < 0 {
		return r.limit.Sense == limits.AtLeast || r.slack <= 1
	}
	other := owed[r.beside]
	width := math.Abs(other.limit.Value - r.limit.Value)
	return r.slack*r.limit.Value+other.slack*other.limit.Value <= width
}

// How much worse is nothing, in parts of a limit and, for angles, in deg: far below
// what can be measured.
const (
	nothing    = 0.02
	nothingDeg = 0.02
	rounding   = 1e-9 // what limits.Limit.Kept forgives
)

func (r *requirement) tolerance() float64 {
	if r.limit.Unit == "deg" {
		return max(nothing, nothingDeg/r.limit.Value)
	}
	return nothing
}
