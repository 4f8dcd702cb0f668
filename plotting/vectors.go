package plotting

import (
	"cmp"
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"strings"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
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

// panel shows the vectors under the names that keys give them, on axes that reach all the
// given points. The x axis is what slows the last shaft at θ = 0, the y axis what speeds
// it up an eighth of a turn later: the deviation of its speed is −Re(v·e^{2jθ})/2.
func (d vectorDiagram) panel(reach []plotter.XY, keys []page.Key) *page.Panel {
	p := &page.Panel{
		Equal: true,
		X:     page.Axis{Label: "slower at θ = 0°, deg²"},
		Y:     page.Axis{Label: "faster at θ = 45°, deg²"},
	}
	p.Add(
		page.Drawing{
			Reach: reach,
			Draw: func(s *page.Sketch) {
				if d.limit > 0 {
					s.Circle(page.Shade, page.Limit(), plotter.XY{}, s.Length(d.limit))
				}
			},
		},
		page.Rule{At: 0, Pen: zeroLine},
		page.Rule{At: 0, Upright: true, Pen: zeroLine},
		page.Drawing{Draw: d.draw, Keys: keys},
	)
	return p
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

// arrowPen is the pen of arrow k. Arrows are told apart by their numbers as well.
func arrowPen(k int) draw.LineStyle { return draw.LineStyle{Color: page.Pen(k).Color, Width: 1.8} }

// Neighbours are joints behind each other, from the first to the last, that have one arrow
// together.
type neighbours struct{ first, last int }

// neighbours returns those of all arrows: each joint by itself or, of more than can be told
// apart, equally many together, an even number, since most of two neighbours cancels.
func (c *Case) neighbours() []neighbours {
	const most = 16 // arrows
	together := 1
	for n := len(c.Joints); n > most*together; {
		together += 2 - together%2
	}
	var list []neighbours
	for k := 0; k < len(c.Joints); k += together {
		list = append(list, neighbours{k, min(k+together, len(c.Joints)) - 1})
	}
	return list
}

func (n neighbours) String() string {
	if n.first == n.last {
		return fmt.Sprint(n.first + 1)
	}
	return fmt.Sprintf("%d–%d", n.first+1, n.last+1)
}

func (n neighbours) sum(terms []complex128) (sum complex128) {
	for _, term := range terms[n.first : n.last+1] {
		sum += term
	}
	return sum
}

// vectorDiagram is the terms laid head to tail from the origin, in deg².
type vectorDiagram struct {
	of     []neighbours
	arrows []arrow    // of each of them
	sum    plotter.XY // where the last of them ends
	exact  plotter.XY // where the exact motion ends
	limit  float64    // of the length of the sum; 0: none
}

func (c *Case) vectorDiagram(limit float64) vectorDiagram {
	left := c.Analysis.Driving[c.last()]
	d := vectorDiagram{
		of:    c.neighbours(),
		exact: inSquareDegrees(cmplx.Rect(left.Angle()*left.Angle(), -2*left.Azimuth())),
		limit: limit * limit / squareDegree,
	}
	var at complex128
	for _, n := range d.of {
		to := at + n.sum(c.Analysis.SecondOrder.Terms)
		d.arrows = append(d.arrows, arrow{from: inSquareDegrees(at), to: inSquareDegrees(to)})
		at = to
	}
	d.sum = inSquareDegrees(at)
	tellApart(d.arrows, arrow{to: d.sum}, width(d.reach()))
	return d
}

// remarks say why joints share an arrow and why arrows are bowed, where that is so.
func (d vectorDiagram) remarks() string {
	text := ""
	if n := d.of[0]; n.last > n.first {
		text += fmt.Sprintf(" With so many joints, each arrow is the sum of %d neighbours.", n.last-n.first+1)
	}
	if slices.ContainsFunc(d.arrows, func(a arrow) bool { return a.bow != 0 }) {
		text += " Arrows are bowed only to be told apart: both ends of each are where they belong."
	}
	return text
}

// reach returns all that the axes must show.
func (d vectorDiagram) reach() []plotter.XY {
	points := append(squareAround(max(d.limit, vectorFloor)), d.sum, d.exact)
	for _, a := range d.arrows {
		points = append(points, a.course(8)...)
	}
	return points
}

func (d vectorDiagram) draw(s *page.Sketch) {
	const smooth = 24
	s.Arrow(page.Accent(), plotter.XY{}, d.sum)
	for k, a := range d.arrows {
		s.Arrow(arrowPen(k), a.course(smooth)...)
	}
	d.number(s)
	s.Circle(page.Ink, draw.LineStyle{}, plotter.XY{}, 0.2*s.Em())
	s.Circle(nil, draw.LineStyle{Color: page.Ink, Width: 1}, d.exact, 0.4*s.Em())
}

// number writes the numbers of the joints on the arrows, or beside those too short to
// carry one, away from the numbers on other arrows. Where one would cover another it is
// left out.
func (d vectorDiagram) number(s *page.Sketch) {
	const clear = 1 // em between the middles of two numbers, at least
	type place struct {
		at   plotter.XY
		side page.Side
	}
	var written []vg.Point
	for k, a := range d.arrows {
		if a.like != k || a.length() < 1e-9 { // deg², no more than rounding
			continue
		}
		var places []place
		if s.Length(a.length()) < 3*s.Em() {
			for _, side := range []page.Side{page.Above, page.Below, page.Right, page.Left} {
				places = append(places, place{a.at(0.5), side})
			}
		} else {
			for _, part := range []float64{0.5, 0.4, 0.6, 0.3, 0.7} {
				places = append(places, place{a.at(part), page.Middle})
			}
		}
		var best place
		var centre vg.Point
		widest := clear * s.Em()
		for _, p := range places {
			c := s.Beside(p.at, p.side, 1)
			gap := 2 * clear * s.Em() // more is no better
			for _, o := range written {
				gap = min(gap, vg.Length(math.Hypot(float64(c.X-o.X), float64(c.Y-o.Y))))
			}
			if gap > widest {
				best, centre, widest = p, c, gap
			}
		}
		if widest > clear*s.Em() {
			written = append(written, centre)
			s.Text(best.at, best.side, d.numbers(k))
		}
	}
}

// numbers returns those of all joints whose arrows lie on arrow k.
func (d vectorDiagram) numbers(k int) string {
	var list []string
	for i, a := range d.arrows {
		if a.like == k {
			list = append(list, d.of[i].String())
		}
	}
	if n := len(list); n > 5 {
		list = []string{list[0], list[1], "…", list[n-1]}
	}
	return strings.Join(list, " ")
}

func inSquareDegrees(v complex128) plotter.XY {
	return plotter.XY{X: real(v) / squareDegree, Y: imag(v) / squareDegree}
}

// squareAround returns the corners of a square about the origin.
func squareAround(half float64) []plotter.XY {
	return []plotter.XY{{X: -half, Y: -half}, {X: half, Y: half}}
}
