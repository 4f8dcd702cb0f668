package scene

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A polygon is the convex polygon that a solid covers in a picture.
type polygon struct {
	corners []r2.Vec // counterclockwise
	box     r2.Box
}

// outline returns the outline of a solid.
func (v View) outline(s *solid) polygon {
	var points []r2.Vec
	for _, f := range s.faces {
		for _, p := range f.corners {
			points = append(points, v.project(p))
		}
	}
	o := polygon{hull(points), nothing}
	for _, p := range o.corners {
		o.box = union(o.box, r2.Box{Min: p, Max: p})
	}
	return o
}

// overlaps reports whether two outlines have more than their edges in common.
func (o polygon) overlaps(p polygon) bool {
	return overlap(o.box, p.box) && !o.parts(p) && !p.parts(o)
}

// parts reports whether all of another outline is beyond one edge of this one.
func (o polygon) parts(p polygon) bool {
	const touch = 1e-9 // overlap that is rounding
	for i, a := range o.corners {
		b := o.corners[(i+1)%len(o.corners)]
		if !slices.ContainsFunc(p.corners, func(c r2.Vec) bool { return leftOf(a, b, c) > touch }) {
			return true
		}
	}
	return false
}

// leftOf returns twice the area of a triangle, positive if c is to the left of the way
// from a to b.
func leftOf(a, b, c r2.Vec) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }

// hull returns the corners of the convex hull of points, counterclockwise. It sorts
// points.
func hull(points []r2.Vec) []r2.Vec {
	slices.SortFunc(points, func(a, b r2.Vec) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	points = slices.Compact(points)
	half := func(points []r2.Vec) []r2.Vec {
		var chain []r2.Vec
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

// nothing is the box of no point.
var nothing = r2.Box{
	Min: r2.Vec{X: math.Inf(1), Y: math.Inf(1)},
	Max: r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)},
}

// union returns the smallest box that holds both, also one without width, which
// r2.Box.Union takes for none.
func union(a, b r2.Box) r2.Box {
	return r2.Box{
		Min: r2.Vec{X: min(a.Min.X, b.Min.X), Y: min(a.Min.Y, b.Min.Y)},
		Max: r2.Vec{X: max(a.Max.X, b.Max.X), Y: max(a.Max.Y, b.Max.Y)},
	}
}

func overlap(a, b r2.Box) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}
