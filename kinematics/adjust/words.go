package adjust

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// Answer says what to do, in plain sentences.
func (r *Result) Answer() string {
	if r.Fine {
		return strings.Join(r.fine(), " ")
	}
	var text []string
	if len(r.SetAside) > 0 {
		text = append(text, fmt.Sprintf("Nothing within reach mends that %s.", andMore(r.SetAside, "nor")))
	}
	if len(r.Plans) == 0 {
		text = append(text, "No change within reach makes anything better without making something worse.")
		if r.Needed != nil {
			text = append(text, fmt.Sprintf("It would take this, which is %s: %s.", r.BeyondReach(), r.Needed.Instructions()))
		}
		return strings.Join(append(text, r.toCheck()...), " ")
	}
	best := &r.Plans[0]
	switch does := best.Brings(); {
	case does != "":
		text = append(text, "Best: "+best.Instructions()+".", "That "+does+".")
	case len(r.SetAside) == 0:
		text = append(text, "No change within reach brings it within every limit.", "Nearest: "+best.Instructions()+".")
	case len(r.mended(best)) == 0:
		text = append(text, fmt.Sprintf("Nearest: %s. That leaves %s instead of %s.", best.Instructions(), asOneJoint(best.After[0]), asOneJoint(r.Before[0])))
	case best.Rest == limits.Within:
		text = append(text, "Best for the rest: "+best.Instructions()+".", "That brings the rest within its limits.")
	default:
		text = append(text, "Best for the rest: "+best.Instructions()+".")
		text = append(text, r.gains(best)...)
	}
	text = append(text, r.cautions(best)...)
	if best.Brings() == "" || best.Makes(survey.ChangeClocking) {
		text = append(text, r.toCheck()...)
	}
	return strings.Join(text, " ")
}

// toCheck says what to look at before parts are changed that do not mend everything:
// what stands sideways, and what could not be tried.
func (r *Result) toCheck() []string {
	var text []string
	for _, shaft := range r.Twisted {
		cure := ": no yoke turned alone mends everything, and turning one beside other changes was not tried"
		if len(r.Plans) > 0 && r.Plans[0].Makes(survey.ChangeClocking) {
			cure = " before a good shaft is cut"
		}
		text = append(text, fmt.Sprintf("The planes of the joints at %q are twisted though its yokes are in phase: engine, bearing or axle stands sideways. Measure the headings again, and check mounts and rods%s.", shaft, cure))
	}
	if len(r.Untried) > 0 {
		text = append(text, fmt.Sprintf("Not tried for want of a length: %s.", strings.Join(r.Untried, ", ")))
	}
	return text
}

// fine says that nothing needs to be changed, and what may be changed all the same.
func (r *Result) fine() []string {
	text := []string{fmt.Sprintf("Nothing needs to be changed: every limit is kept%s, %s.", where(r.Before, r.OtherPoses), certainty(r.Before[0].Judgement))}
	doubt := len(breaches(r.Before, notWithin)) > 0
	if doubt {
		text = []string{"No limit is known to be broken."}
	}
	if len(r.Plans) == 0 {
		return text
	}
	plan := &r.Plans[0]
	if doubt {
		text = append(text, "To take the doubt away: "+plan.Instructions()+".")
	} else {
		text = append(text, fmt.Sprintf("One change would leave %s instead of %s: %s.",
			asOneJoint(plan.After[0]), asOneJoint(r.Before[0]), plan.Instructions()))
	}
	return append(text, r.cautions(plan)...)
}

// BeyondReach says of what Needed asks for why no plan does it.
func (r *Result) BeyondReach() string {
	if r.Assumed {
		return beyondUsual
	}
	return beyondRange
}

// mended returns the verdicts that are broken as it is and not after a plan.
func (r *Result) mended(p *Plan) (list []Breach) {
	for i, before := range r.Before {
		for k, was := range before.Judgement.Verdicts {
			if broken(was.Outcome) && !broken(p.After[i].Judgement.Verdicts[k].Outcome) {
				list = append(list, Breach{before.Pose, was})
			}
		}
	}
	return list
}

// Brings says what a plan comes to that keeps every limit, at least as measured;
// "" for another.
func (p *Plan) Brings() string {
	within := "brings it within every limit" + where(p.After, len(p.Elsewhere))
	over := slices.IndexFunc(p.Breaks, func(b Breach) bool { return !b.Kept() })
	switch {
	case p.Outcome == limits.Within:
		return within + ", " + certainty(p.After[0].Judgement)
	case p.Outcome == limits.TooClose && len(p.Missing) > 0:
		return within + " as far as can be told without a length"
	case p.Outcome == limits.TooClose && over >= 0:
		return "leaves no limit broken for certain, but " + p.Breaks[over].String()
	case p.Outcome == limits.TooClose:
		return within + " as measured, but the reading errors leave a doubt"
	}
	return ""
}

// where says in which poses limits are kept, where there are others beside those that
// were asked for.
func where(asked []State, others int) string {
	switch {
	case others == 0:
		return ""
	case len(asked) > 1:
		return " wherever it runs for hours"
	case sprung(asked[0].Judgement.Set.Name):
		return " at ride height"
	default:
		return " where it was measured"
	}
}

// certainty says how sure it is that verdicts are within.
func certainty(j *limits.Judgement) string {
	if !slices.ContainsFunc(j.Inputs, func(in limits.Input) bool { return in.Error != "" }) { // but what nobody entered
		return "if the readings are exact"
	}
	return "allowing for the reading errors"
}

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
		if name == p.Survey.Shafts[last].Name {
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

// asOneJoint words what is left.
func asOneJoint(s State) string { return limits.Amount(s.ExactEquivalentDeg, "deg") }

// Instructions are those of all steps in one clause.
func (p *Plan) Instructions() string {
	var texts []string
	for _, s := range p.Steps {
		texts = append(texts, s.Instruction)
	}
	return strings.Join(texts, "; ")
}

// String words a judged quantity and its limit.
func (t Tightest) String() string {
	where := ""
	if t.Pose != "" {
		where = t.Pose + ": "
	}
	return fmt.Sprintf("%s%s at %s, %s against %s", where, t.Quantity, t.Subject,
		limits.Amount(t.Value, t.Unit), limits.Bounded(t.Limit, t.Unit))
}

// andMore words the gravest of some verdicts and how many more there are.
func andMore(list []Breach, and string) string {
	text := slices.MinFunc(list, func(a, b Breach) int { return cmp.Compare(a.Class, b.Class) }).String()
	if n := len(list) - 1; n > 0 {
		text += fmt.Sprintf(", %s %d more", and, n)
	}
	return text
}
