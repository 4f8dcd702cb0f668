package page

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// columnReach is how far from their places the texts of a column begin, in em.
const columnReach = 2

// ColumnRoom returns how long a text of a column may be that belongs to a place.
func (s *Sketch) ColumnRoom(place vg.Point) vg.Length {
	return max(s.Max.X-place.X, place.X-s.Min.X) - columnReach*s.Em()
}

// Column writes texts below each other beside their places, which are all about equally
// far right: to the right of them, unless one would leave the drawing there.
func (s *Sketch) Column(places []vg.Point, texts []string) {
	l := s.Name
	wanted, sizes := make([]vg.Length, len(texts)), make([]vg.Length, len(texts))
	side := vg.Length(1)
	for i, text := range texts {
		wanted[i], sizes[i] = places[i].Y, l.line()
		if places[i].X+columnReach*s.Em()+l.Width(text) > s.Max.X {
			side = -1
		}
	}
	pen := s.Scaled(draw.LineStyle{Color: Line, Width: 0.6})
	for i, y := range spread(wanted, sizes, s.Min.Y, s.Max.Y) {
		near := vg.Point{X: places[i].X + side*0.6*s.Em(), Y: places[i].Y}
		far := vg.Point{X: places[i].X + side*(columnReach-0.2)*s.Em(), Y: y}
		s.StrokeLines(pen, []vg.Point{near, far})
		at := vg.Point{X: far.X + side*0.2*s.Em(), Y: y}
		l.drawClear(s, at, float64(1-side)/2, atMiddle, texts[i])
	}
}
