package findings

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
)

// nameWidth is how much of a name fits the first column of a table.
const nameWidth = 20

// Answer is what a person wants to know first, in sentences: the verdict, what is
// left, and what was taken for granted.
func (f *Findings) Answer() []string {
	verdict := f.verdict()
	if cure := f.Judgement.PhaseCure; cure != "" && !f.clocks() {
		verdict += " " + cure
	}
	sentences := []string{verdict, f.Judgement.Left}
	if f.Judgement.Outcome == "" { // what is left is all there is to say
		slices.Reverse(sentences)
	}
	if assumed := f.Judgement.Assumed; assumed != "" {
		sentences = append(sentences, assumed)
	}
	return sentences
}

// verdict is the answer to whether it is fine, in every pose.
func (f *Findings) verdict() string {
	verdict, elsewhere := f.Judgement.Answer, f.elsewhere()
	if len(elsewhere) == 0 {
		return verdict
	}
	if f.Judgement.Outcome == limits.Within {
		return "Fine as measured, but " + inPoses(elsewhere) + ". As measured " + strings.TrimPrefix(verdict, "Fine: ")
	}
	var names []string
	for _, s := range elsewhere {
		names = append(names, s.Pose)
	}
	return verdict + " Not within in other poses: " + strings.Join(names, ", ") + "."
}

// inPoses says of poses why they are not within.
func inPoses(states []adjust.State) string {
	const most = 2
	var list []string
	for _, s := range states[:min(len(states), most)] {
		how := "not"
		if s.Judgement.Outcome == limits.TooClose {
			how = "too close to call"
		}
		list = append(list, fmt.Sprintf("%s in the pose %q: %s", how, s.Pose, s.Judgement.Why))
	}
	if more := len(states) - most; more > 0 {
		list = append(list, "nor in "+text.Count(more, "more pose"))
	}
	return strings.Join(list, "; ")
}

// writeQuestions prints what a person would ask back, if anything.
func (f *Findings) writeQuestions(w io.Writer) {
	for _, q := range f.Questions {
		fmt.Fprint(w, text.Wrap("? ", q))
	}
	if len(f.Questions) > 0 {
		fmt.Fprint(w, "\nAs entered:\n")
	}
}

// writeHead prints the questions, the answer and what cures it.
func (f *Findings) writeHead(w io.Writer) {
	f.writeQuestions(w)
	answer := f.Answer()
	if cure := f.cureLine(); cure != "" {
		answer = slices.Insert(answer, 1, cure)
	}
	f.writeAnswer(w, append(answer, f.LoadSentences()...)...)
}

// WriteShort prints what a technician needs: the answer, the cure, the verdicts that
// are not within and the true angles.
func (f *Findings) WriteShort(w io.Writer) {
	f.writeHead(w)
	f.doubtful().Write(w)
	if f.Judgement.Outcome == limits.TooClose { // else the cure matters more
		writeList(w, f.ToSettle())
	}
	f.PoseTable().Write(w)
	f.Joints().Write(w)
	fmt.Fprint(w, "\n"+text.Wrap("", ShortCaution))
}

// WriteFull prints everything.
func (f *Findings) WriteFull(w io.Writer) {
	f.writeHead(w)
	f.Verdicts().Write(w)
	WriteSources(w, f.Sources())
	writeList(w, f.ToSettle())
	writeList(w, f.Remarks())
	f.PoseTable().Write(w)
	for _, s := range f.Poses {
		fmt.Fprint(w, text.Wrap("  ", fmt.Sprintf("%s: working angles %s", poseName(s), angleList(s.WorkingAngleDeg))))
	}
	f.Joints().Write(w)
	f.Shafts().Write(w)
	f.SecondOrder().Write(w)
	s := f.Analysis.SecondOrder
	fmt.Fprintf(w, "  as one joint at: %s by the sum, %s exactly\n", degrees(s.Equivalent), degrees(s.Exact))
	f.writeLoads(w)
	f.Crossings().Write(w)
	f.Frequencies().Write(w)
	fmt.Fprint(w, "\n"+text.Wrap("", ShortCaution))
}

// writeAnswer prints sentences, and then which driveline they are about.
func (f *Findings) writeAnswer(w io.Writer, sentences ...string) {
	for _, s := range sentences {
		fmt.Fprint(w, text.Wrap("", s))
	}
	if f.Survey.Name != "" {
		fmt.Fprint(w, "\n"+text.Wrap("Driveline: ", f.Survey.Name))
	}
}

// WriteSources prints who prints the limits, numbered from 1.
func WriteSources(w io.Writer, sources []string) {
	for i, source := range sources {
		fmt.Fprint(w, text.Wrap(fmt.Sprintf("  [%d] ", i+1), source))
	}
}

func writeList(w io.Writer, list []string) {
	for _, entry := range list {
		fmt.Fprint(w, text.Wrap("  - ", entry))
	}
}
