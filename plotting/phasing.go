package plotting

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Phasing returns the figure of what the phase of a shaft does to the last shaft: its
// speed as the driveline is, with the best phase and a quarter turn from that, and the
// equivalent angle at every phase. The shaft, counted from 0, is one between two
// joints; 0 stands for the one whose phase can do most.
func Phasing(c *Case, shaft int) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	switch {
	case c.last() < 2:
		return nil, errors.New("phasing: the driveline has no shaft between two joints: want at least one")
	case shaft < 0 || shaft >= c.last():
		return nil, fmt.Errorf("phasing: shaft %d: want one between two joints, 2 to %d", shaft+1, c.last())
	}
	p, err := newPhased(c, shaft)
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

// newPhased turns a shaft, or the one whose best phase leaves least.
func newPhased(c *Case, shaft int) (*phased, error) {
	p := &phased{Case: c}
	for k := 1; k < c.last(); k++ {
		if shaft > 0 && k != shaft {
			continue
		}
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

// A namedPhase is shown apart, under a name.
type namedPhase struct {
	phase
	name string
	pen  draw.LineStyle
}

// marks returns the phases that are shown apart. What is the same phase goes under one
// name.
func (p *phased) marks() []namedPhase {
	now := namedPhase{p.now, "as it is", page.Accent()}
	if !p.matters() {
		return []namedPhase{now}
	}
	list := []namedPhase{{p.out, "worst", page.Pen(1)}, {p.best, "best", page.Pen(0)}}
	for i, m := range list {
		if m.String() == now.String() {
			now.name += ", the " + m.name
			list = slices.Delete(list, i, i+1)
			break
		}
	}
	return append(list, now)
}

// speeds shows the speed of the last shaft at these phases.
func (p *phased) speeds() *page.Panel {
	panel := speed.panel(Driving)
	panel.Title = "Speed of " + p.shaft(p.last())
	for _, m := range p.marks() {
		panel.Add(speed.curve(fmt.Sprintf("%s: phase %v", m.name, m.phase), m.left, m.pen))
	}
	return panel
}

// angles shows what is left at every phase.
func (p *phased) angles() *page.Panel {
	panel := &page.Panel{
		Title: "What is left, as one joint",
		X:     page.Axis{Label: "phase of " + p.shaft(p.turned) + ", °", Range: page.Interval{Min: -90, Max: 90}, Ticker: page.Turn{Minor: 15}},
		Y:     page.Axis{Label: "exact equivalent angle, °", Least: page.Interval{Min: 0, Max: angleFloor}},
	}
	all := page.Curve{Pen: draw.LineStyle{Color: page.Ink, Width: 1.3}}
	var points plotter.XYs
	for _, tried := range p.all {
		points = append(points, plotter.XY{X: tried.angle / kinematics.Degree, Y: tried.left.Angle() / kinematics.Degree})
	}
	all.Points = points
	for _, m := range p.marks() {
		pen := m.pen
		pen.Width = 1
		panel.Add(page.Rule{At: m.angle / kinematics.Degree, Upright: true, Pen: pen, Label: m.name + " " + degrees(m.left.Angle())})
	}
	panel.Add(all)
	return panel
}

// angleFloor is the least range of an axis of equivalent angles, in degrees: far below
// what can be measured.
const angleFloor = 0.1

// matters reports whether the phase changes anything.
func (p *phased) matters() bool { return p.best.left.Angle() <= 0.999*p.out.left.Angle() }

func (p *phased) caption() string {
	name := p.shaft(p.turned)
	if !p.matters() {
		return fmt.Sprintf("The phase of %s changes nothing: there is no fluctuation on one of its sides.", name)
	}
	best := fmt.Sprintf("; the best, %s, leaves %s", p.best, degrees(p.best.left.Angle()))
	if p.now.String() == p.best.String() {
		best = ", which is the best"
	}
	return fmt.Sprintf("The phase of %s is how far its driven-end ears are turned clockwise from its driving-end ears. As it is, %s, it leaves one joint at %s%s; a quarter turn from the best, %s, leaves most, %s.",
		name, p.now, degrees(p.now.left.Angle()), best, p.out, degrees(p.out.left.Angle()))
}
