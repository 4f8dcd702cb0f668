package adjust

import (
	"maps"
	"math"
	"slices"

	"halfturn/kinematics"
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

// requirement is what a candidate owes to one judged quantity.
type requirement struct {
	limit  limits.Limit
	rank   limits.Class // of the limit
	value  float64      // as measured
	margin float64      // as measured
	broken bool         // as measured, by the verdict
	doubt  bool         // as measured, by the verdict
	// slack is the margin from which on the readings prove that the limit is kept;
	// proof is false where no value would do.
	slack  float64
	proof  bool
	beside int     // the requirement that bounds the same quantity from the other side, or −1
	least  float64 // margin that may be left: nothing gets worse
	aside  bool    // nothing within reach mends it
	yields bool    // it is not asked for, for the sake of what can be mended
}

// ranks of limits, by their class, the gravest first.
const ranks = int(limits.TooStraight) + 1

// standing tells what a candidate leaves to be wished for, the gravest first: how
// many limits it leaves broken, by rank, and how many of those that it
// touches it leaves in doubt. Less is better.
type standing [ranks + 1]uint16

func (s standing) compare(other standing) int { return slices.Compare(s[:], other[:]) }

func (s standing) perfect() bool { return s == standing{} }

// mends reports whether as many limits are mended as with another standing.
func (s standing) mends(other standing) bool { return slices.Equal(s[:ranks], other[:ranks]) }

// mended reports whether no limit stays broken.
func (s standing) mended() bool { return s.mends(standing{}) }

// newObjective takes what there is to mend from the judgements, and the readings to be
// exact.
func newObjective(poses evaluator, before []State) *objective {
	o := &objective{sprung: onSprings(poses[0].survey)}
	for i, p := range poses {
		owed := make([]requirement, len(p.gauge.Judged))
		for k, judged := range p.gauge.Judged {
			v := before[i].Judgement.Verdicts[k]
			owed[k] = requirement{
				limit: judged.Limit, rank: judged.Limit.Class, value: v.Value, margin: v.Margin(),
				broken: v.Outcome == limits.Over || v.Outcome == limits.Under, doubt: v.Outcome == limits.TooClose,
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
				s[r.rank]++
			case !touched && !r.doubt, !touched && !o.doubts:
			case r.proof && m < r.slack-rounding, !r.proof && o.nearer(owed, p.values, k):
				s[ranks]++
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
			if !given.aside {
				continue
			}
			any = true
			for k := range o.owed[i] {
				if r := &o.owed[i][k]; r.limit.Name == given.limit.Name {
					r.aside, r.yields = true, true
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

// outcome is what a candidate comes to beside its standing, at the worst ride height.
type outcome struct {
	left     float64 // equivalent angle at the last shaft, deg, to what can be told apart
	share    float64 // of what is left in what is allowed there, as an acceleration
	mirrored bool
	whole    bool // it mends a limit at every part, in some pose
}

// finest is what can be told apart of what is left.
const finest = 100 // parts of a degree

// singleJoint is what one joint alone is usually allowed, in deg, where no limit
// says what may be left: "as of one joint at 3 deg" (see package limits).
const singleJoint = 3

func (o *objective) outcome(e evaluator) outcome {
	out := outcome{mirrored: e[0].mirrored(), whole: o.whole(e)}
	limited := false
	for i, p := range e {
		if i > 0 && p.kind != survey.Cruise {
			continue // nobody feels there what is left
		}
		out.left = max(out.left, math.Round(p.left()/kinematics.Degree*finest)/finest)
		for k, v := range p.values {
			r := &o.owed[i][k]
			atLast := r.limit.Name == survey.LimitResidualAccel || r.limit.Name == survey.LimitNonuniformity
			if atLast && p.gauge.Judged[k].Subject == p.last {
				limited, out.share = true, max(out.share, v/r.limit.Value)
			}
		}
	}
	if !limited {
		out.share = (out.left / singleJoint) * (out.left / singleJoint)
	}
	return out
}

// whole reports whether a limit that is broken now is kept at every part in some pose.
func (o *objective) whole(e evaluator) bool {
	for i, p := range e {
		still := func(name string) bool {
			for k, v := range p.values {
				if r := &o.owed[i][k]; r.broken && r.limit.Name == name && r.limit.Margin(v) < -rounding {
					return true
				}
			}
			return false
		}
		if slices.ContainsFunc(o.owed[i], func(r requirement) bool { return r.broken && !r.yields && !still(r.limit.Name) }) {
			return true
		}
	}
	return false
}

// little is the share of what is allowed below which nobody feels what is left.
const little = 0.25

// choose returns the best of candidates by the whole objective, nil of none: that
// of the best standing that touches the fewest parts, unless each part more halves
// what is left, where that can be felt.
func (o *objective) choose(all []*candidate) *candidate {
	if len(all) == 0 {
		return nil
	}
	first := slices.MinFunc(all, func(a, b *candidate) int { return a.standing.compare(b.standing) })
	bySize := make(map[int][]*candidate)
	for _, c := range all {
		if c.standing == first.standing {
			bySize[len(c.settings)] = append(bySize[len(c.settings)], c)
		}
	}
	var chosen *candidate
	for _, size := range slices.Sorted(maps.Keys(bySize)) {
		c := o.ofSize(bySize[size])
		if chosen == nil || chosen.share > little && c.left <= chosen.left*math.Pow(0.5, float64(size-len(chosen.settings))) {
			chosen = c
		}
	}
	return chosen
}

// ofSize returns the best of candidates of the same standing and number of parts.
// Shafts that are mirrored cancel at one height only: on springs they are rather
// parallel.
func (o *objective) ofSize(some []*candidate) *candidate {
	var all sides
	for _, c := range some {
		all[side(c.mirrored)].insert(*c)
	}
	if o.sprung && len(all[0]) > 0 {
		return all[0].best()
	}
	all[0].merge(all[1])
	return all[0].best()
}

// rank returns the candidates to make plans of, the best first: such as are of use
// and touch no more parts than the best. The other way of what mends as much may
// leave a doubt. Beside a plan that touches several, single changes show what they
// come to.
func (o *objective) rank(all []*candidate, present *candidate) []*candidate {
	all = slices.DeleteFunc(slices.Clone(all), func(c *candidate) bool { return !o.helps(c, present) })
	first := o.choose(all)
	var list []*candidate
	for c := first; c != nil && len(list) < MostPlans; c = o.choose(all) {
		list = append(list, c)
		all = slices.DeleteFunc(all, func(other *candidate) bool {
			single := len(other.settings) == 1 && len(first.settings) > 1 && !other.mirrored
			otherWay := other.mirrored && other.standing.mends(first.standing)
			same := other.mirrored == c.mirrored && c.contains(other.group) && other.contains(c.group)
			return same || len(other.settings) > len(first.settings) || other.standing != first.standing && !single && !otherWay
		})
	}
	if o.doubts && len(list) > 1 {
		list = list[:1]
	}
	return list
}

// helps reports whether a candidate is better than leaving all as it is: it mends a
// limit, which stays broken nowhere or else without leaving more; or takes a doubt away and leaves no more; or, where what is left can be
// felt, halves it with each part, the first of which need only leave noticeably less
// where a limit on what is left or does not match stays broken.
func (o *objective) helps(c, present *candidate) bool {
	halved := present.left * math.Pow(0.5, float64(len(c.settings)))
	switch {
	case c.standing.compare(present.standing) > 0:
		return false
	case !c.standing.mends(present.standing) && c.whole:
		return true
	case c.standing != present.standing:
		return c.left <= about(present.left, aboutDeg)
	case present.share <= little:
		return false
	case present.standing[limits.TooShaken]+present.standing[limits.OutOfMatch] > 0:
		return about(c.left, aboutDeg) < present.left && c.left <= 2*halved
	default:
		return c.left <= halved
	}
}
