package adjust

import (
	"math"
	"slices"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// objective says what is asked of a candidate: what it owes to every judged
// quantity in every pose.
type objective struct {
	owed [][]requirement // by pose and judged quantity
	// doubts asks that also those doubts be put to rest that a candidate does not
	// touch.
	doubts bool
	sprung bool // the last shaft is that of an axle on springs
}

// newObjective takes what there is to mend from the judgements, and the readings to be
// exact.
func newObjective(poses evaluator, before []State) *objective {
	o := &objective{sprung: onSprings(poses[0].survey)}
	for i, p := range poses {
		owed := make([]requirement, len(p.gauge.Judged))
		for k, judged := range p.gauge.Judged {
			v := before[i].Judgement.Verdicts[k]
			owed[k] = requirement{
				limit: judged.Limit, value: v.Value, margin: v.Margin(),
				broken: broken(v.Outcome), doubt: v.Outcome == limits.TooClose,
				beside: otherSide(p.gauge.Judged, k),
			}
		}
		o.owed = append(o.owed, owed)
	}
	o.firm()
	o.reckon(nil)
	return o
}

// reckon takes the uncertainty of each quantity from the judgements of a state such as
// the correction is to lead to; nil: the readings are exact.
func (o *objective) reckon(toward []State) {
	for i, owed := range o.owed {
		for k := range owed {
			owed[k].slack = 0
			if toward != nil {
				owed[k].slack = reach(toward[i].Judgement.Verdicts[k])
			}
		}
		for k := range owed {
			owed[k].proof = provable(owed, k)
		}
	}
}

// standing makes settings and returns their standing; ok is false where they make no
// driveline or something worse than it is, which one pose may tell before the others
// are looked at.
func (o *objective) standing(e evaluator, settings []setting) (s standing, ok bool) {
	for i, p := range e {
		if !p.set(settings) {
			return s, false
		}
		owed := o.owed[i]
		for k, v := range p.values {
			r := &owed[k]
			m := r.limit.Margin(v)
			if m < r.least {
				return s, false
			}
			touched := math.Abs(m-r.margin) > rounding
			switch {
			case r.yields:
			case r.broken && m < -rounding:
				s[r.limit.Class]++
			case !touched && !r.doubt, !touched && !o.doubts:
			case r.proof && m < r.slack-rounding, !r.proof && o.nearer(owed, p.values, k):
				s[classes]++
			}
		}
	}
	for _, p := range e {
		p.keep()
	}
	return s, true
}

// yield gives way, in poses where the vehicle is not driven for hours, on limits that
// are set aside: they may be broken a little further, and at other parts as far, for
// the sake of what can be mended. It reports whether there are any.
func (o *objective) yield(e evaluator) (any bool) {
	for i, p := range e {
		if p.pose == "" || p.kind == survey.Cruise {
			continue
		}
		for _, given := range slices.Clone(o.owed[i]) {
			if !given.setAside {
				continue
			}
			any = true
			for k := range o.owed[i] {
				if r := &o.owed[i][k]; r.limit.Name == given.limit.Name {
					r.setAside, r.yields = true, true
					r.least = min(r.least, given.margin-aboutPart*given.value/given.limit.Value)
				}
			}
		}
	}
	return any
}

// firm has nothing get worse than it is.
func (o *objective) firm() {
	for _, owed := range o.owed {
		for k := range owed {
			r := &owed[k]
			r.yields, r.least = false, -rounding
			if r.margin < 0 {
				r.least = min(r.least, r.margin-r.tolerance())
			}
		}
	}
}

// nearer reports whether a quantity has come noticeably nearer to its limits.
func (o *objective) nearer(owed []requirement, values []float64, k int) bool {
	r := &owed[k]
	was, now := r.margin*r.limit.Value, r.limit.Margin(values[k])*r.limit.Value
	if r.beside >= 0 {
		other := &owed[r.beside]
		was = min(was, other.margin*other.limit.Value)
		now = min(now, other.limit.Margin(values[r.beside])*other.limit.Value)
	}
	return now < was-r.tolerance()*r.limit.Value
}
