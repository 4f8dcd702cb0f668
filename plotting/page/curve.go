package page

import (
	"fmt"
	"iter"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A Curve is a line through points, or markers at them, or both.
type Curve struct {
	Name   string           // in the legend; empty: no entry
	Points plotter.XYer     // at least one; NaN is a gap
	Pen    draw.LineStyle   // Pen(i), Accent(), Aid() or Limit(); with a width of 0 only markers are drawn
	Marker draw.GlyphDrawer // at every point, in the colour of the pen; nil: none
	// End is a short label at the right end: beside the data area, left out where all do
	// not fit, or on it where the curve ends earlier.
	End string
}

// check refuses what would be drawn wrongly.
func (c Curve) check() error {
	points := 0
	for i, p := range c.all() {
		if math.IsInf(p.X, 0) || math.IsInf(p.Y, 0) {
			return c.fault("point %d: (%g, %g): want finite values, or NaN for a gap", i+1, p.X, p.Y)
		}
		if !gap(p) {
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

// all returns the points with their numbers.
func (c Curve) all() iter.Seq2[int, plotter.XY] {
	return func(yield func(int, plotter.XY) bool) {
		if c.Points == nil {
			return
		}
		for i := range c.Points.Len() {
			x, y := c.Points.XY(i)
			if !yield(i, plotter.XY{X: x, Y: y}) {
				return
			}
		}
	}
}

func gap(p plotter.XY) bool { return math.IsNaN(p.X) || math.IsNaN(p.Y) }

func (c Curve) reach(add func(x, y float64)) {
	for _, p := range c.all() {
		if !gap(p) {
			add(p.X, p.Y)
		}
	}
}

func (c Curve) draw(s *Sketch) {
	pen := s.Scaled(c.Pen)
	for _, run := range c.runs(s) {
		switch {
		case len(run) > 1 && pen.Width > 0:
			s.strokeWithin(pen, thinned(run))
		case len(run) == 1 && c.Marker == nil: // a point between two gaps is no line, but it is there
			s.DrawGlyph(draw.GlyphStyle{Color: pen.Color, Radius: pen.Width, Shape: draw.CircleGlyph{}}, run[0])
		}
		if c.Marker == nil {
			continue
		}
		for _, p := range run {
			if s.Contains(p) {
				s.marker(s.Canvas, pen.Color, c.Marker, p)
			}
		}
	}
	if end := c.end(); c.End != "" && endsBefore(s.plot.X.Norm(end.X)) && s.Contains(s.place(end)) {
		side := s.clearest(end, Right, c.End)
		s.Text(end, side, c.End)
		s.avoid(outlined(s.textBox(end, side, c.End)))
	}
}

// end returns the last point.
func (c Curve) end() (last plotter.XY) {
	for _, p := range c.all() {
		if !gap(p) {
			last = p
		}
	}
	return last
}

// endsBefore reports whether what ends at a part of the way along the x axis ends so far
// before that of the axis that a label beside the data area would not be at its end.
func endsBefore(part float64) bool { return part < 0.98 }

func (c Curve) lines(s *Sketch) [][]vg.Point {
	runs := c.runs(s)
	for i, run := range runs {
		runs[i] = thinned(run)
	}
	return runs
}

// runs returns the points on the page, parted at gaps.
func (c Curve) runs(s *Sketch) [][]vg.Point {
	var runs [][]vg.Point
	inside := false
	for _, xy := range c.all() {
		p := s.place(xy)
		if math.IsNaN(float64(p.X)) || math.IsNaN(float64(p.Y)) {
			inside = false
			continue
		}
		if !inside {
			runs = append(runs, make([]vg.Point, 0, c.Points.Len()))
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
	end := c.end()
	return []label{{at: end.Y, from: end.X, text: c.End, pen: c.Pen, extra: true}}
}

// Plot implements plot.Plotter.
func (c Curve) Plot(dc draw.Canvas, p *plot.Plot) { plotOn(c, dc, p) }

// DataRange implements plot.DataRanger.
func (c Curve) DataRange() (xmin, xmax, ymin, ymax float64) { return rangeOf(c) }
