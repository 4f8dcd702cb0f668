package plotting

import (
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"strings"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/plotting/page"
)

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

// number writes the numbers of the joints, away from the numbers on other arrows. Where one
// would cover another it is left out.
func (d vectorDiagram) number(s *page.Sketch) {
	const clear = 1 // em between the middles of two numbers, at least
	var written []vg.Point
	for k, a := range d.arrows {
		if a.like != k || a.length() < 1e-9 { // deg², no more than rounding
			continue
		}
		var best numberPlace
		var centre vg.Point
		widest := clear * s.Em()
		for _, p := range numberPlaces(s, a) {
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

// A numberPlace is where the number of an arrow may stand.
type numberPlace struct {
	at   plotter.XY
	side page.Side
}

// numberPlaces returns the places for a number on an arrow, or beside one that is too short
// to carry it, the best first.
func numberPlaces(s *page.Sketch, a arrow) []numberPlace {
	var places []numberPlace
	if s.Length(a.length()) < 3*s.Em() {
		for _, side := range []page.Side{page.Above, page.Below, page.Right, page.Left} {
			places = append(places, numberPlace{a.at(0.5), side})
		}
		return places
	}
	for _, part := range []float64{0.5, 0.4, 0.6, 0.3, 0.7} {
		places = append(places, numberPlace{a.at(part), page.Middle})
	}
	return places
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

// arrowPen is the pen of arrow k. Arrows are told apart by their numbers as well.
func arrowPen(k int) draw.LineStyle { return draw.LineStyle{Color: page.Pen(k).Color, Width: 1.8} }

func inSquareDegrees(v complex128) plotter.XY {
	return plotter.XY{X: real(v) / squareDegree, Y: imag(v) / squareDegree}
}

// squareAround returns the corners of a square about the origin.
func squareAround(half float64) []plotter.XY {
	return []plotter.XY{{X: -half, Y: -half}, {X: half, Y: half}}
}
