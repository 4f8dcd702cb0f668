package plotting

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A Mark is one point with a name beside it, inside the data area.
type Mark struct {
	At     XY
	Text   string
	Side   Side // where the text stands; it changes sides rather than leave the data area
	Color  color.Color
	Marker draw.GlyphDrawer
}

func (m Mark) check() error {
	if sum := m.At.X + m.At.Y; math.IsNaN(sum) || math.IsInf(sum, 0) {
		return fmt.Errorf("mark %q: at (%g, %g): want finite values", m.Text, m.At.X, m.At.Y)
	}
	if m.Color == nil || m.Marker == nil {
		return fmt.Errorf("mark %q: no colour or no marker: want both", m.Text)
	}
	return nil
}

func (m Mark) reach(add func(x, y float64)) {
	add(m.At.X, m.At.Y)
}

func (m Mark) draw(s *Sketch) {
	p := s.At(m.At)
	if !s.Contains(p) {
		return
	}
	s.letters.marker(s.Canvas, m.Color, m.Marker, p)
	s.Text(m.At, m.side(s, p), m.Text)
}

// side returns the wanted side, turned over where the text would leave the data area.
func (m Mark) side(s *Sketch, p vg.Point) Side {
	side := m.Side
	width := s.letters.name.width(clean(m.Text))
	switch {
	case side.dx > 0 && p.X+s.Em()+width > s.Max.X, side.dx == 0 && p.X+width/2 > s.Max.X:
		side.dx = -1
	case side.dx < 0 && p.X-s.Em()-width < s.Min.X, side.dx == 0 && p.X-width/2 < s.Min.X:
		side.dx = 1
	}
	if (side.dy > 0 && p.Y+1.5*s.Em() > s.Max.Y) || (side.dy < 0 && p.Y-1.5*s.Em() < s.Min.Y) {
		side.dy = -side.dy
	}
	return side
}
