package adjust

import (
	"math"
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

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
		if slices.ContainsFunc(o.owed[i], func(r requirement) bool { return r.broken && !still(r.limit.Name) }) {
			return true
		}
	}
	return false
}
