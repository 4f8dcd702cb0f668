package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// writeAdjust prints what can be done about a driveline: the answer first.
func writeAdjust(w io.Writer, sv *survey.Survey, r *adjust.Result) {
	answer := []string{adjustAnswer(r)}
	if len(sv.Poses) > 0 && len(r.Before) == 1 {
		answer = append(answer, "This is for the driveline as measured; --all-poses looks for what serves in its other poses too.")
	}
	writeAnswer(w, sv.Name, answer...)
	writeComparison(w, r)
	for i := range r.Plans {
		writePlan(w, fmt.Sprintf("Plan %d", i+1), r.Before, &r.Plans[i])
	}
	if r.Needed != nil {
		writePlan(w, "What would do, beyond the ranges", r.Before, r.Needed)
	}
	if !r.Fine {
		writeTried(w, sv, r)
	}
	fmt.Fprint(w, "\n"+wrap("", shortCaution+" Measure again after every change."))
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
	return []string{brief(name, 36), verdictWord(o), inDegrees(s.EquivalentAngleDeg), short(s.ResidualAccelRadS2)}
}

// writePlan prints one plan, with every pose before and after it.
func writePlan(w io.Writer, title string, before []adjust.State, p *adjust.Plan) {
	fmt.Fprintf(w, "\n%s: %s - %s\n", title, p.Kind(), p.Outcome)
	for _, s := range p.Steps {
		fmt.Fprint(w, wrap("  - ", s.Instruction))
	}
	for i, after := range p.After {
		fmt.Fprint(w, wrap("  ", fmt.Sprintf("%sworking angles %s (were %s)", inPose(after.Pose),
			angleList(after.WorkingAngleDeg), angleList(before[i].WorkingAngleDeg))))
	}
	fmt.Fprint(w, wrap("  ", "least room: "+tightest(p.Tightest)))
	writeBreaches(w, p.Breaks)
	writeNudges(w, p)
}

// mostBreaches is how many verdicts that are not within are told of one plan.
const mostBreaches = 3

func writeBreaches(w io.Writer, breaks []adjust.Breach) {
	for i, b := range breaks {
		if i == mostBreaches {
			fmt.Fprintf(w, "  and %d more not within\n", len(breaks)-i)
			return
		}
		fmt.Fprint(w, wrap("  ", fmt.Sprintf("%s: %s%s", b.Outcome, inPose(b.Pose), b.Verdict)))
	}
}

// writeNudges prints which steps must be made more closely than to half a step.
func writeNudges(w io.Writer, p *adjust.Plan) {
	all := nudges(p)
	kept := func(n nudge) bool { return n.Kept }
	if len(all) > 0 && !slices.ContainsFunc(all, func(n nudge) bool { return !n.Kept }) {
		fmt.Fprintln(w, "  half a step less or more keeps every limit as measured")
		return
	}
	for _, n := range slices.DeleteFunc(all, kept) {
		fmt.Fprint(w, wrap("  ", fmt.Sprintf("half a step off, %s %s, breaks the %s", n.Step, n.By, n.Nearest)))
	}
}

// writeTried prints what was looked at and taken for granted.
func writeTried(w io.Writer, sv *survey.Survey, r *adjust.Result) {
	fmt.Fprintf(w, "\nChanges tried, in deg and %s: %s\n", cmp.Or(sv.Units, survey.Millimetre), count(r.Tried, "combination"))
	for _, ch := range r.Changes {
		fmt.Fprintln(w, "  "+triedChange(ch))
	}
	for _, refused := range r.Refused {
		fmt.Fprint(w, wrap("  - ", "not tried: "+refused))
	}
	for _, remark := range r.Remarks {
		fmt.Fprint(w, wrap("  - ", remark))
	}
}
