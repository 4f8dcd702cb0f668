package plotting

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A stage is where solids are drawn: a viewpoint, and how its picture is put on a page.
type stage struct {
	viewpoint
	*Sketch
	origin vg.Point
	scale  float64 // points on the page to one unit
}

// at returns where a point shows on the page, onPage where a point of the picture does.
func (g stage) at(p r3.Vec) vg.Point { return g.onPage(g.project(p)) }

func (g stage) onPage(p XY) vg.Point {
	return vg.Point{X: g.origin.X + vg.Length(g.scale*p.X), Y: g.origin.Y + vg.Length(g.scale*p.Y)}
}

// draw draws the faces of a solid that can be seen. Its whole outline is filled first, so that nothing behind it shines
// through between them.
func (g stage) draw(s *solid) {
	outline := path(g.outline(s).corners, g.onPage)
	g.SetColor(tone(s.color, s.lightness(g.viewpoint, g.toward)))
	g.Fill(outline)
	edge := g.letters.scaled(draw.LineStyle{Color: tone(Ink, s.distance(g.viewpoint)), Width: 0.7})
	for _, f := range slices.Concat(s.faces, s.marks) {
		if r3.Dot(f.normal, g.toward) <= 0 {
			continue
		}
		patch := path(f.corners, g.at)
		g.SetColor(f.color)
		if !f.painted() {
			g.SetColor(tone(s.color, s.lightness(g.viewpoint, f.normal)))
		}
		g.Fill(patch)
		if f.edged {
			g.SetLineStyle(edge)
			g.Stroke(patch)
		}
	}
	g.SetLineStyle(edge)
	g.Stroke(outline)
}

// path returns the polygon through points, each put on the page.
func path[P any](points []P, onPage func(P) vg.Point) vg.Path {
	corners := make([]vg.Point, len(points))
	for i, p := range points {
		corners[i] = onPage(p)
	}
	return appendPolygon(nil, corners...)
}
