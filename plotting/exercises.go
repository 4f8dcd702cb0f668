package plotting

import (
	"fmt"

	"gonum.org/v1/plot/vg"

	"halfturn/plotting/page"
)

// ExercisesTitle is what the pages of Exercises are about together.
const ExercisesTitle = "Exercises: what Cardan joints do to rotation"

// Exercises returns a set of pages for a class: one that says what is used, then exercises,
// each with its worked solution on the page behind it. In a document of two pages side by
// side, the first of them alone as in a book, exercise and solution face each other. The
// drivelines are invented; the numbers of the solutions are computed from them.
func Exercises(size page.Size) ([]Page, error) {
	list := exercises()
	introduction, err := list[0].example.analysed()
	if err != nil {
		return nil, err
	}
	pages := []Page{{"introduction", exercisePage(size, ExercisesTitle, "How to read them", introductionText, newAskedViews(introduction).stacked(1))}}
	for i, e := range list {
		c, err := e.example.analysed()
		if err != nil {
			return nil, fmt.Errorf("exercise %s: %w", e.name, err)
		}
		c.RPM = e.rpm
		solution, err := e.solve(c)
		if err != nil {
			return nil, fmt.Errorf("exercise %s: %w", e.name, err)
		}
		asked := []page.Passage{{Heading: "Given", Paragraphs: e.given}, {Heading: "Find", Paragraphs: e.find}}
		pages = append(pages,
			Page{e.name, exercisePage(size, fmt.Sprintf("Exercise %d  %s", i+1, e.title), c.Name, asked, e.views(c))},
			Page{e.name + "-solution", exercisePage(size, fmt.Sprintf("Solution %d  %s", i+1, e.title), c.Name, solution.text, solution.rows)})
	}
	return pages, nil
}

// An exercise is a driveline and what is to be found of it.
type exercise struct {
	name, title string
	example     example
	rpm         float64 // 0: none is given
	given, find []string
	solve       func(*Case) (solution, error)
}

// A solution is what is worked step by step, and the panels that show it.
type solution struct {
	text []page.Passage
	rows []page.Row
}

func exercises() []exercise {
	return []exercise{
		trueAngle(), speedRange(), equalAngles(), bestPhase(), threeArrows(), oddJoint(), peakAcceleration(), secondaryCouple(),
	}
}

// step adds a passage of the working.
func (s *solution) step(heading string, paragraphs ...string) {
	s.text = append(s.text, page.Passage{Heading: heading, Paragraphs: paragraphs})
}

// add adds a panel below those that are there, show one under another title.
func (s *solution) add(p *page.Panel) { s.rows = append(s.rows, page.Row{Panels: []*page.Panel{p}}) }

func (s *solution) show(title string, p *page.Panel) {
	p.Title = title
	s.add(p)
}

// views shows the driveline as it is given: from above too where it is not in one plane.
func (e exercise) views(c *Case) []page.Row {
	d := newAskedViews(c)
	for _, slope := range e.example.slopes {
		if slope[1] != 0 {
			return d.stacked(1)
		}
	}
	return []page.Row{{Panels: []*page.Panel{d.alone()}}}
}

// exercisePage sets text beside panels, at the top of a page.
func exercisePage(size page.Size, title, subtitle string, text []page.Passage, rows []page.Row) *page.Figure {
	const head, row = 6, 0.4 // em, and of the width of the page
	size.Text *= 1.15        // there is room to read and to write
	width := size.Width - 2*size.Border
	size.Used = min(2*size.Border+head*size.Text+row*width*vg.Length(len(rows)), size.Height)
	return &page.Figure{Title: title, Subtitle: subtitle, Text: text, Rows: rows, Legend: page.LegendPanels, Size: size}
}

// formula is a paragraph of a working that is set as a formula.
func formula(format string, args ...any) string { return "\t" + fmt.Sprintf(format, args...) }

// introductionText says what all exercises use.
var introductionText = []page.Passage{
	{Heading: "Two pages each", Paragraphs: []string{
		"Every exercise stands on a left-hand page, its worked solution on the right-hand page beside it: fold one back.",
		"A solution gives the formula, the numbers put in, and the result. What a formula gives to first order in the squares of the angles is marked ≈; the exact result stands beside it.",
	}},
	{Heading: "Signs", Paragraphs: []string{
		signRule + " s is the slope of a shaft in the side view, r its heading in the top view, β a working angle in space.",
		"θ is the rotation of the first shaft, 0° where the ears of its yoke lie level. ψ is the phase of a shaft: how far its driven-end ears are turned from its driving-end ears.",
	}},
	{Heading: "One joint", Paragraphs: []string{
		"φ is how far the driving ears have turned from square to the plane of the two shafts.",
		formula("ω₂/ω₁ = cos β / (1 − sin²β·sin²φ)"),
		formula("α₂/ω₁² = cos β·sin²β·sin 2φ / (1 − sin²β·sin²φ)²"),
	}},
	{Heading: "Several joints, to first order", Paragraphs: []string{
		"Every joint adds an arrow as long as the square of its working angle, in the direction 2Φ. Arrows of joints behind each other in one plane point opposite ways; an arrow turns by twice the phase.",
		formula("2Φ₁ = 0°,  2Φ₂ = 2Φ₁ + 180° + 2ψ₂,  …"),
		"What is left acts as one joint at the equivalent angle, the root of the sum.",
		formula("βₑ ≈ √|Σ β²·(cos 2Φ, sin 2Φ)|"),
		formula("swing ≈ βₑ²,  peak acceleration ≈ ω²·βₑ²"),
	}},
	{Heading: "Torque", Paragraphs: []string{
		"A joint bends the shaft before it by a couple that comes and goes twice a turn, between nothing and this:",
		formula("c = T·tan β"),
	}},
}
