package guide

import (
	"bytes"
	_ "embed"
	"html/template"
	"strings"

	"gonum.org/v1/plot/vg"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// worksheet is the guidance on paper.
type worksheet struct {
	Style    template.CSS
	Cautions []string
	HowTo    []sheetStep // every kind of reading once
	Sheets   []sheet
}

// sheet is the page of one arrangement.
type sheet struct {
	Arrangement
	Steps []sheetStep
}

// sheetStep is a step with its drawing.
type sheetStep struct {
	Step
	Drawing template.HTML
}

// onPaper are the arrangements that the worksheet has boxes for.
const onPaper = 3

// Worksheet returns a page that stands by itself, to print and to take under the
// vehicle: how to measure, and boxes for one, two and three pieces.
func Worksheet() ([]byte, error) {
	w := worksheet{
		Style:    template.CSS(worksheetCSS),
		Cautions: strings.Split(strings.TrimSpace(findings.Cautions), "\n\n"),
	}
	shape := Arrangements[1].Shape()
	for _, step := range []Step{shape.slope(0), shape.slope(1), shape.length(1), shape.sideways(1), shape.phase(1)} {
		drawing, err := drawn("how-"+step.ID, step.Place, shape.Joints, 300)
		if err != nil {
			return nil, err
		}
		if step.Place == (plotting.Place{What: plotting.MeasuredSlope, Shaft: 1}) {
			step.Notes = nil // as of the slope before
		}
		w.HowTo = append(w.HowTo, sheetStep{step, drawing})
	}
	for _, step := range []Step{shape.ends(), shape.splines(), shape.otherHeight()} {
		w.HowTo = append(w.HowTo, sheetStep{Step: step})
	}
	for _, a := range Arrangements[:onPaper] {
		s, shape := sheet{Arrangement: a}, a.Shape()
		shape.Unit = "" // which it is has a box of its own
		for _, step := range shape.Steps() {
			var drawing template.HTML
			var err error
			if step.Place.What == plotting.MeasuredSlope {
				drawing, err = drawn(a.ID+"-"+step.ID, step.Place, shape.Joints, 190)
			}
			if err != nil {
				return nil, err
			}
			s.Steps = append(s.Steps, sheetStep{step, drawing})
		}
		w.Sheets = append(w.Sheets, s)
	}
	var b bytes.Buffer
	err := worksheetTemplate.Execute(&b, w)
	return b.Bytes(), err
}

// drawn returns the drawing of a place in a width in points, with an id.
func drawn(id string, at plotting.Place, joints []kinematics.Kind, width float64) (template.HTML, error) {
	f, err := plotting.Measure(joints, at)
	if err != nil {
		return "", err
	}
	f.Title = ""
	f.Size.Width, f.Size.Height = vg.Length(width), vg.Length(0.46*width)
	svg, err := page.Encode(f, page.SVG, page.Options{Fragment: id + "-"})
	return template.HTML(strings.Replace(string(svg), `aria-label=""`, `aria-label="where to measure"`, 1)), err
}

//go:embed worksheet.html.tmpl
var worksheetHTML string

//go:embed worksheet.css
var worksheetCSS string

// worksheetTemplate is written as XML, so that its form can be checked.
var worksheetTemplate = template.Must(template.New("worksheet").Parse(worksheetHTML))
