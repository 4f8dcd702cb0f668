package plotting

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// backToFront orders solids so that each is drawn before all that hide it. Two convex solids are parted by a plane, and
// the one on the eye's side of it is in front; the planes of their faces are enough where they are not edge to edge.
func (v viewpoint) backToFront(solids []*solid) []*solid {
	solids = slices.Clone(solids)
	slices.SortStableFunc(solids, func(a, b *solid) int {
		return cmp.Compare(v.depth(a.middle()), v.depth(b.middle()))
	})
	boxes := make([]box, len(solids))
	for i, s := range solids {
		boxes[i] = v.box(s)
	}

	// Each solid after all behind it. What hide each other, which parts of a driveline that fits together do not, stay
	// in the order of their middles.
	ordered := make([]*solid, 0, len(solids))
	visited := make([]bool, len(solids))
	var place func(i int)
	place = func(i int) {
		visited[i] = true
		for j := range solids {
			if !visited[j] && boxes[i].overlaps(boxes[j]) && v.hides(solids[i], solids[j]) {
				place(j)
			}
		}
		ordered = append(ordered, solids[i])
	}
	for i := range solids {
		if !visited[i] {
			place(i)
		}
	}
	return ordered
}

// hides reports whether a is in front of b.
func (v viewpoint) hides(a, b *solid) bool {
	if side, ok := v.parted(a, b); ok {
		return side < 0
	}
	if side, ok := v.parted(b, a); ok {
		return side > 0
	}
	return false
}

// parted looks for a face of a that has all of b before it, and returns on which side of its plane the eye is: positive
// for the side of b, zero if the plane is seen edge on, so that neither hides the other.
func (v viewpoint) parted(a, b *solid) (side float64, ok bool) {
	const touch = 1e-9 // parts that touch share a plane but for rounding
	for _, f := range a.faces {
		clear := true
		for _, g := range b.faces {
			for _, p := range g.corners {
				clear = clear && r3.Dot(f.normal, r3.Sub(p, f.corners[0])) > -touch
			}
		}
		if clear {
			return r3.Dot(f.normal, v.toward), true
		}
	}
	return 0, false
}

// A box is the extent of a solid in the picture.
type box struct{ x, y Interval }

func (v viewpoint) box(s *solid) box {
	b := box{nothing, nothing}
	for _, f := range s.faces {
		for _, p := range f.corners {
			q := v.project(p)
			b.x, b.y = b.x.including(q.X), b.y.including(q.Y)
		}
	}
	return b
}

func (b box) overlaps(c box) bool {
	return b.x.Min < c.x.Max && c.x.Min < b.x.Max && b.y.Min < c.y.Max && c.y.Min < b.y.Max
}

func (b box) with(c box) box {
	return box{b.x.including(c.x.Min, c.x.Max), b.y.including(c.y.Min, c.y.Max)}
}

func (b box) width() float64  { return b.x.Max - b.x.Min }
func (b box) height() float64 { return b.y.Max - b.y.Min }
