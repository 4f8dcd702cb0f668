package plotting

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics/adjust"
	"halfturn/plotting/page"
)

// Sweep returns the figure of some of the series of a sweep: curves along one variable, or
// a map of one series over two. A curve that is alone in its unit stands out and has its
// points marked; several are told apart by the legend. name is that of the driveline.
func Sweep(name string, w *adjust.Sweep, series []adjust.Series) (*page.Figure, error) {
	if len(series) == 0 {
		return nil, errors.New("sweep: no series: want at least one")
	}
	figure := sweepCurves
	if len(w.Axes) > 1 {
		figure = sweepMap
	}
	f, err := figure(w, series)
	if err != nil {
		return nil, err
	}
	f.Subtitle = brief(name, longestName)
	return f, nil
}

// sweepCurves has a panel for each unit, one below the other.
func sweepCurves(w *adjust.Sweep, series []adjust.Series) (*page.Figure, error) {
	f := &page.Figure{Title: "What does the " + w.Variables[0].Words() + " change?"}
	var units []string
	for _, s := range series {
		if slices.Contains(units, s.Unit) {
			continue
		}
		units = append(units, s.Unit)
		f.Add(sweepPanel(w, slices.DeleteFunc(slices.Clone(series), func(other adjust.Series) bool { return other.Unit != s.Unit })))
	}
	if n := len(f.Rows); n > 1 {
		f.Size = page.Tall
		f.Size.Height += vg.Length(170 * (n - 2))
		for _, row := range f.Rows[:n-1] {
			row.Panels[0].X.Bare = true
		}
	}
	return f, nil
}

// sweepPanel shows series of the same unit.
func sweepPanel(w *adjust.Sweep, series []adjust.Series) *page.Panel {
	first := series[0]
	p := &page.Panel{
		X: variableAxis(w.Variables[0]),
		Y: page.Axis{Label: "in " + unitLabel(first.Unit), Least: page.Interval{Max: sweepFloor(first)}},
	}
	if len(series) > 1 {
		for i, s := range series {
			p.Add(page.Curve{Name: seriesLabel(s), Points: pairs(w.Axes[0], s.Values), Pen: page.Pen(i)})
		}
		return p
	}
	p.Y.Label = seriesLabel(first) + ", " + unitLabel(first.Unit)
	p.Add(page.Curve{Points: pairs(w.Axes[0], first.Values), Pen: page.Accent()})
	p.Add(sweepLimit("at most", unitLabel(first.Unit), w.Axes[0], first.AtMost)...)
	p.Add(sweepLimit("at least", unitLabel(first.Unit), w.Axes[0], first.AtLeast)...)
	p.Add(sweepMarks(w, first)...)
	return p
}

// sweepFloor is the least range of a quantity that a curve shows, from zero, so that
// rounding does not fill the figure; 0 for what may be negative.
func sweepFloor(s adjust.Series) float64 {
	switch {
	case s.HighIsGood:
		return 0
	case s.Unit == "deg":
		return 0.1
	case s.Unit == "":
		return 0.001
	default: // rad/s², N
		return 1
	}
}

// sweepLimit is the line of a limit where there is one anywhere, labelled with its value
// at the end. Where it is the same on one side of a change, as those of printed tables
// are, it changes in a step; the tables judge what lies between two of their rows by the
// later one.
func sweepLimit(name, unit string, x, y []float64) []plot.Plotter {
	known := slices.DeleteFunc(slices.Clone(y), math.IsNaN)
	if len(known) == 0 {
		return nil
	}
	last := known[len(known)-1]
	label := name + " " + withUnit(last, unit)
	if slices.ContainsFunc(known, func(v float64) bool { return v != last }) {
		label += " at the end"
	}
	flat := func(i int) bool { return i >= 0 && i+1 < len(y) && y[i] == y[i+1] }
	var points plotter.XYs
	for i := range x {
		if i > 0 && math.Abs(y[i]-y[i-1]) > 0 && (flat(i-2) || flat(i)) { // not from or to NaN
			points = append(points, plotter.XY{X: x[i-1], Y: y[i]})
		}
		points = append(points, plotter.XY{X: x[i], Y: y[i]})
	}
	return []plot.Plotter{page.Curve{End: label, Points: points, Pen: page.Limit()}}
}

func sweepMap(w *adjust.Sweep, series []adjust.Series) (*page.Figure, error) {
	if len(series) > 1 {
		return nil, fmt.Errorf("%d quantities: want one for a map", len(series))
	}
	s, x, y := series[0], w.Axes[0], w.Axes[1]
	field := page.Field{X: x, Y: y, Z: make([][]float64, len(y)), Label: seriesLabel(s) + ", " + unitLabel(s.Unit)}
	for j := range y {
		for i := range x {
			field.Z[j] = append(field.Z[j], s.Values[i*len(y)+j])
		}
	}
	if slices.ContainsFunc(s.Values, math.IsNaN) {
		field.Void = "impossible"
	}
	if limit := oneLimit(s); limit > 0 {
		field.Contours = []page.Contour{{Level: limit, Name: "limit " + withUnit(limit, unitLabel(s.Unit)), Pen: page.Limit()}}
	}
	p := &page.Panel{X: variableAxis(w.Variables[0]), Y: variableAxis(w.Variables[1])}
	p.Add(field)
	p.Add(sweepMarks(w, s)...)
	f := &page.Figure{Title: "What do the " + w.Variables[0].Words() + " and the " + w.Variables[1].Words() + " change?", Size: page.Tall}
	f.Add(p)
	return f, nil
}

// oneLimit returns the limit that holds all over the sweep, 0 where there is none or
// where it changes from point to point.
func oneLimit(s adjust.Series) float64 {
	for _, l := range s.AtMost {
		if l != s.AtMost[0] { // also for NaN
			return 0
		}
	}
	return s.AtMost[0]
}

// sweepMarks mark the driveline as it is and the best found, their names on the sides
// where each is; what is both has one mark.
func sweepMarks(w *adjust.Sweep, s adjust.Series) []plot.Plotter {
	place := func(at []float64, value float64) plotter.XY {
		if len(at) > 1 {
			return plotter.XY{X: at[0], Y: at[1]}
		}
		return plotter.XY{X: at[0], Y: value}
	}
	present := place(w.Present, s.Present)
	here := page.Mark{At: present, Text: "as it is", Side: page.RightAbove, Color: page.Signal, Marker: draw.CircleGlyph{}}
	if s.Best < 0 {
		return []plot.Plotter{here}
	}
	if s.Values[s.Best] == s.Present {
		here.Text += ", the best"
		return []plot.Plotter{here}
	}
	n := len(s.Values) / len(w.Axes[0]) // points at each value of the first variable
	at := []float64{w.Axes[0][s.Best/n]}
	if len(w.Axes) > 1 {
		at = append(at, w.Axes[1][s.Best%n])
	}
	found := place(at, s.Values[s.Best])
	if found == present {
		here.Text += ", the best"
		return []plot.Plotter{here}
	}
	best := page.Mark{At: found, Text: "best", Side: page.RightAbove, Color: page.Ink, Marker: draw.PyramidGlyph{}}
	if best.At.X < present.X {
		best.Side = page.LeftAbove
	} else if present.X < best.At.X {
		here.Side = page.LeftAbove
	}
	return []plot.Plotter{best, here}
}

// variableAxis is the axis of a variable, in quarter turns for an angle of rotation.
func variableAxis(v adjust.Variable) page.Axis {
	a := page.Axis{Label: v.Words() + ", " + unitLabel(v.Unit)}
	if v.Rotation() {
		a.Ticker = page.Turn{Minor: 15}
	}
	return a
}

func seriesLabel(s adjust.Series) string {
	if s.Subject == "" {
		return s.Name
	}
	return s.Name + " at " + s.Subject
}

// unitLabel is a unit as figures write it.
func unitLabel(unit string) string {
	switch unit {
	case "":
		return "ratio"
	case "deg":
		return "°"
	case "rpm":
		return "rev/min"
	default:
		return unit
	}
}
