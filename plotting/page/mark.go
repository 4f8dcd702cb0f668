package page

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A Mark is one point with a name beside it, inside the data area.
type Mark struct {
	At     plotter.XY
	Text   string
	Side   Side // where the text stands; it changes sides rather than leave the data area or cover lines
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
	s.marker(s.Canvas, m.Color, m.Marker, p)
	if text := clean(m.Text); text != "" {
		side := s.clearest(m.At, m.Side, text)
		s.Text(m.At, side, text)
		s.avoid(outlined(s.textBox(m.At, side, text)))
	}
}

// lines returns the edge of the marker.
func (m Mark) lines(s *Sketch) [][]vg.Point {
	p, half := s.At(m.At), markerRadius*s.Em()
	return [][]vg.Point{outlined(vg.Rectangle{Min: vg.Point{X: p.X - half, Y: p.Y - half}, Max: vg.Point{X: p.X + half, Y: p.Y + half}})}
}

// Plot implements plot.Plotter.
func (m Mark) Plot(dc draw.Canvas, p *plot.Plot) { plotOn(m, dc, p) }

// DataRange implements plot.DataRanger.
func (m Mark) DataRange() (xmin, xmax, ymin, ymax float64) { return rangeOf(m) }
