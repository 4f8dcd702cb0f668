package main

import (
	"fmt"
	"io"
	"strings"

	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// writeAdjust prints what can be done about a driveline: the answer first.
func writeAdjust(w io.Writer, sv *survey.Survey, r *adjust.Result) {
	fmt.Fprintf(w, "%s\n\n%s", sv.Name, wrap(adjustAnswer(r), ""))
	writeComparison(w, r)
	for i := range r.Plans {
		writePlan(w, fmt.Sprintf("Plan %d", i+1), r.Before, &r.Plans[i])
	}
	if r.Needed != nil {
		writePlan(w, "What would do, beyond the ranges", r.Before, r.Needed)
	}
	writeTried(w, r)
	fmt.Fprint(w, "\n"+wrap(shortCaution+" Measure again after every change.", ""))
}

// writeComparison sets the plans side by side with the driveline as it is.
func writeComparison(w io.Writer, r *adjust.Result) {
	if len(r.Plans) == 0 {
		return
	}
	t := table{[]string{"plan", "verdict", "as one joint at", "left rad/s²"}}
	t = append(t, comparisonState("as measured", r.Before[0], r.Before[0].Judgement.Outcome))
	for i, p := range r.Plans {
		t = append(t, comparisonState(fmt.Sprintf("%d  %s", i+1, p.Kind()), p.After[0], p.Outcome))
	}
	if r.Before[0].Judgement.RPM == 0 {
		for i := range t {
			t[i] = t[i][:3]
		}
	}
	fmt.Fprintln(w, "\nPlans that differ in kind, the best first")
	t.write(w)
}

func comparisonState(name string, s adjust.State, o limits.Outcome) []string {
	return []string{brief(name, 40), verdictWord(o), fmt.Sprintf("%.2f°", s.EquivalentAngleDeg), short(s.ResidualAccelRadS2)}
}

// adjustAnswer is the result in a sentence.
func adjustAnswer(r *adjust.Result) string {
	switch {
	case r.Fine:
		return "Nothing needs to be changed: every verdict is within."
	case len(r.Plans) == 0:
		return "Nothing that can be changed helps."
	}
	best := &r.Plans[0]
	switch best.Outcome {
	case limits.Within:
		return "Best: " + instructions(best) + ". That brings it within every limit, whatever the reading errors."
	case limits.TooClose:
		return "Best: " + instructions(best) + ". That brings it within every limit as measured, but the reading errors leave a doubt."
	default:
		return "No change within reach brings it within every limit. Nearest: " + instructions(best) + "."
	}
}

func instructions(p *adjust.Plan) string {
	var texts []string
	for _, s := range p.Steps {
		texts = append(texts, s.Instruction)
	}
	return strings.Join(texts, "; ")
}

// writePlan prints one plan, with every pose before and after it.
func writePlan(w io.Writer, title string, before []adjust.State, p *adjust.Plan) {
	fmt.Fprintf(w, "\n%s: %s - %s\n", title, p.Kind(), p.Outcome)
	for _, s := range p.Steps {
		fmt.Fprint(w, wrap("- "+s.Instruction, "  "))
	}
	for i, after := range p.After {
		fmt.Fprint(w, wrap(fmt.Sprintf("%sworking angles %s (were %s)", inPose(after.Pose),
			angleList(after.WorkingAngleDeg), angleList(before[i].WorkingAngleDeg)), "  "))
	}
	fmt.Fprint(w, wrap("least room: "+tightest(p.Tightest), "  "))
	writeBreaches(w, p.Breaks)
	for _, n := range p.Nudges {
		what := "keeps every limit as measured"
		if n.Tightest.Margin < 0 {
			what = "breaks the " + tightest(n.Tightest)
		}
		fmt.Fprint(w, wrap(fmt.Sprintf("half a step off, %s %+.4g %s: %s", n.Change, n.By, changeUnit(p, n), what), "  "))
	}
}

// mostBreaches is how many verdicts that are not within are told of one plan.
const mostBreaches = 3

func writeBreaches(w io.Writer, breaks []adjust.Breach) {
	for i, b := range breaks {
		if i == mostBreaches {
			fmt.Fprintf(w, "  and %d more that are not within\n", len(breaks)-i)
			return
		}
		fmt.Fprint(w, wrap(fmt.Sprintf("%s: %s%s", b.Outcome, inPose(b.Pose), b.Verdict), "  "))
	}
}

// inPose starts a sentence about one pose, "" being as measured.
func inPose(pose string) string {
	if pose == "" {
		return ""
	}
	return pose + ": "
}

// changeUnit is the unit of a nudge: that of the step it belongs to.
func changeUnit(p *adjust.Plan, n adjust.Nudge) string {
	for _, s := range p.Steps {
		if s.Change == n.Change && s.On == n.On {
			return s.Unit
		}
	}
	return ""
}

func angleList(deg []float64) string {
	var texts []string
	for _, a := range deg {
		texts = append(texts, fmt.Sprintf("%.2f°", a))
	}
	return strings.Join(texts, ", ")
}

// tightest words the judged quantity with the least room.
func tightest(t adjust.Tightest) string {
	return fmt.Sprintf("%s%s of %s, %s against %s", inPose(t.Pose), t.Quantity, t.Subject, quantity(t.Value, t.Unit), bound(t.Limit, t.Unit))
}

// writeTried prints what was looked at and taken for granted.
func writeTried(w io.Writer, r *adjust.Result) {
	if len(r.Changes) > 0 {
		title := "Changes tried, of the file"
		if r.Assumed {
			title = "Changes tried, by common practice since the file names none"
		}
		fmt.Fprintf(w, "\n%s (%d combinations)\n", title, r.Tried)
		for _, ch := range r.Changes {
			fmt.Fprintln(w, "  "+triedChange(ch))
		}
	}
	for _, refused := range r.Refused {
		fmt.Fprint(w, wrap("- not tried: "+refused, "  "))
	}
	for _, remark := range r.Remarks {
		fmt.Fprint(w, wrap("- "+remark, "  "))
	}
}

// triedChange words a change and its range, in deg or the unit of lengths.
func triedChange(c survey.Change) string {
	step := "any value"
	if c.Step > 0 {
		step = fmt.Sprintf("steps of %.4g", c.Step)
	}
	return fmt.Sprintf("%s(%s): %.4g to %.4g, %s", c.Change, c.On, c.From, c.To, step)
}
