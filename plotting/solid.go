package plotting

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A solid is a convex body of flat faces.
type solid struct {
	faces []face
	marks []face // flat patches on its surface, in their own colours
	color color.RGBA
	about r3.Vec // the point whose depth has the middle tone
}

// A face is a flat patch with its corners in order around it.
type face struct {
	corners []r3.Vec
	normal  r3.Vec // unit, outward
	edged   bool   // drawn with its edge
	color   color.RGBA
}

// lathe returns the solid between rings of equally many corners, one behind the other; the first and the last are its
// ends. The sides of a round solid have no edges.
func lathe(c color.RGBA, round bool, rings ...[]r3.Vec) *solid {
	s := &solid{color: c}
	n := len(rings[0])
	s.faces = append(s.faces, face{corners: rings[0], edged: true}, face{corners: rings[len(rings)-1], edged: true})
	for k := 1; k < len(rings); k++ {
		a, b := rings[k-1], rings[k]
		for i := range n {
			j := (i + 1) % n
			s.faces = append(s.faces, face{corners: []r3.Vec{a[i], a[j], b[j], b[i]}, edged: !round})
		}
	}
	middle := s.middle()
	s.about = middle
	for i := range s.faces {
		f := &s.faces[i]
		f.normal = r3.Unit(r3.Cross(r3.Sub(f.corners[1], f.corners[0]), r3.Sub(f.corners[2], f.corners[0])))
		if r3.Dot(f.normal, r3.Sub(f.corners[0], middle)) < 0 {
			f.normal = r3.Scale(-1, f.normal)
		}
	}
	return s
}

// middle is a point inside the solid.
func (s *solid) middle() r3.Vec {
	var sum r3.Vec
	n := 0
	for _, f := range s.faces[:2] { // the two ends hold every corner of a prism
		for _, p := range f.corners {
			sum = r3.Add(sum, p)
			n++
		}
	}
	return r3.Scale(1/float64(n), sum)
}

// light is the direction that light comes from relative to the picture: over the viewer's left shoulder.
func (v viewpoint) light() r3.Vec {
	return r3.Unit(r3.Add(r3.Add(r3.Scale(-0.4, v.right), r3.Scale(0.7, v.up)), r3.Scale(0.6, v.toward)))
}

// Lightness of what is drawn, as fractions of the way from a colour to that of paper.
const (
	darkest   = 0.18
	fromLight = 0.42 // more where the light falls square on a face
	fromDepth = 0.22 // more for each unit of depth away from the eye
)

// lightness returns how light a face of a solid is drawn: lighter toward the light, and lighter the farther it is.
func (s *solid) lightness(v viewpoint, normal r3.Vec) float64 {
	away := v.depth(s.about) - v.depth(s.middle())
	return darkest + fromLight*max(0, r3.Dot(normal, v.light())) + fromDepth*(away+0.5)
}

// tones is the number of steps of lightness between a colour and paper.
const tones = 12

// tone returns the colour lightened by a fraction of the way to paper, in steps.
func tone(c color.RGBA, lightness float64) color.RGBA {
	k := int(math.Round(min(max(lightness, 0), 1) * tones))
	mix := func(from, to uint8) uint8 { return uint8((int(from)*(tones-k) + int(to)*k + tones/2) / tones) }
	return color.RGBA{mix(c.R, Paper.R), mix(c.G, Paper.G), mix(c.B, Paper.B), 0xFF}
}

// A stage is where solids are drawn: a viewpoint, and how its picture is put on a page.
type stage struct {
	viewpoint
	*Sketch
	origin vg.Point
	scale  float64 // points on the page to one unit
}

func (g stage) at(p r3.Vec) vg.Point {
	q := g.project(p)
	return vg.Point{X: g.origin.X + vg.Length(g.scale*q.X), Y: g.origin.Y + vg.Length(g.scale*q.Y)}
}

func (g stage) path(corners []r3.Vec) vg.Path {
	var path vg.Path
	path.Move(g.at(corners[0]))
	for _, p := range corners[1:] {
		path.Line(g.at(p))
	}
	path.Close()
	return path
}

// draw draws the solid. Its whole outline is filled first, so that nothing behind it shines through between faces.
func (g stage) draw(s *solid) {
	outline := g.outline(s)
	g.SetColor(tone(s.color, s.lightness(g.viewpoint, g.toward)))
	g.Fill(outline)
	edge := g.letters.scaled(draw.LineStyle{Color: tone(Ink, s.lightness(g.viewpoint, r3.Vec{})-darkest), Width: 0.7})
	for _, f := range s.faces {
		if r3.Dot(f.normal, g.toward) <= 0 {
			continue
		}
		path := g.path(f.corners)
		g.SetColor(tone(s.color, s.lightness(g.viewpoint, f.normal)))
		g.Fill(path)
		if f.edged {
			g.SetLineStyle(edge)
			g.Stroke(path)
		}
	}
	for _, m := range s.marks {
		if r3.Dot(m.normal, g.toward) <= 0 {
			continue
		}
		path := g.path(m.corners)
		g.SetColor(m.color)
		g.Fill(path)
		if m.edged {
			g.SetLineStyle(edge)
			g.Stroke(path)
		}
	}
	g.SetLineStyle(edge)
	g.Stroke(outline)
}

// outline returns the convex hull of a solid in the picture.
func (g stage) outline(s *solid) vg.Path {
	var points []vg.Point
	for _, f := range s.faces {
		for _, p := range f.corners {
			points = append(points, g.at(p))
		}
	}
	var path vg.Path
	for i, p := range hull(points) {
		if i == 0 {
			path.Move(p)
		} else {
			path.Line(p)
		}
	}
	path.Close()
	return path
}

// hull returns the corners of the convex hull of points, counterclockwise. It sorts points.
func hull(points []vg.Point) []vg.Point {
	slices.SortFunc(points, func(a, b vg.Point) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	points = slices.Compact(points)
	half := func(points []vg.Point) []vg.Point {
		var chain []vg.Point
		for _, p := range points {
			for len(chain) > 1 {
				a, b := chain[len(chain)-2], chain[len(chain)-1]
				if (b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X) > 0 {
					break
				}
				chain = chain[:len(chain)-1]
			}
			chain = append(chain, p)
		}
		return chain[:len(chain)-1]
	}
	lower := half(points)
	slices.Reverse(points)
	return append(lower, half(points)...)
}
