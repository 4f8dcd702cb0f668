package plotting

import (
	"halfturn/plotting/page"
)

// Sheet returns one page with everything about a driveline: both views, speed,
// acceleration and second-order vectors. limit is that of Vectors. Pages that are wider
// than tall have the curves side by side.
func Sheet(c *Case, limit float64, size page.Size) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if err := checkLimit(limit); err != nil {
		return nil, err
	}
	t := c.over(Driving)
	speeds := speed.everyShaft(t, t.leftName())
	speeds.Title = "How evenly each shaft turns"
	accels := accelerationOf(c.RPM).everyShaft(t, t.leftName())
	accels.Title = "How hard each shaft is shaken"
	d := c.vectorDiagram(limit)
	sum := d.panel(d.reach(), nil) // its numbers are those of the joints in the view
	sum.Title = "What each joint adds, and their sum"

	f := &page.Figure{
		Title:   brief(c.Name, longestName),
		Facts:   c.facts(),
		Legend:  page.LegendBottom,
		Caption: t.speedCaption() + " " + signRule + " Ears as at θ = 0, when those of the first shaft lie level.",
		Size:    size,
	}
	views := newViewDrawing(c)
	switch {
	case size.Width > size.Height:
		f.Size.Text = max(0.6*size.Text, size.Least) // there is more on it than on other wide pages
		f.Rows = append(views.sideBySide(1.4), page.Row{Panels: []*page.Panel{speeds, accels, sum}})
	case views.steep():
		f.Rows = append(views.sideBySide(1.4), page.Row{Panels: []*page.Panel{speeds}}, page.Row{Panels: []*page.Panel{accels, sum}})
	default:
		f.Rows = append(views.stacked(0.9), page.Row{Panels: []*page.Panel{speeds}}, page.Row{Panels: []*page.Panel{accels, sum}})
	}
	return f, nil
}

// signRule says what the signs mean.
const signRule = "Look along the power flow: down, right and clockwise are positive."

// facts are the data of a driveline in numbers.
func (c *Case) facts() []page.Fact {
	var facts []page.Fact
	if c.RPM > 0 {
		facts = append(facts,
			page.Fact{Name: "speed", Value: revolutions(c.RPM)},
			page.Fact{Name: "second order", Value: significant(c.RPM/30) + " Hz"})
	}
	last := c.Analysis.Driving[c.last()]
	facts = append(facts,
		page.Fact{Name: "left, as one joint", Value: degrees(last.Angle())},
		page.Fact{Name: "vector sum", Value: degrees(c.Analysis.SecondOrder.Equivalent)},
	)
	if c.RPM > 0 {
		facts = append(facts, page.Fact{Name: "peak acceleration", Value: significant(accelerationOf(c.RPM).unit*last.PeakAccel()) + " rad/s²"})
	}
	return facts
}
