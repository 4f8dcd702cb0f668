package plotting

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

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
	poses, err := posesOf(c, t)
	if err != nil {
		return nil, err
	}
	limit /= kinematics.Degree
	across := func(y func(pose) float64) plotter.XYs {
		var points plotter.XYs
		for _, p := range poses {
			points = append(points, plotter.XY{X: p.slope, Y: y(p)})
		}
		return points
	}

	first, last := poses[0].slope, poses[len(poses)-1].slope
	beside := max((last-first)/20, 0.5) // room for the marks at the ends
	slopes := page.Interval{Min: first - beside, Max: last + beside}
	left := &page.Panel{
		Title: "What is left at the last shaft",
		X:     page.Axis{Bare: true, Range: slopes},
		Y:     page.Axis{Label: "as one joint at, °"},
	}
	top := max(limit, 0.1)
	for _, p := range poses {
		top = max(top, p.ExactEquivalentDeg)
	}
	left.Y.Range = page.Interval{Min: -0.12 * top, Max: 1.18 * top} // room for names above and below the curve
	left.Add(page.Curve{Points: across(func(p pose) float64 { return p.ExactEquivalentDeg }), Pen: page.Accent()})
	if limit > 0 {
		left.Add(page.Rule{At: limit, Label: "limit " + significant(limit) + "°", Pen: page.Limit()})
	}
	for _, p := range poses {
		left.Add(page.Mark{At: plotter.XY{X: p.slope, Y: p.ExactEquivalentDeg}, Text: brief(p.name(), longestName),
			Side: page.Above, Color: page.Signal, Marker: draw.CircleGlyph{}})
	}

	angles := &page.Panel{
		Title: "Working angles",
		X:     page.Axis{Label: "slope of " + brief(t.Shaft, longestName) + " in the side view, ° down", Range: slopes},
		Y:     page.Axis{Label: "working angle β, °", Least: page.Interval{Min: 0, Max: 0.1}},
	}
	for k := range c.Joints {
		points := across(func(p pose) float64 { return p.WorkingAngleDeg[k] })
		angles.Add(page.Curve{Name: c.joint(k), Points: points, Pen: page.Pen(k), Marker: draw.CircleGlyph{}})
	}
	f := &page.Figure{
		Title: "What does the travel of the suspension do?", Subtitle: brief(c.Name, 90),
		Caption: "Each point is a pose as measured; between them the lines only guide the eye.",
		Size:    page.Tall, Legend: page.LegendPanels,
	}
	f.Add(left)
	f.Add(angles)
	return f, nil
}

// pose is a state of the travel and the slope that the suspension gives the shaft there.
type pose struct {
	adjust.State
	slope float64 // deg
}

// name is that of the pose, which the survey itself has not.
func (p pose) name() string { return cmp.Or(p.Pose, "as measured") }

// posesOf returns the states of a travel by rising slope.
func posesOf(c *Case, t *adjust.Travel) ([]pose, error) {
	if t == nil || len(t.States) < 2 || len(t.States) != len(t.SlopeDeg) {
		return nil, errors.New("travel: fewer than two poses: want those of the driveline")
	}
	var poses []pose
	for i, s := range t.States {
		if len(s.WorkingAngleDeg) != len(c.Joints) {
			return nil, fmt.Errorf("travel: pose %q: working angles of %d joints: want %d", s.Pose, len(s.WorkingAngleDeg), len(c.Joints))
		}
		poses = append(poses, pose{s, t.SlopeDeg[i]})
	}
	slices.SortStableFunc(poses, func(a, b pose) int { return cmp.Compare(a.slope, b.slope) })
	return poses, nil
}
