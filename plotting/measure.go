package plotting

import (
	"fmt"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// A Place is something that is measured of a shaft, which counts from 0.
type Place struct {
	What  Measured
	Shaft int
}

// Measured is what is measured.
type Measured string

// What can be measured of a shaft.
const (
	MeasuredSlope    Measured = "slope"
	MeasuredLength   Measured = "length"
	MeasuredSideways Measured = "sideways"
	MeasuredPhase    Measured = "phase"
)

// Measure returns a drawing, not to scale, of a driveline with joints of the given kinds
// in which the place is marked where something is measured: from the side, sideways runs
// from above, yokes by themselves.
func Measure(joints []kinematics.Kind, at Place) (*page.Figure, error) {
	if at.Shaft < 0 || at.Shaft > len(joints) {
		return nil, fmt.Errorf("shaft %d of %d: want one of the driveline", at.Shaft, len(joints)+1)
	}
	for k, kind := range joints {
		if kind != "" && !slices.Contains(kinematics.Kinds, kind) {
			return nil, fmt.Errorf("joint %d: kind %q: want one of %q", k+1, kind, kinematics.Kinds)
		}
	}
	w := newWorkshop(joints, at.Shaft)
	paint := map[Measured]func(){
		MeasuredSlope: w.slope, MeasuredLength: w.length, MeasuredSideways: w.sideways, MeasuredPhase: w.phase,
	}[at.What]
	if paint == nil {
		return nil, fmt.Errorf("measured: %q: want slope, length, sideways or phase", at.What)
	}
	if at.What == MeasuredSideways {
		w.fromAbove()
	}
	low, high := w.reach()
	if at.What == MeasuredPhase {
		low, high = plotter.XY{X: -10, Y: -60}, plotter.XY{X: 270, Y: 70}
	}
	panel := &page.Panel{Equal: true, Bare: true, Layers: []plot.Plotter{page.Drawing{
		Reach: []plotter.XY{low, high},
		Draw: func(s *page.Sketch) {
			w.Sketch = s
			paint()
		},
	}}}
	return &page.Figure{Title: "Where to measure", Rows: []page.Row{{Panels: []*page.Panel{panel}}}, Size: page.Size{Width: 360, Height: 170, Text: 9}}, nil
}

// workshop draws a driveline as it hangs under a vehicle, in units of its own.
type workshop struct {
	*page.Sketch
	joints []kinematics.Kind
	points []plotter.XY // of the driving end, of every joint, of the driven end
	shaft  int          // that is measured
}

const (
	span  = 130.0 // of a shaft between two joints
	stub  = 62.0  // of a shaft at an end
	thick = 5.0   // half of a tube
)

func newWorkshop(joints []kinematics.Kind, shaft int) *workshop {
	w := &workshop{joints: joints, shaft: shaft}
	n := len(joints) + 1
	at := plotter.XY{}
	w.points = append(w.points, at)
	for k := range n {
		length, fall := span, 9.0
		if k == 0 || k == n-1 {
			length, fall = stub, 3
		}
		sin, cos := math.Sincos(fall * kinematics.Degree)
		at.X += length * cos
		at.Y -= length * sin
		w.points = append(w.points, at)
	}
	return w
}

// fromAbove lets the shafts run to the right, which from above, the flow to the right,
// is downwards as well; the ends run straight.
func (w *workshop) fromAbove() {
	for i := 1; i < len(w.points); i++ {
		w.points[i].Y *= 0.9
	}
}

// reach is the room that the driveline takes, with what is drawn beside it.
func (w *workshop) reach() (low, high plotter.XY) {
	last := w.points[len(w.points)-1]
	return plotter.XY{X: -32, Y: last.Y - 64}, plotter.XY{X: last.X + 32, Y: 48}
}

// Pens and colours of the workshop.
var (
	outline = draw.LineStyle{Color: page.Line, Width: 0.8}
	marked  = draw.LineStyle{Color: page.Accent().Color, Width: 1.4}
	tint    = color.RGBA{0xF8, 0xDD, 0xD2, 0xFF}
)

// line draws the whole driveline, the shaft that is measured standing out.
func (w *workshop) line() {
	first, last := w.points[0], w.points[len(w.points)-1]
	w.box(first, 0, -30, 22, -27, 27, page.Shade, outline) // what drives it
	w.Circle(page.Shade, outline, last, w.Length(28))      // what it drives
	for k := range len(w.points) - 1 {
		fill, pen := color.Color(page.Shade), outline
		if k == w.shaft {
			fill, pen = tint, marked
		}
		w.along(k, 0, 1, -thick, thick, fill, pen)
		if 0 < k && k < len(w.points)-3 { // the bearing in front of the next joint
			w.along(k, 0.8, 0.87, -2.4*thick, 2.4*thick, page.Paper, outline)
		}
	}
	for k, kind := range w.joints {
		w.joint(k, kind)
	}
	w.Arrow(draw.LineStyle{Color: page.Soft, Width: 1}, plotter.XY{X: first.X - 28, Y: last.Y - 58}, plotter.XY{X: first.X + 18, Y: last.Y - 58})
	w.Text(plotter.XY{X: first.X + 18, Y: last.Y - 58}, page.Right, "power flow")
}

func (w *workshop) joint(k int, kind kinematics.Kind) {
	at := w.points[k+1]
	ink := draw.LineStyle{Color: page.Ink, Width: 1}
	pins := func(c plotter.XY) {
		w.Circle(page.Paper, ink, c, w.Length(8))
		w.Polyline(ink, plotter.XY{X: c.X - 8, Y: c.Y}, plotter.XY{X: c.X + 8, Y: c.Y})
		w.Polyline(ink, plotter.XY{X: c.X, Y: c.Y - 8}, plotter.XY{X: c.X, Y: c.Y + 8})
	}
	switch kind {
	case kinematics.DoubleCardan:
		pins(plotter.XY{X: at.X - 9, Y: at.Y})
		pins(plotter.XY{X: at.X + 9, Y: at.Y})
	case kinematics.ConstantVelocity:
		w.Circle(page.Ink, ink, at, w.Length(8))
	case kinematics.Cardan, "":
		pins(at)
	default:
		panic(fmt.Sprintf("plotting: the workshop has no %s joint", kind))
	}
}

// ends returns where the measured shaft begins and ends, and its direction in radians.
func (w *workshop) ends(k int) (a, b plotter.XY, direction float64) {
	a, b = w.points[k], w.points[k+1]
	return a, b, math.Atan2(b.Y-a.Y, b.X-a.X)
}

// along draws a box along shaft k, from and to being parts of its length.
func (w *workshop) along(k int, from, to, below, above float64, fill color.Color, pen draw.LineStyle) {
	a, b, direction := w.ends(k)
	length := math.Hypot(b.X-a.X, b.Y-a.Y)
	w.box(a, direction, from*length, to*length, below, above, fill, pen)
}

// box draws a rectangle, turned by a direction about the point it is placed from.
func (w *workshop) box(at plotter.XY, direction, left, right, bottom, top float64, fill color.Color, pen draw.LineStyle) {
	sin, cos := math.Sincos(direction)
	corner := func(x, y float64) plotter.XY {
		return plotter.XY{X: at.X + x*cos - y*sin, Y: at.Y + x*sin + y*cos}
	}
	w.Polygon(fill, pen, corner(left, bottom), corner(right, bottom), corner(right, top), corner(left, top))
}

// gauge draws an inclinometer on a line through a point.
func (w *workshop) gauge(at plotter.XY, direction float64) {
	ink := draw.LineStyle{Color: page.Ink, Width: 1.2}
	w.box(at, direction, -20, 20, 0, 13, page.Paper, ink)
	sin, cos := math.Sincos(direction)
	centre := plotter.XY{X: at.X - 6.5*sin, Y: at.Y + 6.5*cos}
	w.Circle(tint, draw.LineStyle{Color: page.Ink, Width: 0.8}, centre, w.Length(4.5))
	w.Polyline(marked, centre, plotter.XY{X: centre.X, Y: centre.Y + 4.5})
}

// slope shows the gauge along the tube or, at the ends, on a flat and on the face of the
// flange.
func (w *workshop) slope() {
	w.line()
	a, b, direction := w.ends(w.shaft)
	sin, cos := math.Sincos(direction)
	on := func(part, height float64) plotter.XY {
		return plotter.XY{X: a.X + part*(b.X-a.X) - height*sin, Y: a.Y + part*(b.Y-a.Y) + height*cos}
	}
	last := len(w.joints)
	if 0 < w.shaft && w.shaft < last {
		w.gauge(on(0.45, thick), direction)
		return
	}
	flat, face := 0.5, 0.78
	if w.shaft == last {
		flat, face = 0.55, 0.22
	}
	w.gauge(on(flat-0.1, thick), direction)
	w.Text(on(flat-0.1, 20), page.Above, "on a flat")
	w.along(w.shaft, face-0.03, face+0.03, -46, 14, tint, marked) // the flange, its face to the joint
	upright, out := direction-math.Pi/2, 0.03
	if w.shaft == last {
		upright, out = direction+math.Pi/2, -out
	}
	w.gauge(on(face+out, -26), upright)
	w.Text(on(face, -46), page.Below, "or on the flange face")
}

// length shows the tape from cross to cross.
func (w *workshop) length() {
	w.line()
	a, b, direction := w.ends(w.shaft)
	sin, cos := math.Sincos(direction)
	shift := func(p plotter.XY, by float64) plotter.XY {
		return plotter.XY{X: p.X - by*sin, Y: p.Y + by*cos}
	}
	w.Polyline(marked, shift(a, 8), shift(a, 34))
	w.Polyline(marked, shift(b, 8), shift(b, 34))
	middle := plotter.XY{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	w.Arrow(marked, shift(middle, 28), shift(a, 28))
	w.Arrow(marked, shift(middle, 28), shift(b, 28))
	w.Text(shift(middle, 36), page.Above, "from cross to cross")
}

// sideways shows, from above, the marks of the plumb line and the line along the vehicle.
func (w *workshop) sideways() {
	w.line()
	a, b, _ := w.ends(w.shaft)
	base := 30.0
	left, right := w.points[0].X-20, w.points[len(w.points)-1].X+20
	w.Polyline(draw.LineStyle{Color: page.Soft, Width: 0.8, Dashes: page.Aid().Dashes}, plotter.XY{X: left, Y: base}, plotter.XY{X: right, Y: base})
	w.Text(plotter.XY{X: right, Y: base}, page.LeftAbove, "one straight line along the vehicle")
	for _, p := range []plotter.XY{a, b} {
		w.Arrow(marked, plotter.XY{X: p.X, Y: base}, plotter.XY{X: p.X, Y: p.Y + 8})
	}
	w.Text(plotter.XY{X: left, Y: base}, page.RightAbove, "from above")
}

// phase shows the two yokes of a shaft, in line and a quarter turn out.
func (w *workshop) phase() {
	for i, name := range []string{"in line", "a quarter turn out"} {
		y := 30 - 62*float64(i)
		at := func(x float64) plotter.XY { return plotter.XY{X: x, Y: y} }
		w.box(at(0), 0, 50, 190, -thick, thick, tint, marked)
		w.fork(at(50), -1)
		if i == 0 {
			w.fork(at(190), 1)
		} else {
			w.edge(at(190), 1)
		}
		w.Text(plotter.XY{X: 120, Y: y + 8}, page.Above, name)
	}
}

// fork draws a yoke at the end of a tube as it shows both its ears, edge as it shows one
// that hides the other, with the hole for the pin. Out of the end is 1 to the right.
func (w *workshop) fork(at plotter.XY, out float64) {
	for _, side := range []float64{-1, 1} {
		w.Polygon(tint, marked,
			plotter.XY{X: at.X, Y: at.Y},
			plotter.XY{X: at.X, Y: at.Y + 16*side},
			plotter.XY{X: at.X + 34*out, Y: at.Y + 16*side},
			plotter.XY{X: at.X + 34*out, Y: at.Y + 10*side},
			plotter.XY{X: at.X + 8*out, Y: at.Y + 10*side})
	}
}

func (w *workshop) edge(at plotter.XY, out float64) {
	w.Polygon(tint, marked,
		plotter.XY{X: at.X, Y: at.Y - 9}, plotter.XY{X: at.X, Y: at.Y + 9},
		plotter.XY{X: at.X + 34*out, Y: at.Y + 9}, plotter.XY{X: at.X + 34*out, Y: at.Y - 9})
	w.Circle(page.Paper, marked, plotter.XY{X: at.X + 24*out, Y: at.Y}, w.Length(5))
}
