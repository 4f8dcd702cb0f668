package plotting

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Phasing returns the figure of what the phase of a shaft does to the last shaft: its
// speed as the driveline is, with the best phase and a quarter turn from that, and the
// equivalent angle at every phase. Of several shafts it is the one whose phase can do
// most.
func Phasing(c *Case) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if c.last() < 2 {
		return nil, errors.New("phasing: the driveline has no shaft between two joints: want at least one")
	}
	p, err := newPhased(c)
	if err != nil {
		return nil, err
	}
	return &page.Figure{
		Title:    "In phase or out of phase: what does it change?",
		Subtitle: c.subtitle(),
		Rows:     []page.Row{{Panels: []*page.Panel{p.speeds(), p.angles()}, Widths: []float64{1.4, 1}}},
		Caption:  p.caption(),
	}, nil
}

// phased is a driveline and the shaft whose phase is turned.
type phased struct {
	*Case
	turned         int
	now, best, out phase // as it is, the best, and a quarter turn from that, which is the worst
	all            []phase
}

// A phase is one of a shaft, in radians, and what it leaves at the last shaft.
type phase struct {
	angle float64
	left  kinematics.Motion
}

// newPhased chooses the shaft whose best phase leaves least, and turns it.
func newPhased(c *Case) (*phased, error) {
	p := &phased{Case: c}
	for k := 1; k < c.last(); k++ {
		best, err := c.Driveline.BestPhase(k)
		if err != nil {
			return nil, err
		}
		if p.turned == 0 || best.Left.Angle() < p.best.left.Angle() {
			p.turned, p.best = k, phase{best.Phase, best.Left}
		}
	}
	shafts := c.Driveline.Shafts()
	p.now = phase{lineAngle(shafts[p.turned].Phase), c.Analysis.Driving[c.last()]}
	d, err := kinematics.New(shafts, c.Driveline.Joints())
	if err != nil {
		return nil, err
	}
	var motions []kinematics.Motion
	at := func(angle float64) (phase, error) {
		shafts[p.turned].Phase = angle
		err := d.Set(shafts)
		motions = d.Driving(motions)
		return phase{angle, motions[c.last()]}, err
	}
	for deg := -90; deg <= 90; deg++ {
		tried, err := at(float64(deg) * kinematics.Degree)
		if err != nil {
			return nil, err
		}
		p.all = append(p.all, tried)
	}
	p.out, err = at(lineAngle(p.best.angle + math.Pi/2))
	return p, err
}

// lineAngle brings a phase into (−90°, 90°]: ears half a turn on lie on the same line.
func lineAngle(phase float64) float64 {
	phase = math.Remainder(phase, math.Pi)
	if phase <= -math.Pi/2 {
		phase += math.Pi
	}
	return phase + 0
}

func (p phase) String() string { return fewest(p.angle/kinematics.Degree) + "°" }

// speeds shows the speed of the last shaft at the three phases.
func (p *phased) speeds() *page.Panel {
	panel := speed.panel(Driving)
	panel.Title = "Speed of " + p.shaft(p.last())
	panel.Add(
		speed.curve(fmt.Sprintf("a quarter turn from the best: phase %v", p.out), p.out.left, page.Pen(1)),
		speed.curve(fmt.Sprintf("best: phase %v", p.best), p.best.left, page.Pen(0)),
		speed.curve(fmt.Sprintf("as it is: phase %v", p.now), p.now.left, page.Accent()),
	)
	return panel
}

// angles shows what is left at every phase.
func (p *phased) angles() *page.Panel {
	panel := &page.Panel{
		Title: "What is left, as one joint",
		X:     page.Axis{Label: "phase of " + p.shaft(p.turned) + ", °", Range: page.Interval{Min: -90, Max: 90}, Ticker: page.Turn{Minor: 15}},
		Y:     page.Axis{Label: "equivalent angle, °", Least: page.Interval{Min: 0, Max: angleFloor}},
	}
	all := page.Curve{Pen: draw.LineStyle{Color: page.Ink, Width: 1.3}}
	var points plotter.XYs
	for _, tried := range p.all {
		points = append(points, plotter.XY{X: tried.angle / kinematics.Degree, Y: tried.left.Angle() / kinematics.Degree})
	}
	all.Points = points
	panel.Add(p.out.rule("worst", page.Pen(1)), p.best.rule("best", page.Pen(0)), p.now.rule("as it is", page.Accent()), all)
	return panel
}

// angleFloor is the least range of an axis of equivalent angles, in degrees: far below
// what can be measured.
const angleFloor = 0.1

// rule marks the phase across the panel.
func (p phase) rule(name string, pen draw.LineStyle) page.Rule {
	pen.Width = 1
	return page.Rule{At: p.angle / kinematics.Degree, Upright: true, Pen: pen, Label: name + " " + degrees(p.left.Angle())}
}

func (p *phased) caption() string {
	name := p.shaft(p.turned)
	if p.best.left.Angle() > 0.999*p.out.left.Angle() {
		return fmt.Sprintf("The phase of %s changes nothing: there is no fluctuation on one of its sides.", name)
	}
	return fmt.Sprintf("The phase of %s is how far its driven-end ears are turned clockwise from its driving-end ears. As it is, %s, it leaves one joint at %s; the best, %s, leaves %s, a quarter turn from that %s.",
		name, p.now, degrees(p.now.left.Angle()), p.best, degrees(p.best.left.Angle()), degrees(p.out.left.Angle()))
}
