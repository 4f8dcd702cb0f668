package report

import (
	"cmp"
	"html/template"
	"strings"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/limits"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// content is what the page of a report shows beside the tables of its findings.
type content struct {
	*findings.Findings
	Style template.CSS

	Title    string
	Running  string   // at the foot of every sheet, behind a text, else a colon is taken for that of a URL
	Headline string   // the outcome in a few words
	ToFill   []string // by hand
	Measured measured

	Views, Speed template.HTML
	LoadFigure   template.HTML
	SwitchedOff  string // limits that the file switches off
	Change       *change

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

func newContent(f *findings.Findings, version string) (*content, error) {
	p := &content{
		Findings:    f,
		Style:       template.CSS(pageCSS),
		Title:       cmp.Or(f.Survey.Name, "Driveline without a name"),
		Running:     text.Brief(f.Survey.Name, 70),
		Headline:    headlines[f.Judgement.Outcome],
		ToFill:      toFill,
		Measured:    newMeasured(f),
		SwitchedOff: strings.Join(f.Survey.Limits.Off, ", "),
		Cautions:    strings.Split(strings.TrimSpace(findings.Cautions), "\n\n"),
		Version:     version,
	}
	one := f.Case()
	views, err := plotting.Views(one, page.Size{})
	if err != nil {
		return nil, err
	}
	speed, err := plotting.Speed(one, plotting.Driving)
	if err != nil {
		return nil, err
	}
	if p.Views, err = p.inlined("views-", views); err != nil {
		return nil, err
	}
	if p.Speed, err = p.inlined("speed-", speed); err != nil {
		return nil, err
	}
	if f.LoadsKnown() {
		loads, err := plotting.Loads(one, f.Loads)
		if err != nil {
			return nil, err
		}
		if p.LoadFigure, err = p.inlined("loads-", loads); err != nil {
			return nil, err
		}
	}
	p.Change, err = p.newChange()
	return p, err
}

// inlined returns a figure as a part of the page, which says itself which driveline
// it is. Ids in it begin with a prefix.
func (p *content) inlined(prefix string, figure *page.Figure) (template.HTML, error) {
	figure.Subtitle = ""
	size := inlineSize(len(p.Survey.Shafts))
	size.Height += max(0, figure.Size.Height-page.Tall.Height) // of many rows
	figure.Size = size
	image, err := page.Encode(figure, page.SVG, page.Options{Fragment: prefix})
	return template.HTML(image), err
}

// inlineSize is the size of figures on a page, which has an edge of its own.
func inlineSize(shafts int) page.Size {
	size := page.Size{Width: 640, Height: 410, Text: 11}
	for range shafts - 10 { // the names of more need more room
		size.Width += 64
		size.Height += 41
	}
	return size
}
