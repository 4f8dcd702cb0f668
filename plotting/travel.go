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
	f := &page.Figure{
		Title: "What does the travel of the suspension do?", Subtitle: brief(c.Name, longestName),
		Caption: "Each point is a pose as measured. Between them the joints are taken to go straight from the one to the next, and what is left is computed again.",
		Size:    page.Tall, Legend: page.LegendPanels,
	}
	f.Add(leftAcross(t, limit/kinematics.Degree))
	f.Add(c.anglesAcross(t))
	return f, nil
}

// leftAcross shows what is left, and the poses by their names. limit is in deg.
func leftAcross(t *adjust.Travel, limit float64) *page.Panel {
	top := max(limit, 0.1)
	for _, p := range t.Positions {
		top = max(top, p.ExactEquivalentDeg)
	}
	panel := &page.Panel{
		Title: "What is left at the last shaft",
		X:     page.Axis{Bare: true, Range: slopesOf(t)},
		Y:     page.Axis{Label: "as one joint at, °", Range: page.Interval{Min: 0, Max: 1.08 * top}},
	}
	left := func(p adjust.Position) float64 { return p.ExactEquivalentDeg }
	panel.Add(page.Curve{Points: across(t, left), Pen: page.Accent()})
	if limit > 0 {
		panel.Add(page.Rule{At: limit, Label: "limit " + significant(limit) + "°", Pen: page.Limit()})
	}
	names := poseNames(t)
	for _, p := range t.Positions {
		if p.State >= 0 {
			value := fmt.Sprintf(" %.1f°", p.ExactEquivalentDeg) // tells poses of one slope apart
			panel.Add(
				page.Rule{At: p.SlopeDeg, Upright: true, Label: names[p.State] + value, Pen: draw.LineStyle{Color: page.Line, Width: 0.7}},
				page.Mark{At: plotter.XY{X: p.SlopeDeg, Y: p.ExactEquivalentDeg}, Color: page.Signal, Marker: draw.CircleGlyph{}})
		}
	}
	return panel
}

// anglesAcross shows the working angles.
func (c *Case) anglesAcross(t *adjust.Travel) *page.Panel {
	panel := &page.Panel{
		Title: "Working angles",
		X:     page.Axis{Label: "slope of " + brief(t.Shaft, longestName) + " in the side view, ° down", Range: slopesOf(t)},
		Y:     page.Axis{Label: "working angle β, °", Least: page.Interval{Min: 0, Max: 0.1}},
	}
	for k := range c.Joints {
		points := across(t, func(p adjust.Position) float64 { return p.WorkingAngleDeg[k] })
		panel.Add(page.Curve{Name: c.joint(k), Points: points, Pen: page.Pen(k)})
	}
	return panel
}

// across returns a quantity at every position of the travel, by the slope.
func across(t *adjust.Travel, of func(adjust.Position) float64) plotter.XYs {
	var points plotter.XYs
	for _, p := range t.Positions {
		points = append(points, plotter.XY{X: p.SlopeDeg, Y: of(p)})
	}
	return points
}

// slopesOf returns the slopes of the travel, with room for the marks at its ends.
func slopesOf(t *adjust.Travel) page.Interval {
	first, last := t.Positions[0].SlopeDeg, t.Positions[len(t.Positions)-1].SlopeDeg
	beside := max((last-first)/20, 0.5)
	return page.Interval{Min: first - beside, Max: last + beside}
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
