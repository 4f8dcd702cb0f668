package adjust

import (
	"fmt"
	"math"
	"slices"
	"strconv"
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
		text = append(text, "Nothing within reach mends that "+andMore(r.SetAside)+".")
	}
	if len(r.Plans) == 0 {
		text = append(text, "No change within reach makes anything better without making something worse.")
		if slices.ContainsFunc(r.Refused, func(why string) bool { return strings.Contains(why, wantLength) }) {
			text = append(text, "With the lengths that are missing, more changes could be tried.")
		}
		if r.Needed != nil {
			text = append(text, "It would take this, which is not possible with these parts: "+r.Needed.Instructions()+".")
		}
		return strings.Join(text, " ")
	}
	best := &r.Plans[0]
	switch does := best.Brings(); {
	case does != "":
		text = append(text, "Best: "+best.Instructions()+".", "That "+does+".")
	case len(r.SetAside) == 0:
		text = append(text, "No change within reach brings it within every limit.", "Nearest: "+best.Instructions()+".")
	default:
		text = append(text, "Best for the rest: "+best.Instructions()+".")
		if best.Rest == limits.Within && r.mends(best) {
			text = append(text, "That brings the rest within its limits.")
		}
	}
	return strings.Join(append(text, r.cautions(best)...), " ")
}

// fine says that nothing needs to be changed, and what may be changed all the same.
func (r *Result) fine() []string {
	text := []string{"Nothing needs to be changed: every limit is kept, " + certainty(r.Before[0].Judgement) + "."}
	doubt := len(breaches(r.Before, notWithin)) > 0
	if doubt {
		text = []string{"No limit is known to be broken."}
	}
	if len(r.Plans) == 0 {
		return text
	}
	plan := &r.Plans[0]
	if doubt {
		return append(text, "To take the doubt away: "+plan.Instructions()+".")
	}
	return append(text, fmt.Sprintf("One change would leave %s instead of %s: %s.",
		asOneJoint(plan.After[0]), asOneJoint(r.Before[0]), plan.Instructions()))
}

// mends reports whether a plan leaves fewer limits broken than there are.
func (r *Result) mends(p *Plan) bool {
	return len(breaches(p.After, broken)) < len(breaches(r.Before, broken))
}

// Brings says what a plan comes to that keeps every limit, at least as measured;
// "" for another.
func (p *Plan) Brings() string {
	switch p.Outcome {
	case limits.Within:
		return "brings it within every limit, " + certainty(p.After[0].Judgement)
	case limits.TooClose:
		return "brings it within every limit as measured, but the reading errors leave a doubt"
	default:
		return ""
	}
}

// certainty says how sure it is that verdicts are within.
func certainty(j *limits.Judgement) string {
	if !slices.ContainsFunc(j.Inputs, func(in limits.Input) bool { return in.Error != "" }) { // but what nobody entered
		return "if the readings are exact"
	}
	return "whatever the reading errors"
}

// Notes says of a plan what its steps do not tell, one sentence each.
func (r *Result) Notes(p *Plan) []string { return append(r.cautions(p), loadNotes(r.Before[0], p)...) }

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
	return notes
}

// loadNotes says what torque does to the supports where that tells plans apart.
func loadNotes(before State, p *Plan) []string {
	after := p.After[0]
	at := "At " + limits.Bounded(after.Loads.TorqueNM, "N·m")
	if after.Loads.TorqueAssumed {
		at = "For each " + limits.Bounded(after.Loads.TorqueNM, "N·m") + " of torque"
	}
	if swing, ok := after.BearingSwingN(); ok {
		was, _ := before.BearingSwingN()
		return []string{fmt.Sprintf("%s the centre bearing is shaken by ±%s twice a turn (now ±%s).", at, limits.Amount(swing, "N"), limits.Amount(was, "N"))}
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

// andMore words the first of some verdicts and how many more there are.
func andMore(list []Breach) string {
	text := list[0].Verdict.String()
	if list[0].Pose != "" {
		text = fmt.Sprintf("in the pose %q %s", list[0].Pose, text)
	}
	if n := len(list) - 1; n > 0 {
		text += fmt.Sprintf(", nor %d more", n)
	}
	return text
}

// instruction says in plain words how to make a change.
func instruction(s *survey.Survey, set setting) string {
	text := set.tell(s, set)
	if beyond(set) {
		text += fmt.Sprintf(" (not possible with these parts: %s to %s)", number(set.from), number(set.to))
	}
	return text
}

// beyond reports whether a setting lies beyond the range of its change.
func beyond(set setting) bool { return set.value < set.from || set.value > set.to }

// The instructions of the kinds of change.

func tellWedge(s *survey.Survey, set setting) string {
	size := number(math.Abs(set.value))
	if !onSprings(s) {
		return fmt.Sprintf("tilt %q by %s° until its driving end stands %s", set.asked.On, size, sided(set.value, "higher", "lower"))
	}
	return fmt.Sprintf("fit a wedge of %s° to turn the nose of %q %s", size, set.asked.On, thickEnd(set.value))
}

// thickEnd tells which way a wedge turns the pinion and which end is thick.
//
// A pinion that falls toward the axle by more than before (a positive wedge) has
// its nose, where the joint is, higher. Turned so, the axle's spring seat rises
// at the end toward the shaft and sinks at the end away from it. Below a spring
// that stays where it is, the gap to fill is then widest away from the shaft;
// above one, toward the shaft. On a rear axle, away from the shaft is the rear.
func thickEnd(value float64) string {
	if value > 0 {
		return "up: thick end away from the shaft (to the rear on a rear axle) with the spring on top of the axle, toward the shaft with the spring below it"
	}
	return "down: thick end toward the shaft (to the front on a rear axle) with the spring on top of the axle, away from the shaft with the spring below it"
}

func tellBearingHeight(s *survey.Survey, set setting) string {
	return fmt.Sprintf("%s the bearing at %q by %s %s%s", sided(set.value, "lower", "raise"), set.asked.On,
		number(math.Abs(set.value)), s.Units, inSteps(set, sided(set.value, "shim", "step"), s.Units))
}

func tellBearingSide(s *survey.Survey, set setting) string {
	return fmt.Sprintf("move the bearing at %q %s %s to the %s, as seen along the power flow", set.asked.On,
		number(math.Abs(set.value)), s.Units, sided(set.value, "right", "left"))
}

func tellMount(s *survey.Survey, set setting) string {
	return fmt.Sprintf("shim the mount of %q until %q stands %s %s %s%s", set.asked.On, s.Joints[set.at].Name,
		number(math.Abs(set.value)), s.Units, sided(set.value, "higher", "lower"), inSteps(set, sided(set.value, "shim", "step"), s.Units))
}

// tellClocking counts the teeth of the spline where the steps of the change are such,
// larger than what a yoke is set to before it is welded.
func tellClocking(s *survey.Survey, set setting) string {
	teeth, all := math.Abs(set.value/set.step), 360/set.step
	how := ", and weld it so"
	if set.step >= 360/maxTeeth && whole(teeth) && whole(all) {
		how = fmt.Sprintf(": %.0f of the %.0f teeth", teeth, all)
	}
	return fmt.Sprintf("turn the driven-end yoke of %q by %s° %s, as seen along the power flow%s", set.asked.On,
		number(math.Abs(set.value)), sided(set.value, "clockwise", "anticlockwise"), how)
}

// maxTeeth of the spline of a shaft: more is a shaft welded anew.
const maxTeeth = 120

func tellLength(s *survey.Survey, set setting) string {
	return fmt.Sprintf("make %q %s %s %s and move the bearing at %q along with it", set.asked.On,
		number(math.Abs(set.value)), s.Units, sided(set.value, "longer", "shorter"), s.Joints[set.at].Name)
}

func sided(value float64, positive, negative string) string {
	if value > 0 {
		return positive
	}
	return negative
}

// inSteps counts the steps of a change, where they add up to its value and are not
// such as every stack is made of.
func inSteps(set setting, step string, unit survey.Unit) string {
	n := math.Abs(set.value / set.step)
	if set.step == set.usual[string(unit)].step || !whole(n) {
		return ""
	}
	if math.Round(n) != 1 {
		step += "s"
	}
	return fmt.Sprintf(": %.0f %s of %s %s", n, step, number(set.step), unit)
}

// whole allows for steps that are written with few digits, such as 360/32 or an
// eighth of an inch as 0.125.
func whole(n float64) bool { return math.Abs(n-math.Round(n)) < 1e-3 }

func number(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}
