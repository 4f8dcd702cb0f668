package plotting

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A Curve is a line through points, or markers at them, or both.
type Curve struct {
	Name   string // in the legend; empty: no entry
	X, Y   []float64
	Pen    draw.LineStyle   // Pen(i), Accent(), Aid() or Limit(); with a width of 0 only markers are drawn
	Marker draw.GlyphDrawer // at every point, in the colour of the pen; nil: none
	End    string           // short label at the right end, beside the data area; left out where all do not fit
}

// check refuses what would be drawn wrongly; NaN is a gap in the curve.
func (c Curve) check() error {
	if len(c.X) != len(c.Y) {
		return c.fault("%d x values and %d y values: want the same number", len(c.X), len(c.Y))
	}
	points := 0
	for i := range c.X {
		if math.IsInf(c.X[i], 0) || math.IsInf(c.Y[i], 0) {
			return c.fault("point %d: (%g, %g): want finite values, or NaN for a gap", i+1, c.X[i], c.Y[i])
		}
		if !math.IsNaN(c.X[i]) && !math.IsNaN(c.Y[i]) {
			points++
		}
	}
	if points == 0 {
		return c.fault("no points: want at least one")
	}
	if c.Pen.Color == nil {
		return c.fault("no pen: want Pen, Accent, Aid or Limit")
	}
	return nil
}

func (c Curve) fault(format string, args ...any) error {
	return fmt.Errorf("curve %q: "+format, append([]any{c.Name}, args...)...)
}

func (c Curve) reach(add func(x, y float64)) {
	for i, x := range c.X {
		if y := c.Y[i]; !math.IsNaN(x) && !math.IsNaN(y) {
			add(x, y)
		}
	}
}

func (c Curve) draw(s *Sketch) {
	pen := s.letters.scaled(c.Pen)
	for _, run := range c.runs(s) {
		switch {
		case len(run) > 1 && pen.Width > 0:
			s.StrokeLines(pen, s.ClipLinesXY(run)...)
		case len(run) == 1 && c.Marker == nil: // a point between two gaps is no line, but it is there
			s.DrawGlyph(draw.GlyphStyle{Color: pen.Color, Radius: pen.Width, Shape: draw.CircleGlyph{}}, run[0])
		}
		if c.Marker == nil {
			continue
		}
		for _, p := range run {
			if s.Contains(p) {
				s.letters.marker(s.Canvas, pen.Color, c.Marker, p)
			}
		}
	}
}

func (c Curve) lines(s *Sketch) [][]vg.Point { return c.runs(s) }

// runs returns the points on the page, parted at gaps.
func (c Curve) runs(s *Sketch) [][]vg.Point {
	var runs [][]vg.Point
	inside := false
	for i, x := range c.X {
		p := s.place(XY{x, c.Y[i]})
		if math.IsNaN(float64(p.X)) || math.IsNaN(float64(p.Y)) {
			inside = false
			continue
		}
		if !inside {
			runs = append(runs, nil)
			inside = true
		}
		last := &runs[len(runs)-1]
		*last = append(*last, p)
	}
	return runs
}

func (c Curve) keys() []Key {
	if c.Name == "" {
		return nil
	}
	return []Key{{Name: c.Name, Pen: c.Pen, Marker: c.Marker}}
}

func (c Curve) sideLabels() []label {
	if c.End == "" {
		return nil
	}
	last := len(c.X) - 1
	for math.IsNaN(c.X[last]) || math.IsNaN(c.Y[last]) {
		last--
	}
	return []label{{at: c.Y[last], text: c.End, pen: c.Pen, extra: true}}
}
