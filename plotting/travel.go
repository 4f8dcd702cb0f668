package plotting

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/plotting/page"
)

// A Travel is a driveline in several poses of its suspension.
type Travel struct {
	Name   string   // of the driveline
	Shaft  string   // that the suspension turns
	Joints []string // names
	Limit  float64  // of the equivalent angle left, deg; 0: none
	Poses  []Pose   // at least one
}

// A Pose is the driveline at one place of the travel.
type Pose struct {
	Name         string
	SlopeDeg     float64   // of the shaft that the suspension turns
	LeftDeg      float64   // equivalent angle left at the last shaft
	WorkingAngle []float64 // of each joint, deg
}

// TravelCurve returns the figure of what is left, and of the working angles,
// across the travel.
func TravelCurve(t Travel) (*page.Figure, error) {
	if len(t.Poses) == 0 {
		return nil, errors.New("travel: no poses: want at least one")
	}
	for _, p := range t.Poses {
		if len(p.WorkingAngle) != len(t.Joints) {
			return nil, fmt.Errorf("travel: pose %q: working angles of %d joints: want %d", p.Name, len(p.WorkingAngle), len(t.Joints))
		}
	}
	poses := slices.SortedFunc(slices.Values(t.Poses), func(a, b Pose) int { return cmp.Compare(a.SlopeDeg, b.SlopeDeg) })
	at := func(y func(Pose) float64) (xs, ys []float64) {
		for _, p := range poses {
			xs, ys = append(xs, p.SlopeDeg), append(ys, y(p))
		}
		return xs, ys
	}

	first, last := poses[0].SlopeDeg, poses[len(poses)-1].SlopeDeg
	beside := max((last-first)/20, 0.5) // room for the marks at the ends
	slopes := page.Interval{Min: first - beside, Max: last + beside}
	left := &page.Panel{
		Title: "What is left at the last shaft",
		X:     page.Axis{Bare: true, Range: slopes},
		Y:     page.Axis{Label: "as one joint at, °"},
	}
	x, y := at(func(p Pose) float64 { return p.LeftDeg })
	top := max(slices.Max(y), t.Limit, 0.1)
	left.Y.Range = page.Interval{Min: -0.12 * top, Max: 1.18 * top} // room for names above and below the curve
	left.Add(page.Curve{Points: pairs(x, y), Pen: page.Accent()})
	if t.Limit > 0 {
		left.Add(page.Rule{At: t.Limit, Label: "limit " + significant(t.Limit) + "°", Pen: page.Limit()})
	}
	for _, p := range poses {
		left.Add(page.Mark{At: plotter.XY{X: p.SlopeDeg, Y: p.LeftDeg}, Text: brief(p.Name, longestName), Side: page.Above, Color: page.Signal, Marker: draw.CircleGlyph{}})
	}

	angles := &page.Panel{
		Title: "Working angles",
		X:     page.Axis{Label: "slope of " + brief(t.Shaft, longestName) + " in the side view, ° down", Range: slopes},
		Y:     page.Axis{Label: "working angle β, °", Least: page.Interval{Min: 0, Max: 0.1}},
	}
	for k, joint := range t.Joints {
		x, y := at(func(p Pose) float64 { return p.WorkingAngle[k] })
		angles.Add(page.Curve{Name: brief(joint, longestName), Points: pairs(x, y), Pen: page.Pen(k), Marker: draw.CircleGlyph{}})
	}
	f := &page.Figure{
		Title: "What does the travel of the suspension do?", Subtitle: brief(t.Name, 90),
		Caption: "Each point is a pose as measured; between them the lines only guide the eye.",
		Size:    page.Tall, Legend: page.LegendPanels,
	}
	f.Add(left)
	f.Add(angles)
	return f, nil
}
