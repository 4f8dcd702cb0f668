package page

import (
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// avoid adds lines for texts to keep off to those of the layers.
func (s *Sketch) avoid(lines ...[]vg.Point) {
	for _, l := range s.layers {
		if l, ok := l.(lined); ok {
			s.occupied = append(s.occupied, l.lines(s)...)
		}
	}
	s.layers = nil
	s.occupied = append(s.occupied, lines...)
}

// clearest returns the side of a point on which a text stays in the data area and covers
// least of the lines to avoid: the wanted side, unless another is better, or else the
// wanted half to the left or right.
func (s *Sketch) clearest(at plotter.XY, wanted Side, text string) Side {
	s.avoid()
	best, least := wanted, s.covered(at, wanted, text)
	turned := Side{wanted.dx, -wanted.dy}
	for _, side := range []Side{turned, {wanted.dx, 0}, RightAbove, RightBelow, LeftAbove, LeftBelow, Above, Below, Right, Left} {
		if covered := s.covered(at, side, text); covered < least {
			best, least = side, covered
		}
	}
	return best
}

// covered returns the length of the lines that a text would cover, infinite if it would
// leave the data area.
func (s *Sketch) covered(at plotter.XY, side Side, text string) vg.Length {
	box := s.textBox(at, side, text)
	if !s.Contains(box.Min) || !s.Contains(box.Max) {
		return vg.Length(math.Inf(1))
	}
	var sum vg.Length
	for _, piece := range (&draw.Canvas{Canvas: s.Canvas.Canvas, Rectangle: box}).ClipLinesXY(s.occupied...) {
		for i := 1; i < len(piece); i++ {
			sum += separation(piece[i-1], piece[i])
		}
	}
	return sum
}

// textBox returns the place of a text that Text writes.
func (s *Sketch) textBox(at plotter.XY, side Side, text string) vg.Rectangle {
	return s.Name.ground(s.Beside(at, side, 0.5), (1-side.dx)/2, (1-side.dy)/2, text)
}

// outlined returns the edge of a rectangle as a line to avoid.
func outlined(r vg.Rectangle) []vg.Point {
	return []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}, r.Min}
}
