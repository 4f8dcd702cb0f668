package scene

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
)

// A Picture is what a view shows, put on a page.
type Picture struct {
	View
	draw.Canvas
	Origin vg.Point  // where the origin of space is on the page
	Scale  float64   // points on the page to the unit of a picture
	Pen    vg.Length // width of thin lines; edges take 0.7 of it, other lines from 0.6 to 1.2
}

// OnPage returns where a point of the picture is on the page.
func (g Picture) OnPage(p r2.Vec) vg.Point {
	return vg.Point{X: g.Origin.X + vg.Length(g.Scale*p.X), Y: g.Origin.Y + vg.Length(g.Scale*p.Y)}
}

// at returns where a point in space shows on the page.
func (g Picture) at(p r3.Vec) vg.Point { return g.OnPage(g.project(p)) }

// Draw draws the row when the first shaft of the driveline has turned by theta, in
// radians.
func (r Row) Draw(g Picture, theta float64) {
	g.StrokeLines(draw.LineStyle{Color: r.Line, Width: 0.6 * g.Pen, Dashes: []vg.Length{5 * g.Pen, 1.6 * g.Pen, 1.2 * g.Pen, 1.6 * g.Pen}},
		[]vg.Point{g.at(r.axisStart()), g.at(r.start)}, []vg.Point{g.at(r.end), g.at(r.axisEnd())})
	for _, s := range g.backToFront(r.solids(theta)) {
		r.drawSolid(g, s)
	}
	if r.first() == 0 {
		r.drawDirection(g)
	}
}

// drawSolid draws the faces of a solid that can be seen. Its whole outline is filled
// first, so that nothing behind it shines through between them.
func (r Row) drawSolid(g Picture, s *solid) {
	outline := path(g.outline(s).corners, g.OnPage)
	g.SetColor(Tone(s.color, s.lightness(g.View, g.toward)))
	g.Fill(outline)
	edge := draw.LineStyle{Color: Tone(r.Ink, s.distance(g.View)), Width: 0.7 * g.Pen}
	for _, f := range slices.Concat(s.faces, s.marks) {
		if r3.Dot(f.normal, g.toward) <= 0 {
			continue
		}
		patch := path(f.corners, g.at)
		shade := f.color
		if !f.painted() {
			shade = Tone(s.color, s.lightness(g.View, f.normal))
		}
		g.SetColor(shade)
		g.Fill(patch)
		if f.edged {
			g.SetLineStyle(edge)
			g.Stroke(patch)
		}
	}
	g.SetLineStyle(edge)
	g.Stroke(outline)
}

// drawDirection draws an arrow over the first shaft in the direction of its rotation.
func (r Row) drawDirection(g Picture) {
	const half, head, steps = 65 * kinematics.Degree, 28 * kinematics.Degree, 16
	top, _ := r.d.Ears(0, 90*kinematics.Degree) // from level, clockwise: up
	f := newFrame(r3.Add(r.start, r3.Scale(0.3, r.axes[0])), r.axes[0], top)
	point := func(along, angle float64) r3.Vec {
		sin, cos := math.Sincos(angle)
		return f.point(along, arrowRadius*cos, arrowRadius*sin)
	}
	var arc []vg.Point
	for i := range steps + 1 {
		arc = append(arc, g.at(point(0, -half+(2*half-head)*float64(i)/steps)))
	}
	g.StrokeLines(draw.LineStyle{Color: r.Ink, Width: 1.2 * g.Pen}, arc)
	g.SetColor(r.Ink)
	g.Fill(path([]r3.Vec{point(-0.16, half-head), point(0, half), point(0.16, half-head)}, g.at))
}

// path returns the polygon through points, each put on the page.
func path[P any](points []P, onPage func(P) vg.Point) vg.Path {
	var path vg.Path
	for i, p := range points {
		if i == 0 {
			path.Move(onPage(p))
		} else {
			path.Line(onPage(p))
		}
	}
	path.Close()
	return path
}
