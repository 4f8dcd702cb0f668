package findings

import (
	"fmt"
	"io"

	"halfturn/cmd/halfturn/text"
)

// nameWidth is how much of a name fits the first column of a table.
const nameWidth = 20

// Answer is what a person wants to know first, in sentences.
func (f *Findings) Answer() []string {
	verdict := f.Judgement.Answer
	if poses := f.elsewhere(); poses != "" {
		verdict += " Not within in other poses: " + poses + "."
	}
	return []string{verdict, f.Left()}
}

// WriteText prints the findings for a person, the answer first.
func (f *Findings) WriteText(w io.Writer) {
	f.writeAnswer(w, append(f.Answer(), f.LoadSentences()...)...)
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
