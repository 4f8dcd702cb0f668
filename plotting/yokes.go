package plotting

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
)

// yokeView is where yokes are seen from.
var yokeView = viewFrom(eyeBehind*kinematics.Degree, eyeAbove*kinematics.Degree)

const (
	eyeBehind = 35
	eyeAbove  = 15
)

// viewCaption tells what is true in the picture of the yokes and what is not.
var viewCaption = fmt.Sprintf("Seen from the right, %d° from behind and %d° from above, without perspective. Angles and rotations are true, shafts are shortened; dark stripes and pins mark one side of each shaft.",
	eyeBehind, eyeAbove)

// Yokes returns the figure of the yokes and crosses of a driveline when its first shaft has turned by theta, in radians.
func Yokes(c *Case, theta float64) (*Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if math.IsNaN(theta) || math.IsInf(theta, 0) {
		return nil, fmt.Errorf("rotation of the first shaft: %g rad: want a finite angle", theta)
	}
	p := &Panel{Bare: true}
	p.Add(c.yokesAt(theta))
	return &Figure{
		Title:    "How do the yokes stand?",
		Subtitle: c.subtitle(),
		Rows:     []Row{{Panels: []*Panel{p}}},
		Caption:  fmt.Sprintf("The first shaft has turned by θ = %.4g°. %s", theta/kinematics.Degree, viewCaption),
		Size:     c.yokesSize(),
	}, nil
}

// yokesSize is the usual page, but no higher than joints need that stand in one row from edge to edge.
func (c *Case) yokesSize() Size {
	const oneRow = 4    // joints at most
	const others = 11.5 // em: texts, border and labels
	size := Single
	if len(c.Joints) <= oneRow {
		row := newJointRow(c, 0, len(c.Joints)).extent(yokeView)
		needed := size.inner().Size().X*vg.Length(row.height()/row.width()) + others*size.Text
		size.Height = min(size.Height, needed)
	}
	return size
}

// yokesAt draws all joints when the first shaft has turned by theta.
func (c *Case) yokesAt(theta float64) Drawing {
	return Drawing{
		Reach: ownPlace,
		Draw: func(s *Sketch) {
			for _, g := range c.fitRows(s) {
				g.drawRow(theta)
			}
		},
	}
}

// drawRow draws a row of joints in its place when the first shaft has turned by theta.
func (r placedRow) drawRow(theta float64) {
	r.drawCuts()
	for _, part := range r.backToFront(r.solids(theta)) {
		r.draw(part)
	}
	for _, p := range r.joints {
		r.label(p)
	}
	if r.first() == 0 {
		r.drawDirection()
	}
}

// drawCuts draws the axes of shafts that go on in another row.
func (r placedRow) drawCuts() {
	pen := draw.LineStyle{Color: Line, Width: 0.6, Dashes: []vg.Length{5, 1.6, 1.2, 1.6}}
	r.StrokeLines(r.letters.scaled(pen), []vg.Point{r.at(r.axisStart()), r.at(r.start)}, []vg.Point{r.at(r.end), r.at(r.axisEnd())})
}

// drawDirection draws an arrow over the first shaft in the direction of its rotation.
func (r placedRow) drawDirection() {
	const half, head, steps = 65 * kinematics.Degree, 28 * kinematics.Degree, 16
	top, _ := r.Driveline.Ears(0, 90*kinematics.Degree) // from level, clockwise: up
	f := newFrame(r3.Add(r.start, r3.Scale(0.3, r.axes[0])), r.axes[0], top)
	point := func(along, angle float64) r3.Vec {
		sin, cos := math.Sincos(angle)
		return f.point(along, arrowRadius*cos, arrowRadius*sin)
	}
	var arc []vg.Point
	for i := range steps + 1 {
		arc = append(arc, r.at(point(0, -half+(2*half-head)*float64(i)/steps)))
	}
	r.StrokeLines(r.letters.scaled(draw.LineStyle{Color: Ink, Width: 1.2}), arc)
	r.SetColor(Ink)
	r.Fill(path([]r3.Vec{point(-0.16, half-head), point(0, half), point(0.16, half-head)}, r.at))
}

// label writes below a joint what it is and how far it bends, as far as there is room.
func (r placedRow) label(p jointPlace) {
	joint := r.reach(yokeView, p)
	middle, room := (joint.x.Min+joint.x.Max)/2, joint.width()+0.6*betweenYokes
	angle := degrees(r.Analysis.Bends[p.joint].Angle)
	for _, text := range []string{r.joint(p.joint) + ": " + angle, angle} {
		width := r.letters.caption.width(text).Points() / r.scale
		if len(r.joints) > 1 && width > room {
			continue
		}
		at := r.onPage(XY{middle, r.lowest(Around(middle, width/2))})
		at.Y -= 0.4 * r.Em()
		r.letters.caption.draw(r, at, atMiddle, atEnd, text)
		return
	}
}

// lowest returns the lowest point of the row in a part of its width.
func (r placedRow) lowest(x Interval) float64 {
	low := math.Inf(1)
	for _, b := range r.extents(yokeView) {
		if b.x.Min < x.Max && x.Min < b.x.Max {
			low = min(low, b.y.Min)
		}
	}
	return low
}
