package report

import (
	"cmp"
	"html/template"
	"strings"

	"gonum.org/v1/plot/vg"

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

	Views, LeftFigure, LoadFigure template.HTML

	SwitchedOff string // limits that the file switches off
	Change      *change

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
	if f.Judgement.Outcome == limits.Within && !f.Within() {
		p.Headline += " as measured, not in every pose"
	}
	p.Change = p.newChange()
	return p, p.draw()
}

// draw draws the figures of the page.
func (p *content) draw() error {
	one := p.Case()
	figures := []struct {
		into   *template.HTML
		prefix string
		height vg.Length
		draw   func() (*page.Figure, error)
	}{
		{&p.Views, "views-", 265, func() (*page.Figure, error) { return plotting.Views(one, page.Size{}) }},
		{&p.LeftFigure, "left-", 265, p.leftFigure},
		{&p.LoadFigure, "loads-", 410, func() (*page.Figure, error) { return plotting.Loads(one, p.Loads, page.Size{}) }},
	}
	if len(p.Bearings().Rows) == 0 {
		figures = figures[:2]
	}
	for _, f := range figures {
		figure, err := f.draw()
		if err == nil {
			*f.into, err = p.inlined(f.prefix, f.height, figure)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// inlined returns a figure as a part of the page, which says itself what it shows, and
// of which driveline. Ids in it begin with a prefix.
func (p *content) inlined(prefix string, height vg.Length, figure *page.Figure) (template.HTML, error) {
	figure.Title, figure.Subtitle = "", ""
	size := inlineSize(height, len(p.Survey.Shafts))
	size.Height += max(0, figure.Size.Height-page.Tall.Height) // of many rows
	figure.Size = size
	image, err := page.Encode(figure, page.SVG, page.Options{Fragment: prefix})
	return template.HTML(image), err
}

// inlineSize is the size of figures on a page, which has an edge of its own. More
// shafts have longer legends and more names.
func inlineSize(height vg.Length, shafts int) page.Size {
	const few, many = 3, 10
	size := page.Size{Width: 640, Height: height, Text: 10}
	size.Height += vg.Length(12 * max(0, shafts-few))
	for range shafts - many {
		size.Width += 64
		size.Height += 41
	}
	return size
}
