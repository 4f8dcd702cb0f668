package plotting

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// support is a force that a figure shows, and on what it acts.
type support struct {
	on    string
	force kinematics.Load
}

// supports returns the forces on the centre bearings or, where there is none, at the
// ends of the shaft between two joints; nothing where none is known.
func (c *Case) supports(l *survey.Loads) []support {
	var list []support
	switch {
	case l.Forces == nil || l.Forces.Free < 0:
	case len(l.Forces.Bearings) == 0:
		free := l.Forces.Free
		list = append(list, support{"Ends of " + c.shaft(free), l.Forces.Joints[free]})
	default:
		for _, b := range l.Forces.Bearings {
			list = append(list, support{"Centre bearing of " + c.shaft(b.Shaft), b.Force})
		}
	}
	return list
}

// forcePanels show the forces of a torque to the same scale.
func forcePanels(supports []support, torque float64) []*page.Panel {
	reach := page.RoundUp(torque / forceFloor)
	for _, s := range supports {
		reach = max(reach, s.reach())
	}
	var panels []*page.Panel
	for _, s := range supports {
		panels = append(panels, forcePanel(s, reach))
	}
	return panels
}

// reach is how far the way of the force and zero lie at most from their middle, with some
// room around them.
func (s support) reach() float64 {
	const room = 1.25
	middle, reach := s.middle(), 0.0
	for _, p := range append(wayOf(s.force), plotter.XY{}) {
		reach = max(reach, math.Abs(p.X-middle.X), math.Abs(p.Y-middle.Y))
	}
	return room * reach
}

// middle is that of the box around the way of the force and zero.
func (s support) middle() plotter.XY {
	var low, high plotter.XY
	for _, p := range wayOf(s.force) {
		low = plotter.XY{X: min(low.X, p.X), Y: min(low.Y, p.Y)}
		high = plotter.XY{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
	}
	return plotter.XY{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
}

// forceFloor is the torque in N·m of which a figure of forces reaches to 1 N at least,
// and one of couples to 1 N·m, so that rounding does not fill it.
const forceFloor = 1000

// forcePanel shows the way of a force around the turn: a circle, nearly, about its
// steady part; reach is how much of it is shown to every side of its middle.
func forcePanel(s support, reach float64) *page.Panel {
	p := &page.Panel{
		Title: s.on + ": ±" + significant(s.force.Swing()) + " N",
		Equal: true,
		X:     page.Axis{Label: "to the right, N"},
		Y:     page.Axis{Label: "upward, N"},
	}
	steady, middle := seenAlong(s.force.Steady), s.middle()
	corners := []plotter.XY{{X: middle.X - reach, Y: middle.Y - reach}, {X: middle.X + reach, Y: middle.Y + reach}}
	at := func(deg float64, name string, marker draw.GlyphDrawer) page.Mark {
		p := seenAlong(s.force.At(deg * kinematics.Degree))
		return page.Mark{At: p, Text: name, Side: sideToward(steady, p), Color: page.Ink, Marker: marker}
	}
	p.Add(
		page.Drawing{Reach: corners, Draw: func(s *page.Sketch) { s.Arrow(steadyPen, plotter.XY{}, steady) }},
		page.Rule{At: 0, Pen: zeroLine},
		page.Rule{At: 0, Upright: true, Pen: zeroLine},
		page.Curve{Name: "force over half a turn: the circle is the swing", Points: wayOf(s.force), Pen: page.Accent()},
		page.Curve{Name: "steady part, not to be trusted: friction and weight are left out", Points: plotter.XYs{{}, steady}, Pen: steadyPen},
		at(0, "θ = 0°", draw.CircleGlyph{}), at(45, "45°", page.Ring{}),
	)
	return p
}

// sideToward is the side of a point that looks away from another.
func sideToward(from, to plotter.XY) page.Side {
	sides := []page.Side{page.Right, page.RightAbove, page.Above, page.LeftAbove, page.Left, page.LeftBelow, page.Below, page.RightBelow}
	eighth := int(math.Round(math.Atan2(to.Y-from.Y, to.X-from.X) / (math.Pi / 4)))
	return sides[(eighth+len(sides))%len(sides)]
}

// steadyPen is dimmer than the pen of what can be trusted.
var steadyPen = draw.LineStyle{Color: page.Line, Width: 1.2, Dashes: []vg.Length{2, 1.6}}

// seenAlong returns a vector of the driveline frame as it is seen along the power flow.
func seenAlong(v r3.Vec) plotter.XY { return plotter.XY{X: -v.Y, Y: v.Z} }

// wayOf returns the tip of a force over half a turn, after which it repeats.
func wayOf(force kinematics.Load) plotter.XYs {
	const steps = 180
	points := make(plotter.XYs, steps+1)
	for i := range points {
		points[i] = seenAlong(force.At(math.Pi * float64(i) / steps))
	}
	return points
}
