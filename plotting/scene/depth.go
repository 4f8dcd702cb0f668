package scene

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// backToFront orders solids so that each is drawn before all that hide it.
func (v View) backToFront(solids []*solid) []*solid {
	solids = slices.Clone(solids)
	slices.SortStableFunc(solids, func(a, b *solid) int {
		return cmp.Compare(v.depth(a.middle()), v.depth(b.middle()))
	})
	outlines := make([]polygon, len(solids))
	for i, s := range solids {
		outlines[i] = v.outline(s)
	}

	// Each solid after all that it hides. Where they hide each other in a ring, which
	// parts of a driveline that fits together do not, the order of their middles decides.
	ordered := make([]*solid, 0, len(solids))
	visited := make([]bool, len(solids))
	var place func(i int)
	place = func(i int) {
		visited[i] = true
		for j := range solids {
			if !visited[j] && v.hides(solids[i], solids[j]) && outlines[i].overlaps(outlines[j]) {
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

// hides reports whether a is in front of b, given that their outlines overlap. Two convex
// solids are parted by a plane, and the one on the eye's side of it is in front; the
// planes of their faces are enough where they are not edge to edge.
func (v View) hides(a, b *solid) bool {
	if f, ok := a.parting(b); ok {
		return r3.Dot(f.normal, v.toward) < 0
	}
	f, ok := b.parting(a)
	return ok && r3.Dot(f.normal, v.toward) > 0
}

// parting returns a face of a solid that has all of another before it.
func (s *solid) parting(other *solid) (face, bool) {
	for _, f := range s.faces {
		if other.before(f) {
			return f, true
		}
	}
	return face{}, false
}

// before reports whether all of a solid lies before a face.
func (s *solid) before(f face) bool {
	const touch = 1e-9 // parts that touch share a plane but for rounding
	for _, g := range s.faces {
		for _, p := range g.corners {
			if r3.Dot(f.normal, r3.Sub(p, f.corners[0])) < -touch {
				return false
			}
		}
	}
	return true
}
