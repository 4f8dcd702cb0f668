package page

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// unseen is the distance by which a line may be moved: a hundredth of a point, to which
// an SVG file is written.
const unseen = 0.01

// thinned returns a line without the points that are not needed to draw it: none of them
// is farther than unseen from what is left (the method of Ramer, Douglas and Peucker).
func thinned(line []vg.Point) []vg.Point {
	if len(line) < 3 {
		return line
	}
	left := append(make([]vg.Point, 0, len(line)), line[0])
	var keep func(first, last int) // appends what is needed after first, up to last
	keep = func(first, last int) {
		farthest, at := unseen, 0
		for i := first + 1; i < last; i++ {
			if d := fromSegment(line[i], line[first], line[last]); d > farthest {
				farthest, at = d, i
			}
		}
		if at == 0 {
			left = append(left, line[last])
			return
		}
		keep(first, at)
		keep(at, last)
	}
	keep(0, len(line)-1)
	return left
}

// fromSegment returns the distance of a point from a straight line between two others.
func fromSegment(p, a, b vg.Point) float64 {
	way, off := b.Sub(a), p.Sub(a)
	square := way.X*way.X + way.Y*way.Y
	if square > 0 {
		part := min(max((off.X*way.X+off.Y*way.Y)/square, 0), 1)
		off = off.Sub(way.Scale(part))
	}
	return math.Sqrt(float64(off.X*off.X + off.Y*off.Y))
}
