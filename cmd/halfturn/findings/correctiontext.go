package findings

import (
	"fmt"
	"io"
	"math"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
)

// WriteCorrection prints what can be done about the driveline, the answer first. A
// Correction must be there.
func (f *Findings) WriteCorrection(w io.Writer) {
	r := f.Correction
	answer := []string{f.Cure()}
	f.writeQuestions(w)
	if serves := f.Serves(); serves != "" {
		answer = append(answer, serves+"; --all-poses looks for what serves in the others too.")
	}
	f.writeAnswer(w, answer...)
	f.Plans().Write(w)
	for i := range r.Plans {
		writePlan(w, fmt.Sprintf("Plan %d", i+1), r, &r.Plans[i])
	}
	if r.Needed != nil {
		writePlan(w, "What it would take, "+r.BeyondReach(), r, r.Needed)
	}
	if !r.Fine || len(r.Plans) > 0 {
		f.writeTried(w)
	}
	fmt.Fprint(w, "\n"+text.Wrap("", ShortCaution+" Measure again after every change."))
}

// Plans is the table that sets the plans side by side with the driveline as it is;
// empty without a plan.
func (f *Findings) Plans() Table {
	t := Table{
		Title: "Plans that differ in kind, the best first", Names: []int{36},
		Head: []string{"plan", "as one joint at", "left rad/s²", "verdict"},
	}
	r := f.Correction
	if r == nil || len(r.Plans) == 0 {
		return t
	}
	add := func(name string, s adjust.State, o limits.Outcome) {
		t.addVerdict(o, name, inDegrees(s.ExactEquivalentDeg), residual(s))
	}
	add("as measured", r.Before[0], r.Before[0].Judgement.Outcome)
	for i, p := range r.Plans {
		add(fmt.Sprintf("%d  %s", i+1, p.Kind()), p.After[0], p.Outcome)
	}
	return t.Used()
}

// writePlan prints one plan, with every pose before and after it.
func writePlan(w io.Writer, title string, r *adjust.Result, p *adjust.Plan) {
	fmt.Fprintf(w, "\n%s: %s - %s\n", title, p.Kind(), p.Outcome)
	for _, s := range p.Steps {
		fmt.Fprint(w, text.Wrap("  - ", s.Instruction))
	}
	for i, after := range p.After {
		fmt.Fprint(w, text.Wrap("  ", fmt.Sprintf("%sworking angles %s (were %s)", inPose(after.Pose),
			angleList(after.WorkingAngleDeg), angleList(r.Before[i].WorkingAngleDeg))))
	}
	for _, note := range r.Notes(p) {
		fmt.Fprint(w, text.Wrap("  ", note))
	}
	if p.Tightest != (adjust.Tightest{}) {
		fmt.Fprint(w, text.Wrap("  ", "least room: "+p.Tightest.String()))
	}
	writeBreaches(w, p.Breaks)
	for _, sentence := range Closely(p) {
		fmt.Fprint(w, text.Wrap("  ", sentence))
	}
}

// mostBreaches is how many verdicts that are not within are told of one plan.
const mostBreaches = 3

func writeBreaches(w io.Writer, breaks []adjust.Breach) {
	for i, b := range breaks {
		if i == mostBreaches {
			fmt.Fprintf(w, "  and %d more not within\n", len(breaks)-i)
			return
		}
		fmt.Fprint(w, text.Wrap("  ", fmt.Sprintf("%s: %s%s", b.Outcome, inPose(b.Pose), b.Verdict)))
	}
}

// writeTried prints what was looked at and taken for granted.
func (f *Findings) writeTried(w io.Writer) {
	r := f.Correction
	fmt.Fprintf(w, "\nChanges tried, in deg and %s: %s\n", f.Survey.Units, text.Count(r.Tried, "combination"))
	for _, ch := range r.Changes {
		fmt.Fprintln(w, "  "+ChangeWords(ch))
	}
	for _, refused := range r.Refused {
		fmt.Fprint(w, text.Wrap("  - ", "not tried: "+refused))
	}
	writeList(w, r.Remarks)
}

// BeforeAfter is the table of what a plan does to the driveline as measured.
func (f *Findings) BeforeAfter(p *adjust.Plan) Table {
	t := Table{Title: "Before and after", Head: []string{"", "as measured", "corrected"}, Names: []int{0}}
	before, after := f.Correction.Before[0], p.After[0]
	for k, j := range f.Survey.Joints {
		t.Add("working angle at "+j.Name, inDegrees(before.WorkingAngleDeg[k]), inDegrees(after.WorkingAngleDeg[k]))
	}
	last := f.Survey.Shafts[len(f.Survey.Shafts)-1].Name
	t.Add("left at "+last+", as one joint at", inDegrees(before.ExactEquivalentDeg), inDegrees(after.ExactEquivalentDeg))
	t.Add("left at "+last+", of the speed", leftSwing(before), leftSwing(after))
	if f.rpm() > 0 {
		t.Add("left at "+last+", peak acceleration", acceleration(before.ResidualAccelRadS2), acceleration(after.ResidualAccelRadS2))
	}
	if swing, ok := before.BearingSwingN(); ok {
		then, _ := after.BearingSwingN()
		t.Add("centre bearing shaken "+f.perTorque(), "±"+newtons(swing), "±"+newtons(then))
	}
	t.Add("verdict", string(before.Judgement.Outcome), string(p.Outcome))
	return t
}

// leftSwing prints between which ends the speed of the last shaft goes, which turns as
// one joint would.
func leftSwing(s adjust.State) string {
	lowest := math.Cos(s.ExactEquivalentDeg * kinematics.Degree)
	return span(lowest, 1/lowest)
}
