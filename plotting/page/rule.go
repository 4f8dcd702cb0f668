package page

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A Rule is a straight line across the whole panel: a limit, a zero, a moment. Its label
// stands beside the data area.
type Rule struct {
	At      float64 // the value of y, or of x if Upright
	Upright bool
	Label   string // may be empty
	Pen     draw.LineStyle
}

func (r Rule) check() error {
	if math.IsNaN(r.At) || math.IsInf(r.At, 0) {
		return fmt.Errorf("rule %q: at %g: want a finite value", r.Label, r.At)
	}
	if r.Pen.Color == nil {
		return fmt.Errorf("rule %q: no pen: want Pen, Accent, Aid or Limit", r.Label)
	}
	return nil
}

func (r Rule) reach(add func(x, y float64)) {
	if r.Upright {
		add(r.At, math.NaN())
	} else {
		add(math.NaN(), r.At)
	}
}

func (r Rule) draw(s *Sketch) {
	s.StrokeLines(s.Scaled(r.Pen), r.lines(s)...)
}

// lines returns the rule, if it is within the panel.
func (r Rule) lines(s *Sketch) [][]vg.Point {
	if r.Upright {
		if x := s.X(s.plot.X.Norm(r.At)); s.ContainsX(x) {
			return [][]vg.Point{{{X: x, Y: s.Min.Y}, {X: x, Y: s.Max.Y}}}
		}
	} else if y := s.Y(s.plot.Y.Norm(r.At)); s.ContainsY(y) {
		return [][]vg.Point{{{X: s.Min.X, Y: y}, {X: s.Max.X, Y: y}}}
	}
	return nil
}

func (r Rule) sideLabels() []label {
	if r.Upright || r.Label == "" {
		return nil
	}
	return []label{{at: r.At, from: math.Inf(1), text: r.Label, pen: r.Pen}}
}

func (r Rule) headLabels() []label {
	if !r.Upright || r.Label == "" {
		return nil
	}
	return []label{{at: r.At, text: r.Label, pen: r.Pen}}
}

// Plot implements plot.Plotter.
func (r Rule) Plot(dc draw.Canvas, p *plot.Plot) { plotOn(r, dc, p) }

// DataRange implements plot.DataRanger.
func (r Rule) DataRange() (xmin, xmax, ymin, ymax float64) { return rangeOf(r) }
