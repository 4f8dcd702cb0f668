package plotting

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/plotting/page"
)

// A Sweep is one or several quantities of a driveline while another is varied.
type Sweep struct {
	Name   string // of the driveline
	Varied string // with its unit, for the axis
	At     []float64
	Unit   string  // of every quantity
	Floor  float64 // least range of the quantities shown; 0: none
	Swept  []Swept
}

// Swept is one quantity at every point of a Sweep.
type Swept struct {
	Quantity        string      // without its unit
	Values          []float64   // NaN where the driveline is impossible
	AtMost, AtLeast []float64   // limits at each point, NaN: none there; nil: none
	Present, Best   *plotter.XY // points of the curve; nil: none
}

// SweepCurve returns the figure of a sweep. A curve that is alone stands out and
// has its points marked; several are told apart by the legend.
func SweepCurve(w Sweep) (*page.Figure, error) {
	p := &page.Panel{X: page.Axis{Label: w.Varied}, Y: page.Axis{Label: "in " + w.Unit, Least: page.Interval{Min: 0, Max: w.Floor}}}
	for i, c := range w.Swept {
		if len(w.Swept) > 1 {
			p.Add(page.Curve{Name: brief(c.Quantity, 2*longestName), Points: pairs(w.At, c.Values), Pen: page.Pen(i)})
			continue
		}
		p.Y.Label = c.Quantity + ", " + w.Unit
		p.Add(page.Curve{Points: pairs(w.At, c.Values), Pen: page.Accent()})
		p.Add(limitCurve("at most", w.At, c.AtMost)...)
		p.Add(limitCurve("at least", w.At, c.AtLeast)...)
		p.Add(sweepMarks(c.Present, c.Best)...)
	}
	return &page.Figure{Title: "What does " + withoutUnit(w.Varied) + " change?", Subtitle: brief(w.Name, 90), Rows: []page.Row{{Panels: []*page.Panel{p}}}}, nil
}

// limitCurve is the line of a limit where there is one anywhere.
func limitCurve(name string, x, y []float64) []plot.Plotter {
	if !slices.ContainsFunc(y, func(v float64) bool { return !math.IsNaN(v) }) {
		return nil
	}
	return []plot.Plotter{page.Curve{End: name, Points: pairs(x, y), Pen: page.Limit()}}
}

// A SweepGrid is a quantity of a driveline while two others are varied.
type SweepGrid struct {
	Name           string // of the driveline
	Across, Up     string // what is varied, with units, for the axes
	Quantity       string
	AtAcross, AtUp []float64
	Values         [][]float64 // Values[j][i] is at AtAcross[i], AtUp[j]; NaN where the driveline is impossible
	Limit          float64     // of the quantity; 0: none
	Present, Best  *plotter.XY // nil: none
}

// SweepMap returns the figure of a grid as a map in bands of colour, with the limit as a contour.
func SweepMap(g SweepGrid) (*page.Figure, error) {
	field := page.Field{X: g.AtAcross, Y: g.AtUp, Z: g.Values, Scale: page.Axis{Label: g.Quantity}}
	if slices.ContainsFunc(g.Values, func(row []float64) bool { return slices.ContainsFunc(row, math.IsNaN) }) {
		field.Void = "impossible"
	}
	if g.Limit > 0 {
		field.Contours = []page.Contour{{Level: g.Limit, Name: "limit " + significant(g.Limit), Pen: page.Limit()}}
	}
	p := &page.Panel{X: page.Axis{Label: g.Across}, Y: page.Axis{Label: g.Up}}
	p.Add(field)
	p.Add(sweepMarks(g.Present, g.Best)...)
	return &page.Figure{Title: "What do " + withoutUnit(g.Across) + " and " + withoutUnit(g.Up) + " change?", Subtitle: brief(g.Name, 90), Rows: []page.Row{{Panels: []*page.Panel{p}}}, Size: page.Tall}, nil
}

// sweepMarks mark the driveline as it is and the best found, their names on the sides where each is.
func sweepMarks(present, best *plotter.XY) []plot.Plotter {
	side := func(at, other *plotter.XY) page.Side {
		if other != nil && at.X < other.X {
			return page.LeftAbove
		}
		return page.RightAbove
	}
	var marks []plot.Plotter
	if best != nil {
		marks = append(marks, page.Mark{At: *best, Text: "best", Side: side(best, present), Color: page.Ink, Marker: draw.PyramidGlyph{}})
	}
	if present != nil {
		marks = append(marks, page.Mark{At: *present, Text: "as it is", Side: side(present, best), Color: page.Signal, Marker: draw.CircleGlyph{}})
	}
	return marks
}

// withoutUnit returns the quantity that an axis shows: "working angle" of "working angle, deg".
func withoutUnit(label string) string {
	if end := strings.LastIndex(label, ","); end > 0 {
		label = label[:end]
	}
	return brief(label, 2*longestName)
}
