package main

import (
	"bytes"
	"cmp"
	"html/template"
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/plotting"
)

// reportPage is what the page of a report shows, in the order of the page.
type reportPage struct {
	Style template.CSS

	Name      string
	Running   string // at the foot of every sheet, behind a text, else a colon is taken for that of a URL
	Note      string
	Headline  string // the outcome in a few words
	Judgement *limits.Judgement
	Left      string
	Elsewhere string   // poses that are not within
	ToFill    []string // by hand

	Measured measured
	Views    template.HTML
	Joints   table
	Speed    template.HTML
	Shafts   table
	HasSpeed bool

	Coverage    float64 // of the intervals, in per cent
	Verdicts    []verdictGroup
	Sources     []string
	SwitchedOff string // limits that the file switches off
	Settlements []string
	Remarks     []string
	Crossings   table

	Correction *correction

	Cautions []string // one paragraph each
	Version  string
}

// toFill are the fields for the hand, as any order form has them.
var toFill = []string{
	"Vehicle or machine", "Order number",
	"Measured by", "Date",
	"Instrument", "Checked by",
	"Signature",
}

// headlines word the outcome of all verdicts together.
var headlines = map[limits.Outcome]string{
	limits.Within:   "Within the limits",
	limits.Over:     "Over a limit",
	limits.Under:    "Under a limit",
	limits.TooClose: "Too close to call",
	"":              "Not judged",
}

// newReportPage returns the page without its correction.
func newReportPage(c *checked) (*reportPage, error) {
	subject, err := plotSubjectOf(c.survey)
	if err != nil {
		return nil, err
	}
	p := &reportPage{
		Style:       template.CSS(reportCSS),
		Name:        cmp.Or(c.survey.Name, "Driveline without a name"),
		Running:     brief(c.survey.Name, 70),
		Note:        c.survey.Note,
		Headline:    headlines[c.judgement.Outcome],
		Judgement:   c.judgement,
		Left:        c.left(),
		ToFill:      toFill,
		Elsewhere:   c.elsewhere(),
		Measured:    newMeasured(c),
		Joints:      c.joints(),
		Shafts:      c.shafts(),
		HasSpeed:    c.rpm > 0,
		Coverage:    100 * limits.Coverage,
		SwitchedOff: strings.Join(c.survey.Limits.Off, ", "),
		Settlements: settlements(c.judgement),
		Remarks:     remarks(c.judgement),
		Crossings:   crossings(c.judgement),
		Cautions:    strings.Split(strings.TrimSpace(cautions), "\n\n"),
		Version:     version(),
	}
	p.Verdicts, p.Sources = groupVerdicts(c.judgement)
	if p.Views, err = inlined("views", subject); err != nil {
		return nil, err
	}
	p.Speed, err = inlined("speed", subject)
	return p, err
}

// inlined returns a figure of a driveline as a part of a page, which says itself
// which driveline it is.
func inlined(name string, subject plotSubject) (template.HTML, error) {
	page, err := subject.draw(name)
	if err != nil {
		return "", err
	}
	page.Subtitle = ""
	page.Size = inlineSize(len(subject.surveys[0].Shafts))
	image, err := plotting.Encode(page, plotting.SVG, plotting.Options{})
	if err != nil {
		return "", err
	}
	// What stands before the element is for files.
	return template.HTML(image[bytes.Index(image, []byte("<svg")):]), nil
}

// inlineSize is the size of figures on a page, which has an edge of its own.
func inlineSize(shafts int) plotting.Size {
	size := plotting.Size{Width: 640, Height: 410, Text: 11}
	for range shafts - 10 { // the names of more need more room
		size.Width += 64
		size.Height += 41
	}
	return size
}
