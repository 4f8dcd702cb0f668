package plotting

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A tag is a name with values that belong to a place in a drawing.
type tag struct {
	at     vg.Point
	name   string
	values []string
}

// writeTags writes tags side by side in a row above (up = 1) or below (up = −1) their places and the points of a drawing,
// tied to their places by thin lines. Names are left out where all do not fit.
func (s *Sketch) writeTags(up vg.Length, tags []tag, drawing []vg.Point) {
	const gap, clear, lead = 1.2, 1.5, 2.5 // in em: between tags, from a place to its line, from a place to the row
	blocks := s.tagBlocks(tags, gap*s.Em())
	wanted, sizes := make([]vg.Length, len(tags)), make([]vg.Length, len(tags))
	var height vg.Length
	row := s.Min.Y // the edge of the row that faces the drawing
	if up < 0 {
		row = s.Max.Y
	}
	for i, t := range tags {
		wanted[i], sizes[i] = t.at.X, blocks[i].width+gap*s.Em()
		height = max(height, blocks[i].height)
		row = up * max(up*row, up*t.at.Y+(clear+lead)*s.Em())
	}
	for _, p := range drawing {
		row = up * max(up*row, up*p.Y+clear*s.Em())
	}
	row = max(min(row, s.Max.Y-height), s.Min.Y+height)

	pen := s.letters.scaled(draw.LineStyle{Color: Line, Width: 0.6})
	half := gap / 2 * s.Em()
	for i, x := range spread(wanted, sizes, s.Min.X-half, s.Max.X+half) {
		place := tags[i].at
		place.Y += up * clear * s.Em()
		s.StrokeLines(pen, []vg.Point{{X: x, Y: row}, place})
		top := row
		if up > 0 {
			top += blocks[i].height
		}
		blocks[i].draw(s, vg.Point{X: x - blocks[i].width/2, Y: top - 0.1*s.Em()})
	}
}

// tagBlocks returns the tags set in lines, all with their names if they fit side by side, else all without.
func (s *Sketch) tagBlocks(tags []tag, gap vg.Length) []block {
	full, bare := make([]block, len(tags)), make([]block, len(tags))
	room := s.Size().X + gap
	for i, t := range tags {
		bare[i] = s.centred(s.letters.name, t.values...)
		full[i] = bare[i]
		if t.name != "" {
			full[i] = stackCentred(s.centred(s.letters.caption, t.name), bare[i])
		}
		room -= full[i].width + gap
	}
	if room < 0 {
		return bare
	}
	return full
}

// centred sets lines one below the other about their middle.
func (s *Sketch) centred(l lettering, lines ...string) block {
	b := block{height: vg.Length(len(lines)) * l.line()}
	for _, line := range lines {
		b.width = max(b.width, l.width(line))
	}
	b.draw = func(c vg.Canvas, at vg.Point) {
		for i, line := range lines {
			l.draw(c, vg.Point{X: at.X + b.width/2, Y: at.Y - vg.Length(i)*l.line()}, atMiddle, atEnd, line)
		}
	}
	return b
}

// stackCentred sets one block below another about their middle.
func stackCentred(upper, lower block) block {
	b := block{width: max(upper.width, lower.width), height: upper.height + lower.height}
	b.draw = func(c vg.Canvas, at vg.Point) {
		upper.draw(c, vg.Point{X: at.X + (b.width-upper.width)/2, Y: at.Y})
		lower.draw(c, vg.Point{X: at.X + (b.width-lower.width)/2, Y: at.Y - upper.height})
	}
	return b
}
