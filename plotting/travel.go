package plotting

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"gonum.org/v1/plot/vg/draw"
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
func TravelCurve(t Travel) (*Figure, error) {
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
	slopes := Interval{first - beside, last + beside}
	left := &Panel{
		Title: "What is left at the last shaft",
		X:     Axis{Bare: true, Range: slopes},
		Y:     Axis{Label: "as one joint at, °"},
	}
	x, y := at(func(p Pose) float64 { return p.LeftDeg })
	top := max(slices.Max(y), t.Limit, 0.1)
	left.Y.Range = Interval{-0.12 * top, 1.18 * top} // room for names above and below the curve
	left.Add(Curve{X: x, Y: y, Pen: Accent()})
	if t.Limit > 0 {
		left.Add(Rule{At: t.Limit, Label: "limit " + significant(t.Limit) + "°", Pen: Limit()})
	}
	for _, p := range poses {
		left.Add(Mark{At: XY{p.SlopeDeg, p.LeftDeg}, Text: brief(p.Name, longestName), Side: Above, Color: signal, Marker: draw.CircleGlyph{}})
	}

	angles := &Panel{
		Title: "Working angles",
		X:     Axis{Label: "slope of " + brief(t.Shaft, longestName) + " in the side view, ° down", Range: slopes},
		Y:     Axis{Label: "working angle β, °", Least: Interval{0, 0.1}},
	}
	for k, joint := range t.Joints {
		x, y := at(func(p Pose) float64 { return p.WorkingAngle[k] })
		angles.Add(Curve{Name: brief(joint, longestName), X: x, Y: y, Pen: Pen(k), Marker: draw.CircleGlyph{}})
	}
	f := &Figure{
		Title: "What does the travel of the suspension do?", Subtitle: brief(t.Name, 90),
		Caption: "Each point is a pose as measured; between them the lines only guide the eye.",
		Size:    tall, Legend: LegendPanels,
	}
	f.Add(left)
	f.Add(angles)
	for _, p := range []*Panel{left, angles} {
		if err := p.check(); err != nil {
			return nil, fmt.Errorf("travel: %w", err)
		}
	}
	return f, nil
}
