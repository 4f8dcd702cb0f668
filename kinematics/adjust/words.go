package adjust

import (
	"cmp"
	"fmt"
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
