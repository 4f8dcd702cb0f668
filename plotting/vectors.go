package plotting

import (
	"fmt"
	"math"
	"math/cmplx"

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
	f := &page.Figure{
		Title:    "What does each joint add, and what is left?",
		Subtitle: c.subtitle(),
		Legend:   page.LegendRight,
		Caption:  c.vectorCaption(),
	}
	f.Add(c.vectorPanel(limit, c.vectorKeys(limit)))
	return f, nil
}

func checkLimit(angle float64) error {
	if !(angle >= 0 && angle < math.Pi/2) {
		return fmt.Errorf("limit of the equivalent angle: %g deg: want 0 (none) or below 90 deg", angle/kinematics.Degree)
	}
	return nil
}

func (c *Case) vectorCaption() string {
	s := c.Analysis.SecondOrder
	return fmt.Sprintf("A Cardan joint adds an arrow as long as the square of its working angle; opposite arrows cancel. What is left acts like one joint at %s by this sum, and exactly at %s.",
		degrees(s.Equivalent), degrees(s.Exact))
}

// vectorPanel shows the vectors under the names that keys give them. The x axis is what
// slows the last shaft at θ = 0, the y axis what speeds it up an eighth of a turn later:
// the deviation of its speed is −Re(v·e^{2jθ})/2.
func (c *Case) vectorPanel(limit float64, keys []page.Key) *page.Panel {
	d := c.vectorDiagram()
	radius := limit * limit / squareDegree
	p := &page.Panel{
		Equal: true,
		X:     page.Axis{Label: "slower at θ = 0°, deg²"},
		Y:     page.Axis{Label: "faster at θ = 45°, deg²"},
	}
	p.Add(
		page.Drawing{
			Reach: append(squareAround(max(radius, vectorFloor)), d.reach()...),
			Draw: func(s *page.Sketch) {
				if limit > 0 {
					s.Circle(page.Shade, page.Limit(), plotter.XY{}, s.Length(radius))
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
	for k, term := range s.Terms {
		keys = append(keys, page.Key{
			Name: fmt.Sprintf("%d %s, %s: %s deg²", k+1, c.joint(k), degrees(c.Analysis.Bends[k].Angle), significant(cmplx.Abs(term)/squareDegree)),
			Pen:  arrowPen(k),
		})
	}
	keys = append(keys,
		page.Key{Name: fmt.Sprintf("what is left, %s deg²: as one joint at %s", significant(cmplx.Abs(s.Sum)/squareDegree), degrees(s.Equivalent)), Pen: page.Accent()},
		page.Key{Name: "exactly: as one joint at " + degrees(s.Exact), Pen: draw.LineStyle{Color: page.Ink}, Marker: draw.RingGlyph{}})
	if limit > 0 {
		keys = append(keys, page.Key{Name: "limit: one joint at " + degrees(limit), Pen: page.Limit(), Fill: page.Shade})
	}
	return keys
}

// arrowPen is the pen of the arrow of joint k. Arrows are told apart by their numbers as
// well.
func arrowPen(k int) draw.LineStyle { return draw.LineStyle{Color: page.Pen(k).Color, Width: 1.8} }

// vectorDiagram is the terms laid head to tail from the origin, in deg².
type vectorDiagram struct {
	arrows [][2]plotter.XY // of every joint, from tail to head
	sum    plotter.XY      // where the last of them ends
	exact  plotter.XY      // where the exact motion ends
}

func (c *Case) vectorDiagram() vectorDiagram {
	terms := c.Analysis.SecondOrder.Terms
	left := c.Analysis.Driving[c.last()]
	step := sidestep(terms)
	d := vectorDiagram{exact: inSquareDegrees(cmplx.Rect(left.Angle()*left.Angle(), -2*left.Azimuth()))}
	var at complex128
	for k, term := range terms {
		lane := complex(float64(k+1), 0) * step
		d.arrows = append(d.arrows, [2]plotter.XY{inSquareDegrees(at + lane), inSquareDegrees(at + term + lane)})
		at += term
	}
	d.sum = inSquareDegrees(at)
	return d
}

// sidestep returns by how much each arrow must step aside from the one before it to be
// seen: nothing if they enclose an area, a little upward where one folds back over
// another or all lie along one line, as one joint does with its sum.
func sidestep(terms []complex128) complex128 {
	var largest complex128
	along, folded := true, false
	for k, term := range terms {
		if cmplx.Abs(term) > cmplx.Abs(largest) {
			largest = term
		}
		if k > 0 {
			along = along && parallel(terms[k-1], term)
			folded = folded || (parallel(terms[k-1], term) && real(terms[k-1]*cmplx.Conj(term)) < 0)
		}
	}
	if largest == 0 || !along && !folded {
		return 0
	}
	aside := largest / complex(cmplx.Abs(largest), 0) * 1i
	if imag(aside) < 0 {
		aside = -aside
	}
	return aside * complex(0.06*cmplx.Abs(largest), 0)
}

// parallel reports whether two arrows cover each other where they meet: whether the end
// of the shorter one is less than a tenth of its length from the line of the other, or it
// is too short to be seen beside the other.
func parallel(a, b complex128) bool {
	if cmplx.Abs(a) < cmplx.Abs(b) {
		a, b = b, a
	}
	return cmplx.Abs(b) < 0.1*cmplx.Abs(a) || math.Abs(imag(b*cmplx.Conj(a))) < 0.1*cmplx.Abs(a)*cmplx.Abs(b)
}

// reach returns all ends of arrows.
func (d vectorDiagram) reach() []plotter.XY {
	points := []plotter.XY{d.sum, d.exact}
	for _, a := range d.arrows {
		points = append(points, a[:]...)
	}
	return points
}

func (d vectorDiagram) draw(s *page.Sketch) {
	at := plotter.XY{}
	for _, a := range d.arrows {
		s.Polyline(page.Aid(), at, a[0]) // where it steps aside
		at = a[1]
	}
	s.Polyline(page.Aid(), at, d.sum)
	s.Arrow(page.Accent(), plotter.XY{}, d.sum)
	for k, a := range d.arrows {
		s.Arrow(arrowPen(k), a[0], a[1])
	}
	var numbers []vg.Point
	for k, a := range d.arrows {
		if a[0] != a[1] {
			number(s, k+1, a[0], a[1], &numbers)
		}
	}
	s.Circle(page.Ink, draw.LineStyle{}, plotter.XY{}, 0.2*s.Em())
	s.Circle(nil, draw.LineStyle{Color: page.Ink, Width: 1}, d.exact, 0.4*s.Em())
}

// number writes a number on an arrow, or beside one too short to carry it, away from the
// numbers on other arrows.
func number(s *page.Sketch, n int, from, to plotter.XY, others *[]vg.Point) {
	a, b := s.At(from), s.At(to)
	if math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)) < float64(3*s.Em()) {
		s.Text(plotter.XY{X: (from.X + to.X) / 2, Y: (from.Y + to.Y) / 2}, page.Above, fmt.Sprint(n))
		return
	}
	best, widest := 0.0, vg.Length(-1)
	for _, part := range []float64{0.5, 0.4, 0.6, 0.3, 0.7} {
		gap := 1.2 * s.Em() // more is no better
		for _, o := range *others {
			p := a.Add(b.Sub(a).Scale(vg.Length(part)))
			gap = min(gap, vg.Length(math.Hypot(float64(p.X-o.X), float64(p.Y-o.Y))))
		}
		if gap > widest {
			best, widest = part, gap
		}
	}
	*others = append(*others, a.Add(b.Sub(a).Scale(vg.Length(best))))
	s.Text(plotter.XY{X: from.X + best*(to.X-from.X), Y: from.Y + best*(to.Y-from.Y)}, page.Middle, fmt.Sprint(n))
}

func inSquareDegrees(v complex128) plotter.XY {
	return plotter.XY{X: real(v) / squareDegree, Y: imag(v) / squareDegree}
}

// squareAround returns the corners of a square about the origin.
func squareAround(half float64) []plotter.XY {
	return []plotter.XY{{X: -half, Y: -half}, {X: half, Y: half}}
}
