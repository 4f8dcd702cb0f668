package plotting

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Theory returns the figure of the first-order theory against the exact motion: how far
// it falls short for one joint, and the equivalent angle of the driveline with all its
// slopes made smaller or larger in proportion.
func Theory(c *Case) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	one, err := shortfallPanel(c.theoryReach())
	if err != nil {
		return nil, err
	}
	scaled, err := c.scaledPanel()
	if err != nil {
		return nil, err
	}
	s := c.Analysis.SecondOrder
	return &page.Figure{
		Title:    "Where does the textbook part from the exact motion?",
		Subtitle: c.subtitle(),
		Rows:     []page.Row{{Panels: []*page.Panel{one, scaled}}},
		Legend:   page.LegendPanels,
		Caption: fmt.Sprintf("To first order one joint gives a speed swing of β², a lead of β²/4 and a peak acceleration of ω²β²; they are 1 %% short at %s, %s and %s. This driveline: %s by the vector sum, %s exactly.",
			degrees(onePercent(swing)), degrees(onePercent(maxLead)), degrees(onePercent(peakAccel)), degrees(s.Equivalent), degrees(s.Exact)),
	}, nil
}

// An approximation is a quantity of one joint and its first-order formula factor·β².
type approximation struct {
	name   string
	factor float64
	exact  func(kinematics.Motion) float64
}

var (
	swing     = approximation{"speed swing β²", 1, kinematics.Motion.Nonuniformity}
	maxLead   = approximation{"lead β²/4", 0.25, kinematics.Motion.MaxLead}
	peakAccel = approximation{"peak acceleration ω²β²", 1, kinematics.Motion.PeakAccel}
)

// shortfall is by how much the formula falls short of the exact value at a working angle,
// in percent.
func (a approximation) shortfall(beta float64) (float64, error) {
	m, err := kinematics.SingleJoint(beta, 0)
	if err != nil {
		return 0, err
	}
	return 100 * (1 - a.factor*beta*beta/a.exact(m)), nil
}

// onePercent returns the working angle at which the formula falls short by 1 percent, by
// halving.
func onePercent(a approximation) float64 {
	low, high := kinematics.Degree, usualReach
	for range 50 {
		middle := (low + high) / 2
		if short, err := a.shortfall(middle); err == nil && short < 1 {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// usualReach is the largest working angle shown of most drivelines.
const usualReach = 45 * kinematics.Degree

// theoryReach is the largest working angle shown: that of the driveline at least.
func (c *Case) theoryReach() float64 {
	const step, most = 10 * kinematics.Degree, 89 * kinematics.Degree // at 90° nothing is finite
	largest := largestBend(c.Driveline)
	if largest <= usualReach {
		return usualReach
	}
	return max(largest, min(step*math.Ceil(largest/step), most))
}

// shortfallPanel shows how far the formulas of one joint fall short.
func shortfallPanel(reach float64) (*page.Panel, error) {
	p := &page.Panel{
		Title: "One joint: how far the first order falls short",
		X:     page.Axis{Label: "working angle β, °", Range: page.Interval{Min: 0, Max: reach / kinematics.Degree}},
		Y:     page.Axis{Label: "too small by, %"},
	}
	for i, a := range []approximation{swing, maxLead, peakAccel} {
		var points plotter.XYs
		for beta := kinematics.Degree / 2; beta <= reach+kinematics.Degree/100; beta += kinematics.Degree / 2 {
			short, err := a.shortfall(beta)
			if err != nil {
				return nil, err
			}
			points = append(points, plotter.XY{X: beta / kinematics.Degree, Y: short})
		}
		p.Add(page.Curve{Name: a.name, Points: points, Pen: page.Pen(i)})
	}
	p.Add(page.Rule{At: 1, Pen: page.Aid(), Label: "1 %"})
	return p, nil
}

// scaledPanel shows the equivalent angle of the driveline, exact and by the vector sum,
// as its slopes grow.
func (c *Case) scaledPanel() (*page.Panel, error) {
	p := &page.Panel{
		Title: "This driveline, all slopes in proportion",
		X:     page.Axis{Label: "largest working angle, °"},
		Y:     page.Axis{Label: "equivalent angle at the last shaft, °", Least: page.Interval{Min: 0, Max: angleFloor}},
	}
	var sum, exact plotter.XYs
	const steps = 90
	for i := range steps + 1 {
		d, err := c.scaled(float64(i) / steps * c.largestScale())
		if err != nil {
			return nil, err
		}
		s, largest := d.SecondOrder(), largestBend(d)/kinematics.Degree
		sum = append(sum, plotter.XY{X: largest, Y: s.Equivalent / kinematics.Degree})
		exact = append(exact, plotter.XY{X: largest, Y: s.Exact / kinematics.Degree})
	}
	s := c.Analysis.SecondOrder
	at := plotter.XY{X: largestBend(c.Driveline) / kinematics.Degree, Y: s.Exact / kinematics.Degree}
	const above = 1.2 // of the height of the mark: room for its name where nothing is higher
	p.Add(
		page.Drawing{Reach: []plotter.XY{{X: at.X, Y: above * at.Y}}, Draw: func(*page.Sketch) {}},
		page.Curve{Name: "exact", Points: exact, Pen: page.Accent()},
		page.Curve{Name: "first order: vector sum", Points: sum, Pen: theoryLine},
		page.Mark{At: at, Text: "as it is", Side: page.RightBelow, Color: page.Ink, Marker: draw.CircleGlyph{}},
	)
	return p, nil
}

// scaled returns the driveline with the slopes of all shafts multiplied by a factor.
func (c *Case) scaled(factor float64) (*kinematics.Driveline, error) {
	shafts := c.Driveline.Shafts()
	for k := range shafts {
		down, right := kinematics.Slopes(shafts[k].Axis)
		shafts[k].Axis = kinematics.AxisFromSlopes(factor*down, factor*right)
	}
	return kinematics.New(shafts, c.Driveline.Joints())
}

// largestScale is the factor at which the largest working angle is about the largest
// shown, but never below 1, and never one that brings a shaft closer to upright.
func (c *Case) largestScale() float64 {
	const upright = 80 * kinematics.Degree
	factor := c.theoryReach() / max(largestBend(c.Driveline), kinematics.Degree/100)
	for _, s := range c.Driveline.Shafts() {
		down, right := kinematics.Slopes(s.Axis)
		factor = min(factor, upright/max(math.Abs(down), math.Abs(right), kinematics.Degree/100))
	}
	return max(factor, 1)
}

func largestBend(d *kinematics.Driveline) float64 {
	largest := 0.0
	for k := range d.Joints() {
		largest = max(largest, d.WorkingAngle(k))
	}
	return largest
}
