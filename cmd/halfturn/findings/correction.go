package findings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// How text, JSON and the page of a report word a search.
const (
	nothingHelps = "No change within reach helps with what is worst, alone or together."
	noneServes   = "No change within reach brings it within every limit."
)

// nothingNeeded says that a driveline may stay as it is.
func nothingNeeded(j *limits.Judgement) string {
	return "Nothing needs to be changed: every verdict is within its limit, " + certainty(j) + "."
}

// brings says what a plan comes to that keeps every limit, at least as measured;
// "" for another.
func brings(p *adjust.Plan) string {
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
	if len(j.Inputs) == 0 {
		return "if the readings are exact"
	}
	return "whatever the reading errors"
}

// Cure is what to change, in plain sentences. A Correction must be there.
func (f *Findings) Cure() string {
	r := f.Correction
	switch {
	case r.Fine:
		return nothingNeeded(r.Before[0].Judgement)
	case len(r.Plans) == 0:
		broken := r.Before[slices.IndexFunc(r.Before, func(s adjust.State) bool { return s.Judgement.Outcome != limits.Within })]
		sentences := nothingHelps + " "
		if broken.Pose != "" {
			sentences += fmt.Sprintf("In the pose %q: ", broken.Pose)
		}
		sentences += broken.Judgement.Answer
		if r.Needed != nil {
			sentences += " Beyond the ranges this would do: " + instructions(r.Needed) + "."
		}
		return sentences
	}
	best := &r.Plans[0]
	if does := brings(best); does != "" {
		return fmt.Sprintf("Best: %s. That %s.", instructions(best), does)
	}
	if aside := setAside(r); aside != "" {
		return aside + " " + forTheRest(best)
	}
	return noneServes + " Nearest: " + instructions(best) + "."
}

// setAside says which limits no change within reach keeps; "" where there is none.
func setAside(r *adjust.Result) string {
	if len(r.SetAside) == 0 {
		return ""
	}
	text := "Nothing within reach mends that " + r.SetAside[0].Verdict.String()
	if n := len(r.SetAside) - 1; n > 0 {
		text += fmt.Sprintf(", nor %d more", n)
	}
	return text + "."
}

// forTheRest says what a plan does beside the limits that nothing mends.
func forTheRest(p *adjust.Plan) string {
	text := "Best for the rest: " + instructions(p) + "."
	if p.Rest == limits.Within {
		text += " That brings the rest within its limits."
	}
	return text
}

func instructions(p *adjust.Plan) string {
	var texts []string
	for _, s := range p.Steps {
		texts = append(texts, s.Instruction)
	}
	return strings.Join(texts, "; ")
}

// Nudge is what becomes of a plan when one step is made half a step less or more.
type Nudge struct {
	Step, By string
	Nearest  string // limit then
	Kept     bool
}

// Nudges words what half a step does; nothing for a plan that breaks a limit
// anyhow.
func Nudges(p *adjust.Plan) []Nudge {
	if brings(p) == "" {
		return nil
	}
	var list []Nudge
	for _, n := range p.Nudges {
		step := p.Steps[slices.IndexFunc(p.Steps, func(s adjust.Step) bool { return s.Change == n.Change && s.On == n.On })]
		way := "less"
		if (n.By > 0) == (step.Value > 0) {
			way = "more"
		}
		list = append(list, Nudge{
			Step: n.Change + " on " + n.On, By: limits.Bounded(math.Abs(n.By), step.Unit) + " " + way,
			Nearest: tightest(n.Tightest), Kept: n.Tightest.Margin >= 0,
		})
	}
	return list
}

// inPose starts a sentence about one pose, "" being as measured.
func inPose(pose string) string {
	if pose == "" {
		return ""
	}
	return pose + ": "
}

// tightest words the judged quantity with the least room.
func tightest(t adjust.Tightest) string {
	return fmt.Sprintf("%s%s at %s, %s against %s", inPose(t.Pose), t.Quantity, t.Subject,
		limits.Amount(t.Value, t.Unit), limits.Bounded(t.Limit, t.Unit))
}

// ChangeWords words a change and its range, in deg or the unit of lengths.
func ChangeWords(c survey.Change) string {
	step := "any value"
	if c.Step > 0 {
		step = fmt.Sprintf("steps of %.4g", c.Step)
	}
	return fmt.Sprintf("%s(%s): %.4g to %.4g, %s", c.Change, c.On, c.From, c.To, step)
}
