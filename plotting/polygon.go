package plotting

import (
	"cmp"
	"slices"
)

// A polygon is the convex polygon that a solid covers in a picture.
type polygon struct {
	corners []XY // counterclockwise
	box
}

// outline returns the outline of a solid.
func (v viewpoint) outline(s *solid) polygon {
	var points []XY
	for _, f := range s.faces {
		for _, p := range f.corners {
			points = append(points, v.project(p))
		}
	}
	o := polygon{hull(points), box{nothing, nothing}}
	for _, p := range o.corners {
		o.x, o.y = o.x.including(p.X), o.y.including(p.Y)
	}
	return o
}

// overlaps reports whether two outlines have more than their edges in common.
func (o polygon) overlaps(p polygon) bool {
	return o.box.overlaps(p.box) && !o.parts(p) && !p.parts(o)
}

// parts reports whether all of another outline is beyond one edge of this one.
func (o polygon) parts(p polygon) bool {
	const touch = 1e-9 // overlap that is rounding
	for i, a := range o.corners {
		b := o.corners[(i+1)%len(o.corners)]
		if !slices.ContainsFunc(p.corners, func(c XY) bool { return leftOf(a, b, c) > touch }) {
			return true
		}
	}
	return false
}

// leftOf returns twice the area of a triangle, positive if c is to the left of the way from a to b.
func leftOf(a, b, c XY) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }

// hull returns the corners of the convex hull of points, counterclockwise. It sorts points.
func hull(points []XY) []XY {
	slices.SortFunc(points, func(a, b XY) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	points = slices.Compact(points)
	half := func(points []XY) []XY {
		var chain []XY
		for _, p := range points {
			for len(chain) > 1 && leftOf(chain[len(chain)-2], chain[len(chain)-1], p) <= 0 {
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

// A box is an extent in a picture.
type box struct{ x, y Interval }

func (b box) width() float64  { return b.x.Max - b.x.Min }
func (b box) height() float64 { return b.y.Max - b.y.Min }

func (b box) overlaps(c box) bool {
	return b.x.Min < c.x.Max && c.x.Min < b.x.Max && b.y.Min < c.y.Max && c.y.Min < b.y.Max
}

// with returns the smallest box that holds both.
func (b box) with(c box) box {
	return box{b.x.including(c.x.Min, c.x.Max), b.y.including(c.y.Min, c.y.Max)}
}
