package adjust

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// Notes says of a plan what its steps do not tell, one sentence each.
func (r *Result) Notes(p *Plan) []string {
	return slices.Concat(r.gains(p), r.cautions(p), poseNotes(p), axleNotes(p), loadNotes(r.Before[0], p))
}

// gains says what a plan mends that does not mend everything.
func (r *Result) gains(p *Plan) []string {
	if mended := r.mended(p); p.Brings() == "" && len(mended) > 0 {
		return []string{fmt.Sprintf("That mends that %s.", andMore(mended, "and"))}
	}
	return nil
}

// cautions says what is the worse for a plan.
func (r *Result) cautions(p *Plan) []string {
	var notes []string
	before, after := r.Before[0], p.After[0]
	if after.ExactEquivalentDeg > before.ExactEquivalentDeg+aboutDeg {
		notes = append(notes, fmt.Sprintf("It leaves more than there is now: %s instead of %s.", asOneJoint(after), asOneJoint(before)))
	}
	if t := p.Travel; t != nil {
		height := ""
		if t.Height > 0 {
			height = fmt.Sprintf(" (%s at the axle)", limits.Amount(t.Height, string(p.Survey.Units)))
		}
		notes = append(notes, fmt.Sprintf("The ends are then mirrored, not parallel, which suits one height only: %s° of travel of %q%s breaks the limit of the %s.",
			number(t.Deg), t.Shaft, height, t.Quantity))
	}
	if len(p.Missing) > 0 {
		notes = append(notes, fmt.Sprintf("How large the wedge must be depends on what is not entered: want the length of %s.", lengthWords(p)))
	}
	for _, b := range slices.Concat(p.Worse, p.Elsewhere) {
		if b.worse() {
			notes = append(notes, b.String())
		}
	}
	return notes
}

// lengthWords names the lengths that are missing, with what they are measured between.
func lengthWords(p *Plan) string {
	var list []string
	last := len(p.Survey.Shafts) - 1
	for _, name := range p.Missing {
		words := fmt.Sprintf("%q from joint to joint", name)
		switch name {
		case p.Survey.Shafts[0].Name:
			words = fmt.Sprintf("%q from its mounts to %q", name, p.Survey.Joints[0].Name)
		case p.Survey.Shafts[last].Name:
			words = fmt.Sprintf("%q from %q to the centre line of the axle", name, p.Survey.Joints[last-1].Name)
		}
		list = append(list, words)
	}
	return strings.Join(list, " and of ")
}

// poseNotes says what becomes of the poses that a plan need not suit and does not make
// worse.
func poseNotes(p *Plan) []string {
	var notes, kept []string
	for _, b := range p.Elsewhere {
		switch {
		case b.Margin >= 0:
			kept = append(kept, fmt.Sprintf("%q", b.Pose))
		case !b.worse():
			notes = append(notes, b.String())
		}
	}
	if len(kept) > 0 {
		notes = append(notes, fmt.Sprintf("Every limit is kept, as reckoned, in the pose %s.", strings.Join(kept, " and in ")))
	}
	return notes
}

// axleNotes says what a wedge does beside the angles, and how a lone joint is set on
// an axle that turns on its springs: common practice, no source.
func axleNotes(p *Plan) []string {
	k := slices.IndexFunc(p.Steps, func(s Step) bool { return s.Change == survey.ChangeWedge })
	if k < 0 || !onSprings(p.Survey) {
		return nil
	}
	value := p.Steps[k].Value
	notes := []string{fmt.Sprintf("An axle on rods is turned by their length; on a steered axle that %s %s° %s the caster.",
		sided(value, "takes", "adds"), number(math.Abs(value)), sided(value, "off", "to"))}
	last := len(p.Survey.Joints) - 1
	if roles, err := limits.RolesOf(p.Survey); err == nil && slices.Contains(roles.Lone, last) && p.After[0].WorkingAngleDeg[last] < nearlyStraight {
		notes = append(notes, fmt.Sprintf("Under power the nose of an axle on leaf springs rises: builders set a lone joint such as %q 1 to 2° low at rest (common practice), as far as its limit allows.",
			p.Survey.Joints[last].Name))
	}
	return notes
}

// nearlyStraight is below what a lone joint on leaf springs is set to at rest, deg.
const nearlyStraight = 1

// loadNotes says what torque does to the supports where that tells plans apart.
func loadNotes(before State, p *Plan) []string {
	after := p.After[0]
	at := "At " + limits.Bounded(after.Loads.TorqueNM, "N·m")
	if after.Loads.TorqueAssumed {
		at = "For each " + limits.Bounded(after.Loads.TorqueNM, "N·m") + " of torque"
	}
	if _, ok := after.BearingSwingN(); ok {
		var swings []string
		for i, b := range after.Loads.Forces.Bearings {
			was := before.Loads.Forces.Bearings[i].Force.Swing()
			of := ""
			if len(after.Loads.Forces.Bearings) > 1 {
				of = " of " + p.Survey.Shafts[b.Shaft].Name
			}
			swings = append(swings, fmt.Sprintf("the centre bearing%s is shaken by ±%s twice a turn (now ±%s)", of, limits.Amount(b.Force.Swing(), "N"), limits.Amount(was, "N")))
		}
		return []string{at + " " + strings.Join(swings, ", ") + "."}
	}
	if force, ok := after.EndForceN(); ok && p.Mirrored {
		return []string{fmt.Sprintf("%s the ends of the shaft are then shaken by up to %s twice a turn; with parallel ends they are not.", at, limits.Amount(force, "N"))}
	}
	return nil
}
