package plotting

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Correction returns the figure of a driveline before and after a change: the speed of
// the last shaft, the working angles and what is left as an equivalent angle.
func Correction(before, after *Case) (*page.Figure, error) {
	for _, c := range []*Case{before, after} {
		if err := c.check(); err != nil {
			return nil, err
		}
	}
	if before.last() != after.last() {
		return nil, fmt.Errorf("correction: %d shafts before and %d after: want the same driveline", len(before.Shafts), len(after.Shafts))
	}
	speeds := speed.panel(Driving)
	speeds.Title = "Speed of " + after.shaft(after.last())
	speeds.Add(
		speed.curve("before", before.Analysis.Driving[before.last()], beforePen),
		speed.curve("after", after.Analysis.Driving[after.last()], page.Accent()),
	)
	was, is := before.Analysis.SecondOrder.Exact, after.Analysis.SecondOrder.Exact
	return &page.Figure{
		Title:    "What does the correction change?",
		Subtitle: after.subtitle(),
		Rows:     []page.Row{{Panels: []*page.Panel{speeds}}, {Panels: []*page.Panel{changedAngles(before, after)}}},
		Caption:  fmt.Sprintf("Left at %s: one joint at %s before, at %s after.", after.shaft(after.last()), degrees(was), degrees(is)),
		Size:     page.Tall,
	}, nil
}

var beforePen = draw.LineStyle{Color: page.Ink, Width: 1.3, Dashes: page.Pen(1).Dashes}

// changedAngles shows every working angle and, last, the equivalent angle, before and
// after.
func changedAngles(before, after *Case) *page.Panel {
	var ticks plot.ConstantTicks
	var was, is []plotter.XY
	add := func(name string, from, to float64) {
		x := float64(len(ticks) + 1)
		ticks = append(ticks, plot.Tick{Value: x, Label: name})
		was, is = append(was, plotter.XY{X: x, Y: from / kinematics.Degree}), append(is, plotter.XY{X: x, Y: to / kinematics.Degree})
	}
	names := make([]string, len(before.Joints))
	if room := 90/len(before.Shafts) - 4; room > 4 { // characters side by side
		names = shortened(before.Joints, room)
	}
	for k := range before.Joints {
		add(strings.TrimSpace("β"+subscript(k+1)+" "+names[k]), before.Analysis.Bends[k].Angle, after.Analysis.Bends[k].Angle)
	}
	add("left", before.Analysis.SecondOrder.Exact, after.Analysis.SecondOrder.Exact)
	p := &page.Panel{
		Title: "Working angles, and what is left as one joint",
		X:     page.Axis{Range: page.Interval{Min: 0.5, Max: float64(len(ticks)) + 0.5}, Ticker: ticks},
		Y:     page.Axis{Label: "angle, °", Least: page.Interval{Min: 0, Max: angleFloor}},
	}
	p.Add(page.Drawing{
		Reach: append(append([]plotter.XY{{X: 1, Y: 0}}, was...), is...),
		Draw: func(s *page.Sketch) {
			beside := func(p plotter.XY, side page.Side) {
				text := degrees(p.Y * kinematics.Degree)
				if text == degrees(0) { // not on the axis
					side = map[page.Side]page.Side{page.Left: page.LeftAbove, page.Right: page.RightAbove}[side]
				}
				s.Text(p, side, text)
			}
			for i := range was {
				s.Polyline(page.Aid(), was[i], is[i])
				s.Marker(page.Ink, page.Ring{}, was[i])
				s.Marker(page.Signal, draw.CircleGlyph{}, is[i])
				beside(is[i], page.Right)
				if was[i] != is[i] {
					beside(was[i], page.Left)
				}
			}
		},
	})
	return p
}
