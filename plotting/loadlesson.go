package plotting

import (
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// evenLines are drivelines whose last shaft turns evenly, or next to it, and which
// torque shakes or does not.
var evenLines = []example{
	{"Z: ends parallel", [][2]float64{{0, 0}, {3, 0}, {0, 0}}, nil},
	{"W: ends mirrored", [][2]float64{{0, 0}, {3, 0}, {6, 0}}, nil},
	{"0°, 3°, 3°", [][2]float64{{0, 0}, {0, 0}, {3, 0}, {0, 0}}, nil},
	{"3°, 4°, −5°, clocked", [][2]float64{{0, 0}, {3, 0}, {7, 0}, {2, 0}}, []float64{90}},
}

// speedsAndForces shows evenLines, how evenly their last shafts turn, and how torque
// shakes their supports.
func speedsAndForces(*Case) ([]page.Row, error) {
	alone, err := kinematics.SingleJoint(3*kinematics.Degree, 0)
	if err != nil {
		return nil, err
	}
	speeds := speed.panel(Driving)
	speeds.Title = "How evenly the last shafts turn"
	speeds.Add(speed.curve("one joint at 3°", alone, page.Aid()))
	forces := &page.Panel{
		Title: "How torque shakes the supports",
		X:     speeds.X,
		Y:     page.Axis{Label: "swing of the sideways force, N"},
	}
	var views []*page.Panel
	for i, line := range evenLines {
		c, err := line.analysed()
		if err != nil {
			return nil, err
		}
		last, pen := c.Analysis.Driving[c.last()], page.Pen(i)
		force := c.supports(c.loadsOfLesson())[0].force
		speeds.Add(speed.curve(line.name, last, pen))
		swing := force.Right()
		swing.Steady = 0
		forces.Add(page.Curve{Points: overTurn(swing.At), Pen: pen, End: "±" + significant(force.Swing()) + " N"})
		views = append(views, line.outline(pen))
	}
	return []page.Row{{Panels: views[:2], Height: 0.4}, {Panels: views[2:], Height: 0.4}, {Panels: []*page.Panel{speeds, forces}}}, nil
}

// loadsOfLesson are those of 1000 N·m, every shaft 1 m long, centre bearings at the joints.
func (c *Case) loadsOfLesson() *survey.Loads {
	s := survey.Survey{TorqueNM: 1000, Shafts: make([]survey.Shaft, len(c.Shafts))}
	for k := range s.Shafts {
		s.Shafts[k].Length = 1000 // mm
	}
	return s.Loads(c.Driveline)
}

// outline shows an example from the side, its slopes five times as steep.
func (e example) outline(pen draw.LineStyle) *page.Panel {
	points := plotter.XYs{{}}
	for k, slope := range e.slopes {
		length := 1.0
		if k == 0 || k == len(e.slopes)-1 {
			length = 0.5
		}
		sin, cos := math.Sincos(5 * slope[0] * kinematics.Degree)
		at := points[k]
		points = append(points, plotter.XY{X: at.X + length*cos, Y: at.Y - length*sin})
	}
	p := &page.Panel{Title: e.name, Equal: true, Bare: true}
	p.Add(
		page.Drawing{Reach: []plotter.XY{{X: 0, Y: 0.2}, {X: 3, Y: -1}}, Draw: func(*page.Sketch) {}}, // all to one scale
		page.Curve{Points: points, Pen: draw.LineStyle{Color: pen.Color, Width: 2}},
		page.Curve{Points: points[1 : len(points)-1], Pen: draw.LineStyle{Color: page.Ink}, Marker: draw.CircleGlyph{}},
	)
	return p
}
