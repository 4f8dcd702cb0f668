package plotting

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Drive says which end of a driveline turns uniformly.
type Drive int

const (
	Driving  Drive = iota // the first shaft; what is left shows at the last
	Coasting              // the last shaft; what is left shows at the first
)

// turning is a case over one turn of the shaft that turns uniformly.
type turning struct {
	*Case
	drive   Drive
	motions []kinematics.Motion // of all shafts
}

func (c *Case) over(drive Drive) *turning {
	if drive == Coasting {
		return &turning{c, drive, c.Analysis.Coasting}
	}
	return &turning{c, drive, c.Analysis.Driving}
}

// source is the shaft that turns uniformly.
func (t *turning) source() int {
	if t.drive == Coasting {
		return t.last()
	}
	return 0
}

// left is the shaft at the other end, with what is left of the fluctuation.
func (t *turning) left() int { return t.last() - t.source() }

func (t *turning) leftName() string { return "what is left at " + t.shaft(t.left()) }

// motion is that of the shaft with what is left.
func (t *turning) motion() kinematics.Motion { return t.motions[t.left()] }

// cancels reports whether nothing but rounding is left.
func (t *turning) cancels() bool { return t.motion().SecondOrder() < kinematics.NoiseFloor }

// A quantity is what a figure shows of a shaft over a turn: unit·(v − base) of a value v.
type quantity struct {
	label      string
	unit, base float64
	floor      float64 // half of the least range shown: the stated noise floor
	of         func(kinematics.State) float64
}

// curve returns the quantity of a motion over a turn.
func (q quantity) curve(name string, m kinematics.Motion, pen draw.LineStyle) page.Curve {
	return q.sampled(name, positions(m), m.At, pen)
}

func (q quantity) sampled(name string, theta []float64, at func(theta float64) kinematics.State, pen draw.LineStyle) page.Curve {
	points := make(plotter.XYs, len(theta))
	for i, deg := range theta {
		points[i] = plotter.XY{X: deg, Y: q.unit * (q.of(at(deg*kinematics.Degree)) - q.base)}
	}
	return page.Curve{Name: name, Points: points, Pen: pen}
}

// positions returns a turn from 0° to 360°, both included, in steps fine enough for a
// smooth curve, also for the needles of a joint close to 90°.
func positions(m kinematics.Motion) []float64 {
	steps := 360
	if m.MinRatio() < 0.1 { // β beyond 84°
		steps = 3600
	}
	theta := make([]float64, steps+1)
	for i := range theta {
		theta[i] = 360 * float64(i) / float64(steps)
	}
	return theta
}

// secondOrder returns the second-order part of a motion, with φ = θ − μ and A the
// amplitude of the second order of lead:
//
//	lead = −A·sin 2φ    ratio = 1 − 2A·cos 2φ    accel = 4A·sin 2φ
func secondOrder(m kinematics.Motion) func(theta float64) kinematics.State {
	amplitude, azimuth := m.SecondOrder(), m.Azimuth()
	return func(theta float64) kinematics.State {
		sin, cos := math.Sincos(2 * (theta - azimuth))
		return kinematics.State{Lead: -amplitude * sin, Ratio: 1 - 2*amplitude*cos, Accel: 4 * amplitude * sin}
	}
}

// figure shows all shafts and, below, what is left at the end.
func (q quantity) figure(t *turning, title, caption string) *page.Figure {
	every := q.everyShaft(t, t.leftName())
	every.X.Bare = true
	return &page.Figure{
		Title:    title,
		Subtitle: t.subtitle(),
		Rows:     []page.Row{{Panels: []*page.Panel{every}, Height: 1.3}, {Panels: []*page.Panel{q.leftApart(t)}}},
		Caption:  caption,
		Size:     page.Tall,
	}
}

// panel returns the axes of a quantity over a turn.
func (q quantity) panel(drive Drive) *page.Panel {
	shaft := "first"
	if drive == Coasting {
		shaft = "last"
	}
	return &page.Panel{
		X: turnAxis(shaft),
		Y: page.Axis{Label: q.label, Least: page.Around(0, q.floor)},
	}
}

// turnAxis is a turn of the first or the last shaft.
func turnAxis(shaft string) page.Axis {
	return page.Axis{Label: fmt.Sprintf("rotation of the %s shaft θ, °", shaft), Range: page.Interval{Min: 0, Max: 360}, Ticker: page.Turn{}}
}

// overTurn returns the values of a function at every degree of a turn; theta is in rad.
func overTurn(of func(theta float64) float64) plotter.XYs {
	points := make(plotter.XYs, 361)
	for i := range points {
		points[i] = plotter.XY{X: float64(i), Y: of(float64(i) * kinematics.Degree)}
	}
	return points
}

// everyShaft shows all shafts, the one with what is left standing out under a name of its
// own.
func (q quantity) everyShaft(t *turning, left string) *page.Panel {
	p := q.panel(t.drive)
	for k, m := range t.motions {
		if k != t.left() {
			p.Add(q.curve(t.shaft(k), m, page.Pen(k)))
		}
	}
	p.Add(q.curve(left, t.motion(), page.Accent()))
	if t.cancels() { // both ends turn alike: the thinner line is seen on the other
		p.Add(q.curve("", t.motions[t.source()], page.Pen(t.source())))
	}
	return p
}

// leftApart shows what is left alone, with its second-order part.
func (q quantity) leftApart(t *turning) *page.Panel {
	m := t.motion()
	p := q.panel(t.drive)
	p.Title = upperFirst(t.leftName()) + ", and its second-order part (dashed)"
	p.Add(
		page.Rule{At: 0, Pen: zeroLine},
		q.curve(t.leftName(), m, page.Accent()),
		q.sampled("", positions(m), secondOrder(m), theoryLine),
	)
	return p
}

// Pens that the figures share.
var (
	zeroLine   = draw.LineStyle{Color: page.Line, Width: 0.8}
	theoryLine = draw.LineStyle{Color: page.Ink, Width: 1, Dashes: []vg.Length{3, 2}} // on top of a heavy curve
)
