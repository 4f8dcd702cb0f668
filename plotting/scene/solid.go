package scene

import (
	"image/color"

	"gonum.org/v1/gonum/spatial/r3"
)

// A solid is a convex body of flat faces.
type solid struct {
	faces []face // the first two are its ends
	marks []face // painted patches on its surface
	color color.RGBA
	about r3.Vec // the point from which it is told how near the solid is
}

// A face is a flat patch with its corners in order around it.
type face struct {
	corners []r3.Vec
	normal  r3.Vec     // unit, outward
	edged   bool       // drawn with its edge
	color   color.RGBA // of a painted one; the others have a tone of the solid's colour
}

func (f face) painted() bool { return f.color.A > 0 }

// lathe returns the solid between rings of equally many corners, one behind the other.
// The sides of a round solid have no edges.
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

// middle is a point inside the solid, between its ends.
func (s *solid) middle() r3.Vec {
	var sum r3.Vec
	n := 0
	for _, f := range s.faces[:2] {
		for _, p := range f.corners {
			sum = r3.Add(sum, p)
			n++
		}
	}
	return r3.Scale(1/float64(n), sum)
}
