package plotting

import (
	"cmp"
	"fmt"
	"math"
	"math/cmplx"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Vectors returns the figure of what every joint contributes to the second order of the
// last shaft and how the contributions add: laid head to tail, with the sum as the
// closing arrow and the exact result beside it. limit is the acceptable equivalent angle
// in radians, drawn as a circle about the start; 0: none.
func Vectors(c *Case, limit float64) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if err := checkLimit(limit); err != nil {
		return nil, err
	}
	d := c.vectorDiagram(limit)
	f := &page.Figure{
		Title:    vectorTitle,
		Subtitle: c.subtitle(),
		Legend:   page.LegendRight,
		Caption: fmt.Sprintf("%s What is left acts like one joint at %s by this sum, and exactly at %s.%s", vectorRule,
			degrees(c.Analysis.SecondOrder.Equivalent), degrees(c.Analysis.SecondOrder.Exact), d.remarks()),
	}
	f.Add(d.panel(d.reach(), c.vectorKeys(limit)))
	return f, nil
}

const (
	vectorTitle = "What does each joint add, and what is left?"
	vectorRule  = "A Cardan joint adds an arrow as long as the square of its working angle; opposite arrows cancel."
)

// CompareVectors returns the vectors of several drivelines side by side, all to one
// scale. limits are those of Vectors, one for each driveline.
func CompareVectors(cases []*Case, limits []float64) (*page.Figure, error) {
	const most = 4 // that can be read side by side
	if len(cases) < 2 || len(cases) > most || len(limits) != len(cases) {
		return nil, fmt.Errorf("vectors: %d drivelines and %d limits: want 2 to %d, and as many limits", len(cases), len(limits), most)
	}
	var reach []plotter.XY
	diagrams := make([]vectorDiagram, len(cases))
	for i, c := range cases {
		if err := c.check(); err != nil {
			return nil, err
		}
		if err := checkLimit(limits[i]); err != nil {
			return nil, err
		}
		diagrams[i] = c.vectorDiagram(limits[i])
		reach = append(reach, diagrams[i].reach()...)
	}
	var panels []*page.Panel
	remark := ""
	for i, c := range cases {
		p := diagrams[i].panel(reach, c.vectorKeys(limits[i]))
		p.Title = c.subtitle()
		panels = append(panels, p)
		remark = cmp.Or(remark, diagrams[i].remarks())
	}
	f := &page.Figure{Title: vectorTitle, Subtitle: "Several drivelines, to one scale", Legend: page.LegendPanels, Caption: vectorRule + remark, Size: page.Tall}
	f.Add(panels...)
	return f, nil
}

func checkLimit(angle float64) error {
	if !(angle >= 0 && angle < math.Pi/2) {
		return fmt.Errorf("limit of the equivalent angle: %g deg: want 0 (none) or below 90 deg", angle/kinematics.Degree)
	}
	return nil
}

// squareDegree is one deg² in rad².
const squareDegree = kinematics.Degree * kinematics.Degree

// vectorFloor is the least half width of the diagram in deg²: the square of 0.3°.
const vectorFloor = 0.1

// vectorKeys name the arrows, with their sizes.
func (c *Case) vectorKeys(limit float64) []page.Key {
	s := c.Analysis.SecondOrder
	var keys []page.Key
	for i, n := range c.neighbours() {
		name := "joints " + n.String()
		if n.first == n.last {
			name = fmt.Sprintf("%v %s, %s", n, c.joint(n.first), degrees(c.Analysis.Bends[n.first].Angle))
		}
		keys = append(keys, page.Key{Name: fmt.Sprintf("%s: %s deg²", name, significant(cmplx.Abs(n.sum(s.Terms))/squareDegree)), Pen: arrowPen(i)})
	}
	keys = append(keys,
		page.Key{Name: fmt.Sprintf("what is left, %s deg²: as one joint at %s", significant(cmplx.Abs(s.Sum)/squareDegree), degrees(s.Equivalent)), Pen: page.Accent()},
		page.Key{Name: "exactly: as one joint at " + degrees(s.Exact), Pen: draw.LineStyle{Color: page.Ink}, Marker: page.Ring{}})
	if limit > 0 {
		keys = append(keys, page.Key{Name: "limit: one joint at " + degrees(limit), Pen: page.Limit(), Fill: page.Shade})
	}
	return keys
}
