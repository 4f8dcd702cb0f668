package plotting

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Orders returns the figure of the orders of the last shaft's lead, exact and by the
// small-angle theory of one joint at the equivalent angle β of the vector sum:
//
//	order m: (2/m)·(β/2)^m
func Orders(c *Case) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	f := &page.Figure{Title: "Which orders are left?", Subtitle: c.subtitle(), Caption: c.ordersCaption()}
	f.Add(c.ordersPanel())
	return f, nil
}

func (c *Case) ordersCaption() string {
	exact := aboveFloor(c.exactOrders())
	if len(exact) == 0 {
		return fmt.Sprintf("The joints cancel: no order at %s is above rounding, 6·10⁻¹⁴ degrees.", c.shaft(c.last()))
	}
	text := "Cardan joints make even orders only"
	if len(exact) > 1 {
		text += fmt.Sprintf("; order 4 has %s %% of order 2", significant(100*exact[1].Y/exact[0].Y))
	}
	return fmt.Sprintf("%s. By small-angle theory order m is the m-th power of β/2, times 2/m, with β = %s, the equivalent angle to first order. What is below 6·10⁻¹⁴ degrees is rounding and not shown.",
		text, degrees(c.Analysis.SecondOrder.Equivalent))
}

// orderFloor is the least amplitude shown, in degrees.
const orderFloor = kinematics.NoiseFloor / kinematics.Degree

func (c *Case) ordersPanel() *page.Panel {
	p := &page.Panel{
		X: page.Axis{Label: "order: times per turn", Range: page.Interval{Min: 1, Max: 9}, Ticker: plot.ConstantTicks{{Value: 2, Label: "2"}, {Value: 4, Label: "4"}, {Value: 6, Label: "6"}, {Value: 8, Label: "8"}}},
		Y: page.Axis{Label: "amplitude of lead at " + c.shaft(c.last()) + ", °"},
	}
	exact, theory := aboveFloor(c.exactOrders()), aboveFloor(c.theoryOrders())
	if len(exact)+len(theory) > 0 {
		p.Y.Log = true
	} else { // zeros have no place on a logarithmic axis
		p.Y.Least = page.Around(0, leastOrder)
		exact, theory = zeros(c.exactOrders()), zeros(c.theoryOrders())
	}
	p.Add(orderMarks(theory, exact))
	return p
}

// leastOrder is half of the least range of an axis with a zero, in degrees: what one joint
// of 0.7° leaves.
const leastOrder = 0.002

// zeros returns the points without what is left of rounding.
func zeros(points []plotter.XY) []plotter.XY {
	for i := range points {
		points[i].Y = 0
	}
	return points
}

// aroundGlyph is a ring that can be seen around another marker.
type aroundGlyph struct{}

// DrawGlyph implements draw.GlyphDrawer.
func (aroundGlyph) DrawGlyph(c *draw.Canvas, style draw.GlyphStyle, at vg.Point) {
	style.Radius *= 1.6
	page.Ring{}.DrawGlyph(c, style, at)
}

// exactOrders returns the amplitudes of the orders of the last shaft's lead, in degrees.
func (c *Case) exactOrders() []plotter.XY {
	var points []plotter.XY
	for _, o := range c.Analysis.Orders[c.last()] {
		points = append(points, plotter.XY{X: float64(o.Number), Y: o.Lead / kinematics.Degree})
	}
	return points
}

func (c *Case) theoryOrders() []plotter.XY {
	half := c.Analysis.SecondOrder.Equivalent / 2
	var points []plotter.XY
	for _, o := range c.Analysis.Orders[c.last()] {
		m := float64(o.Number)
		points = append(points, plotter.XY{X: m, Y: 2 / m * math.Pow(half, m) / kinematics.Degree})
	}
	return points
}

func aboveFloor(points []plotter.XY) []plotter.XY {
	var above []plotter.XY
	for _, p := range points {
		if p.Y >= orderFloor {
			above = append(above, p)
		}
	}
	return above
}

// orderMarks are markers and their values beside them.
func orderMarks(theory, exact []plotter.XY) page.Drawing {
	ring := page.Key{Name: "small-angle theory (number on the left)", Pen: draw.LineStyle{Color: page.Ink}, Marker: aroundGlyph{}}
	dot := page.Key{Name: "exact (number on the right)", Pen: draw.LineStyle{Color: page.Signal}, Marker: draw.CircleGlyph{}}
	return page.Drawing{
		Reach: slices.Concat(theory, exact),
		Keys:  []page.Key{ring, dot},
		Draw: func(s *page.Sketch) {
			values(s, theory, page.Left)
			values(s, exact, page.Right)
			markers(s, theory, ring)
			markers(s, exact, dot)
		},
	}
}

// hard is a space that no format takes off the ends of a text.
const hard = "\u00a0"

// values writes the values beside where the rings end.
func values(s *page.Sketch, points []plotter.XY, side page.Side) {
	for _, p := range points {
		s.Text(p, side, hard+amplitude(p.Y)+hard)
	}
}

func markers(s *page.Sketch, points []plotter.XY, key page.Key) {
	for _, p := range points {
		s.Marker(key.Pen.Color, key.Marker, p)
	}
}

// amplitude writes a value with three digits that matter, in powers of ten where it is
// small.
func amplitude(v float64) string {
	if v >= 0.001 || v == 0 {
		return significant(v)
	}
	e := int(math.Floor(math.Log10(v)))
	return fmt.Sprintf("%.2f·%s", v/math.Pow10(e), page.PowerOfTen(e))
}
