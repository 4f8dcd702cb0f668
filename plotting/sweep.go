package plotting

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg/draw"
)

// A Sweep is a quantity of a driveline while one other is varied.
type Sweep struct {
	Name             string    // of the driveline
	Varied, Quantity string    // with their units, for the axes
	At, Values       []float64 // NaN where the driveline is impossible
	Floor            float64   // least range of the quantity shown; 0: none
	AtMost, AtLeast  []float64 // limits of the quantity at each point, NaN: none there; nil: none
	Present, Best    *XY       // points of the curve; nil: none
}

// SweepCurve returns the figure of a sweep.
func SweepCurve(w Sweep) (*Figure, error) {
	p := &Panel{X: Axis{Label: w.Varied}, Y: Axis{Label: w.Quantity, Least: Interval{0, w.Floor}}}
	p.Add(Curve{X: w.At, Y: w.Values, Pen: Accent()})
	for _, limit := range []struct {
		name string
		at   []float64
	}{{"at most", w.AtMost}, {"at least", w.AtLeast}} {
		if slices.ContainsFunc(limit.at, func(v float64) bool { return !math.IsNaN(v) }) {
			p.Add(Curve{End: limit.name, X: w.At, Y: limit.at, Pen: Limit()})
		}
	}
	p.Add(sweepMarks(w.Present, w.Best)...)
	if err := p.check(); err != nil {
		return nil, fmt.Errorf("sweep: %w", err)
	}
	return &Figure{Title: "What does " + withoutUnit(w.Varied) + " change?", Subtitle: brief(w.Name, 90), Rows: []Row{{Panels: []*Panel{p}}}}, nil
}

// A SweepGrid is a quantity of a driveline while two others are varied.
type SweepGrid struct {
	Name           string // of the driveline
	Across, Up     string // what is varied, with units, for the axes
	Quantity       string
	AtAcross, AtUp []float64
	Values         [][]float64 // Values[j][i] is at AtAcross[i], AtUp[j]; NaN where the driveline is impossible
	Limit          float64     // of the quantity; 0: none
	Present, Best  *XY         // nil: none
}

// SweepMap returns the figure of a grid as a map in bands of colour, with the limit as a contour.
func SweepMap(g SweepGrid) (*Figure, error) {
	field := Field{X: g.AtAcross, Y: g.AtUp, Z: g.Values, Scale: Axis{Label: g.Quantity}}
	if slices.ContainsFunc(g.Values, func(row []float64) bool { return slices.ContainsFunc(row, math.IsNaN) }) {
		field.Void = "impossible"
	}
	if g.Limit > 0 {
		field.Contours = []Contour{{Level: g.Limit, Name: "limit " + significant(g.Limit), Pen: Limit()}}
	}
	p := &Panel{X: Axis{Label: g.Across}, Y: Axis{Label: g.Up}}
	p.Add(field)
	p.Add(sweepMarks(g.Present, g.Best)...)
	if err := p.check(); err != nil {
		return nil, fmt.Errorf("sweep: %w", err)
	}
	return &Figure{Title: "What do " + withoutUnit(g.Across) + " and " + withoutUnit(g.Up) + " change?", Subtitle: brief(g.Name, 90), Rows: []Row{{Panels: []*Panel{p}}}, Size: tall}, nil
}

// sweepMarks mark the driveline as it is and the best found, their names on the sides where each is.
func sweepMarks(present, best *XY) []Layer {
	side := func(at, other *XY) Side {
		if other != nil && at.X < other.X {
			return LeftAbove
		}
		return RightAbove
	}
	var marks []Layer
	if best != nil {
		marks = append(marks, Mark{At: *best, Text: "best", Side: side(best, present), Color: Ink, Marker: draw.PyramidGlyph{}})
	}
	if present != nil {
		marks = append(marks, Mark{At: *present, Text: "as it is", Side: side(present, best), Color: signal, Marker: draw.CircleGlyph{}})
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
