package plotting

import (
	"fmt"

	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
)

// Correction returns the figure of a driveline before and after a change: the speed of the last shaft, the working
// angles and what is left as an equivalent angle.
func Correction(before, after *Case) (*Figure, error) {
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
		speed.curve("after", after.Analysis.Driving[after.last()], Accent()),
	)
	was, is := before.Analysis.SecondOrder.Exact, after.Analysis.SecondOrder.Exact
	return &Figure{
		Title:    "What does the correction change?",
		Subtitle: after.subtitle(),
		Rows:     []Row{{Panels: []*Panel{speeds}}, {Panels: []*Panel{changedAngles(before, after)}}},
		Caption:  fmt.Sprintf("Left at %s: one joint at %s before, at %s after.", after.shaft(after.last()), degrees(was), degrees(is)),
		Size:     tall,
	}, nil
}

var beforePen = draw.LineStyle{Color: Ink, Width: 1.3, Dashes: dashes[1]}

// changedAngles shows every working angle and, last, the equivalent angle, before and after.
func changedAngles(before, after *Case) *Panel {
	var ticks Fixed
	var was, is []XY
	add := func(name string, from, to float64) {
		x := float64(len(ticks) + 1)
		ticks = append(ticks, Tick{x, name})
		was, is = append(was, XY{x, from / kinematics.Degree}), append(is, XY{x, to / kinematics.Degree})
	}
	longest := max(90/len(before.Shafts)-4, 1) // characters side by side
	for k := range before.Joints {
		add("β"+subscript(k+1)+" "+brief(before.Joints[k], longest), before.Analysis.Bends[k].Angle, after.Analysis.Bends[k].Angle)
	}
	add("left", before.Analysis.SecondOrder.Exact, after.Analysis.SecondOrder.Exact)
	p := &Panel{
		Title: "Working angles, and what is left as one joint",
		X:     Axis{Range: Interval{0.5, float64(len(ticks)) + 0.5}, Ticker: ticks},
		Y:     Axis{Label: "angle, °", Least: Interval{0, angleFloor}},
	}
	p.Add(Drawing{
		Reach: append(append([]XY{{1, 0}}, was...), is...),
		Draw: func(s *Sketch) {
			for i := range was {
				s.Polyline(Aid(), was[i], is[i])
				s.letters.marker(s.Canvas, Ink, draw.RingGlyph{}, s.At(was[i]))
				s.letters.marker(s.Canvas, signal, draw.CircleGlyph{}, s.At(is[i]))
				s.Text(is[i], Right, degrees(is[i].Y*kinematics.Degree))
				if was[i] != is[i] {
					s.Text(was[i], Left, degrees(was[i].Y*kinematics.Degree))
				}
			}
		},
	})
	return p
}
