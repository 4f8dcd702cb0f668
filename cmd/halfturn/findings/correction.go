package findings

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// Cure is what to change, in plain sentences. A Correction must be there.
func (f *Findings) Cure() string {
	if nothing := f.nothingYet(); nothing != "" {
		return nothing
	}
	return f.Correction.Answer()
}

// nothingYet says why nobody changes anything although something is in doubt: a reading
// is wrong, joints are nearly too straight and no more, or it is the gauge that is too
// coarse for what is fine as measured. "" where that is not so.
func (f *Findings) nothingYet() string {
	if f.Judgement.Outcome != limits.TooClose {
		return ""
	}
	ways, fine := map[limits.Way]bool{}, true
	for _, v := range f.Judgement.Verdicts {
		if v.Settle != nil {
			ways[v.Settle.Way], fine = true, fine && v.Settle.Kept
		}
	}
	switch {
	case ways[limits.ReadAnew]:
		return "Change nothing before that is read anew."
	case ways[limits.LeaveAlone] && len(ways) == 1 && f.Correction.Fine: // in other poses, too
		return "Nothing needs to be changed."
	case ways[limits.FinerGauge] && fine && f.Correction.Fine:
		return "No limit is known to be broken: change nothing before that is read with a finer gauge."
	default:
		return ""
	}
}

// cureLine is what to change, where a check has looked for it; "" where nothing needs
// to be changed and that goes without saying.
func (f *Findings) cureLine() string {
	switch r := f.Correction; {
	case f.hurried():
		return "What to change takes longer to find: halfturn adjust does."
	case f.NoCorrection != nil:
		reason, _, _ := strings.Cut(f.NoCorrection.Error(), "\n")
		return "What to change cannot be worked out: " + reason + "."
	case r == nil, r.Fine && f.Judgement.Outcome == limits.Within && len(r.Plans) == 0:
		return ""
	}
	return f.Cure()
}

// Serves says which poses the correction is for, where there are others, up to how
// those are asked for; "" where there are none.
func (f *Findings) Serves() string {
	switch r := f.Correction; {
	case r == nil || r.OtherPoses == 0:
		return ""
	case len(r.Before) > 1:
		return "This is for the driveline as measured and in the poses in which it cruises"
	default:
		return "This is for the driveline as measured"
	}
}

// nudge is what becomes of a plan when one step is made half a step less or more.
type nudge struct {
	Step, By string
	Nearest  string // limit then
	Kept     bool
}

// nudges words what half a step does; nothing for a plan that breaks a limit
// anyhow.
func nudges(p *adjust.Plan) []nudge {
	if p.Brings() == "" || p.Tightest.Margin < 0 || len(p.Missing) > 0 {
		return nil
	}
	var list []nudge
	for _, n := range p.Nudges {
		step := p.Steps[slices.IndexFunc(p.Steps, func(s adjust.Step) bool { return s.Change == n.Change && s.On == n.On })]
		way := "less"
		if (n.By > 0) == (step.Value > 0) {
			way = "more"
		}
		list = append(list, nudge{
			Step: n.Change + " on " + n.On, By: limits.Bounded(math.Abs(n.By), step.Unit) + " " + way,
			Nearest: n.Tightest.String(), Kept: n.Tightest.Margin >= 0,
		})
	}
	return list
}

// Closely says which steps of a plan must be made more closely than to half a step;
// one sentence where none must, none for a plan that breaks a limit anyhow.
func Closely(p *adjust.Plan) []string {
	all := nudges(p)
	var list []string
	for _, n := range all {
		if !n.Kept {
			list = append(list, fmt.Sprintf("Half a step off, %s %s, breaks the %s.", n.Step, n.By, n.Nearest))
		}
	}
	if len(all) > 0 && len(list) == 0 {
		list = []string{"Half a step less or more keeps every limit as measured."}
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
	number := func(v float64) string { return text.Minus(fmt.Sprintf("%.4g", v)) }
	return fmt.Sprintf("%s(%s): %s to %s, steps of %s", c.Change, c.On, number(c.From), number(c.To), number(c.Step))
}

// clocks reports whether the best plan turns a yoke, so that the cure of a phase is
// part of it.
func (f *Findings) clocks() bool {
	return f.Correction != nil && len(f.Correction.Plans) > 0 && f.Correction.Plans[0].Makes(survey.ChangeClocking)
}
