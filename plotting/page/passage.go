package page

import (
	"strings"

	"gonum.org/v1/plot/vg"
)

// A Passage is a piece of text: a heading, and paragraphs below it. A paragraph that begins
// with a tab is a formula: indented, and in the colour of names.
type Passage struct {
	Heading    string // may be empty
	Paragraphs []string
}

// passages returns a column of text of a width.
func passages(l Letters, list []Passage, width vg.Length) block {
	em := l.Em()
	var column []block
	for _, p := range list {
		parts := []block{paragraph(l.Heading, p.Heading, width)}
		for _, text := range p.Paragraphs {
			if formula, ok := strings.CutPrefix(text, "\t"); ok {
				parts = append(parts, paragraph(l.Name, formula, width-em).indented(em))
			} else {
				parts = append(parts, paragraph(l.Caption, text, width))
			}
		}
		column = append(column, stack(0.25*em, parts...))
	}
	return stack(0.9*em, column...)
}

// indented returns the block moved to the right.
func (b block) indented(by vg.Length) block {
	if b.empty() {
		return b
	}
	return block{width: b.width + by, height: b.height, draw: func(c vg.Canvas, at vg.Point) {
		b.draw(c, vg.Point{X: at.X + by, Y: at.Y})
	}}
}
