package plotting

import (
	"cmp"
	"errors"
	"fmt"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/kinematics/adjust"
	"halfturn/plotting/page"
)

// Travel returns the figure of what is left, and of the working angles, across the travel
// of the suspension. limit is as of Vectors.
func Travel(c *Case, t *adjust.Travel, limit float64) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if err := checkLimit(limit); err != nil {
		return nil, err
	}
	if err := checkTravel(c, t); err != nil {
		return nil, err
	}
	limit /= kinematics.Degree
	across := func(y func(adjust.Position) float64) plotter.XYs {
		var points plotter.XYs
		for _, p := range t.Positions {
			points = append(points, plotter.XY{X: p.SlopeDeg, Y: y(p)})
		}
		return points
	}

	first, last := t.Positions[0].SlopeDeg, t.Positions[len(t.Positions)-1].SlopeDeg
	beside := max((last-first)/20, 0.5) // room for the marks at the ends
	slopes := page.Interval{Min: first - beside, Max: last + beside}
	left := &page.Panel{
		Title: "What is left at the last shaft",
		X:     page.Axis{Bare: true, Range: slopes},
		Y:     page.Axis{Label: "as one joint at, °"},
	}
	top := max(limit, 0.1)
	for _, p := range t.Positions {
		top = max(top, p.ExactEquivalentDeg)
	}
	left.Y.Range = page.Interval{Min: 0, Max: 1.08 * top}
	left.Add(page.Curve{Points: across(func(p adjust.Position) float64 { return p.ExactEquivalentDeg }), Pen: page.Accent()})
	if limit > 0 {
		left.Add(page.Rule{At: limit, Label: "limit " + significant(limit) + "°", Pen: page.Limit()})
	}
	names := poseNames(t)
	for _, p := range t.Positions {
		if p.State >= 0 {
			value := fmt.Sprintf(" %.1f°", p.ExactEquivalentDeg) // tells poses of one slope apart
			left.Add(
				page.Rule{At: p.SlopeDeg, Upright: true, Label: names[p.State] + value, Pen: draw.LineStyle{Color: page.Line, Width: 0.7}},
				page.Mark{At: plotter.XY{X: p.SlopeDeg, Y: p.ExactEquivalentDeg}, Color: page.Signal, Marker: draw.CircleGlyph{}})
		}
	}

	angles := &page.Panel{
		Title: "Working angles",
		X:     page.Axis{Label: "slope of " + brief(t.Shaft, longestName) + " in the side view, ° down", Range: slopes},
		Y:     page.Axis{Label: "working angle β, °", Least: page.Interval{Min: 0, Max: 0.1}},
	}
	for k := range c.Joints {
		points := across(func(p adjust.Position) float64 { return p.WorkingAngleDeg[k] })
		angles.Add(page.Curve{Name: c.joint(k), Points: points, Pen: page.Pen(k)})
	}
	f := &page.Figure{
		Title: "What does the travel of the suspension do?", Subtitle: brief(c.Name, longestName),
		Caption: "Each point is a pose as measured. Between them the joints are taken to go straight from the one to the next, and what is left is computed again.",
		Size:    page.Tall, Legend: page.LegendPanels,
	}
	f.Add(left)
	f.Add(angles)
	return f, nil
}

// poseNames returns the names of the states, short enough to stand side by side.
func poseNames(t *adjust.Travel) []string {
	const room = 28 // characters
	var names []string
	for _, s := range t.States {
		names = append(names, cmp.Or(s.Pose, "as measured"))
	}
	return shortened(names, room)
}

func checkTravel(c *Case, t *adjust.Travel) error {
	if t == nil || len(t.States) < 2 || len(t.Positions) < 2 {
		return errors.New("travel: fewer than two poses: want those of the driveline")
	}
	for _, p := range t.Positions {
		if len(p.WorkingAngleDeg) != len(c.Joints) {
			return fmt.Errorf("travel: working angles of %d joints: want %d", len(p.WorkingAngleDeg), len(c.Joints))
		}
	}
	return nil
}
