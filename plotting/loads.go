package plotting

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// Loads returns the figure of what torque does to a case: the force on every centre
// bearing, seen along the power flow, or at the ends of the shaft without one where
// there is none, and what bends the shafts at every joint over a turn. Without the
// lengths, or behind one joint, it shows the couples alone. l are the loads of
// c.Driveline. size is that of the page that it will stand on, zero for one of its own:
// where that has no room for all bearings, only those shaken most are shown.
func Loads(c *Case, l *survey.Loads, size page.Size) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if l == nil || len(l.Couples.Joints) != len(c.Joints) {
		return nil, errors.New("loads: not those of the case: want what Survey.Loads returns for it")
	}
	supports := c.supports(l)
	f := c.loadFigure(l, supports)
	if size == (page.Size{}) {
		return f, nil
	}
	worst := slices.SortedStableFunc(slices.Values(supports), func(a, b support) int { return cmp.Compare(b.force.Swing(), a.force.Swing()) })
	for n := len(supports) - 1; n >= 1 && !roomy(*f, size); n-- {
		most := slices.DeleteFunc(slices.Clone(supports), func(s support) bool { return slices.Contains(worst[n:], s) })
		f = c.loadFigure(l, most)
		f.Subtitle += fmt.Sprintf(" · of %d centre bearings the %d shaken most", len(supports), n)
	}
	return f, nil
}

// roomy reports whether a figure has room for its data on a page.
func roomy(f page.Figure, size page.Size) bool {
	const least = 6 // em of the smallest text
	f.Size = size.Turned(f.Size)
	places, err := f.Places()
	return err == nil && !slices.ContainsFunc(places, func(p page.Place) bool { return p.Area.Size().Y < least*size.Least })
}

// loadFigure shows some of the supports.
func (c *Case) loadFigure(l *survey.Loads, supports []support) *page.Figure {
	f := &page.Figure{
		Title:    "What does torque do?",
		Subtitle: strings.TrimPrefix(strings.TrimSpace(brief(c.Name, 90))+" · "+torqueWords(l), " · "),
		Caption:  c.loadCaption(l),
	}
	couples := c.couplePanel(l)
	switch forces := forcePanels(supports, l.TorqueNM); len(forces) {
	case 0:
		f.Add(couples)
	case 1:
		f.Rows = []page.Row{{Panels: []*page.Panel{forces[0], couples}, Widths: []float64{1, 1.5}}}
		if len(c.Joints) > fewJoints { // their short names need not stand as wide as those of the forces
			f.Legend = page.LegendPanels
		}
	default:
		f.Size = page.Tall
		for row := range slices.Chunk(forces, 3) {
			f.Rows = append(f.Rows, page.Row{Panels: row, Height: 1.6})
		}
		f.Add(couples)
		f.Size.Height += vg.Length(200*(len(f.Rows)-2) + 7*max(0, len(c.Joints)-4)) // more rows, more curves to name
	}
	return f
}

// torqueWords is the torque that the loads are for.
func torqueWords(l *survey.Loads) string {
	if l.TorqueAssumed {
		return "for each " + fewest(l.TorqueNM) + " N·m of torque"
	}
	return fewest(l.TorqueNM) + " N·m of torque"
}

// fewJoints is how many joints can have a name for both of their curves.
const fewJoints = 4

// couplePanel shows what bends the two shafts at every joint over a turn.
func (c *Case) couplePanel(l *survey.Loads) *page.Panel {
	p := &page.Panel{
		Title: "What bends the shafts at the joints",
		X:     turnAxis("first"),
		Y:     page.Axis{Label: "couple, N·m", Least: page.Interval{Min: 0, Max: l.TorqueNM / forceFloor}},
	}
	many := len(c.Joints) > fewJoints
	if many {
		p.Title += ": driving (solid) and driven (dashed)"
	}
	for k, couple := range l.Couples.Joints {
		driving, driven := c.joint(k)+", on "+c.shaft(k), c.joint(k)+", on "+c.shaft(k+1)
		if many {
			driving, driven = c.joint(k), ""
		}
		p.Add(
			coupleCurve(driving, couple.Driving, draw.LineStyle{Color: page.Hue(k), Width: 1.5}),
			coupleCurve(driven, couple.Driven, draw.LineStyle{Color: page.Hue(k), Width: 1.5, Dashes: []vg.Length{4, 2}}),
		)
	}
	return p
}

func coupleCurve(name string, couple kinematics.Load, pen draw.LineStyle) page.Curve {
	points := overTurn(func(theta float64) float64 { return r3.Norm(couple.At(theta)) })
	return page.Curve{Name: name, Points: points, Pen: pen}
}

// loadCaption gives what can be relied on, and says what cannot.
func (c *Case) loadCaption(l *survey.Loads) string {
	var sentences []string
	switch supports := c.supports(l); {
	case l.Forces == nil:
		sentences = append(sentences, fmt.Sprintf("No forces are told: the length of %s is not given.", c.shaft(l.Unmeasured)))
	case len(supports) == 0:
		sentences = append(sentences, "What force one joint passes on is decided by the housings, and not told.")
	default:
		sentences = append(sentences, "The swing comes twice a turn, the same at any speed. Left out are friction of the slip and weight, which change the steady part, not the swing.")
	}
	if l.BearingsAssumed && l.Forces != nil {
		sentences = append(sentences, "No bearing is given: taken at the driven-end joint of each shaft but the last between two joints.")
	}
	return strings.Join(append(sentences, "The two shafts at a Cardan joint are bent by turns."), " ")
}
