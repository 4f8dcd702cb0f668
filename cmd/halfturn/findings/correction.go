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

// Cure is what to change, in plain sentences. A Correction must be there.
func (f *Findings) Cure() string { return f.Correction.Answer() }

// cureLine is what to change, where a check has looked for it; "" where nothing needs
// to be changed and that goes without saying.
func (f *Findings) cureLine() string {
	switch r := f.Correction; {
	case f.hurried():
		return "What to change takes longer to find: halfturn adjust does."
	case f.NoCorrection != nil:
		reason, _, _ := strings.Cut(f.NoCorrection.Error(), "\n")
		return "What to change cannot be worked out: " + reason + "."
	case r == nil, f.Judgement.Outcome == limits.Within && len(r.Plans) == 0:
		return ""
	}
	return f.Cure()
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
	if p.Brings() == "" {
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
			Nearest: n.Tightest.String(), Kept: n.Tightest.Margin >= 0,
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

// ChangeWords words a change and its range, in deg or the unit of lengths.
func ChangeWords(c survey.Change) string {
	return fmt.Sprintf("%s(%s): %.4g to %.4g, steps of %.4g", c.Change, c.On, c.From, c.To, c.Step)
}
