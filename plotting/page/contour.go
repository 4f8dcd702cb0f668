package page

import (
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
)

// above returns the area in which the field is at or above a level, and the pieces of the
// line that bounds it, with the area to their left. Cells with a missing value or
// reaching beyond the axes are left out.
func (f Field) above(s *Sketch, level float64) (area vg.Path, line []piece) {
	corner := f.corners(s)
	for j := range len(f.Y) - 1 {
		run := -1 // first of the cells in this row that are wholly above and not yet in the area
		flush := func(end int) {
			if run >= 0 {
				area = appendPolygon(area, corner(run, j), corner(end, j), corner(end, j+1), corner(run, j+1))
			}
			run = -1
		}
		for i := range len(f.X) - 1 {
			z := [4]float64{f.Z[j][i], f.Z[j][i+1], f.Z[j+1][i+1], f.Z[j+1][i]}
			at := [4]vg.Point{corner(i, j), corner(i+1, j), corner(i+1, j+1), corner(i, j+1)}
			switch {
			case math.IsNaN(z[0]+z[1]+z[2]+z[3]) || !s.Contains(at[0]) || !s.Contains(at[2]):
				flush(i)
			case min(z[0], z[1], z[2], z[3]) >= level:
				if run < 0 {
					run = i
				}
			case max(z[0], z[1], z[2], z[3]) < level:
				flush(i)
			default:
				flush(i)
				polygon, pieces := cut(at, z, level)
				area = appendPolygon(area, polygon...)
				line = append(line, pieces...)
			}
		}
		flush(len(f.X) - 1)
	}
	return area, line
}

// corners returns where the grid points stand on the page.
func (f Field) corners(s *Sketch) func(i, j int) vg.Point {
	x, y := make([]vg.Length, len(f.X)), make([]vg.Length, len(f.Y))
	for i := range f.X {
		x[i] = s.At(plotter.XY{X: f.X[i], Y: f.Y[0]}).X
	}
	for j := range f.Y {
		y[j] = s.At(plotter.XY{X: f.X[0], Y: f.Y[j]}).Y
	}
	return func(i, j int) vg.Point { return vg.Point{X: x[i], Y: y[j]} }
}

// cut returns the part of a cell that is at or above a level, and the pieces of line that
// bound it inside the cell. Where two opposite corners are above, they are taken as
// joined.
func cut(at [4]vg.Point, z [4]float64, level float64) (polygon []vg.Point, pieces []piece) {
	var ends []vg.Point // where the walk around the cell crosses the level, in turn down and up
	upFirst := false
	for a := range 4 {
		b := (a + 1) % 4
		if z[a] >= level {
			polygon = append(polygon, at[a])
		}
		if (z[a] >= level) != (z[b] >= level) {
			p := crossing(at[a], at[b], z[a], z[b], level)
			polygon = append(polygon, p)
			upFirst = upFirst || (len(ends) == 0 && z[b] >= level)
			ends = append(ends, p)
		}
	}
	if upFirst { // then the piece that ends here begins at the last crossing
		ends = append(ends[1:], ends[0])
	}
	for k := 0; k+1 < len(ends); k += 2 {
		if ends[k] != ends[k+1] { // as where the level only touches a corner
			pieces = append(pieces, piece{ends[k], ends[k+1]})
		}
	}
	return polygon, pieces
}

// crossing returns where the level lies between two corners. It is the same to the last
// bit from both sides of a cell's edge, so that pieces of line meet.
func crossing(p, q vg.Point, zp, zq, level float64) vg.Point {
	if zp > zq {
		p, q, zp, zq = q, p, zq, zp
	}
	if zq == level {
		return q
	}
	return between(p, q, vg.Length((level-zp)/(zq-zp)))
}

// A piece is a straight part of a contour.
type piece struct {
	from, to vg.Point
}

// chained joins pieces that meet end to end into long lines, so that dashes run through.
func chained(pieces []piece) []vg.Path {
	next := make(map[vg.Point]int, len(pieces)) // piece by its start
	entered := make(map[vg.Point]bool, len(pieces))
	for i, p := range pieces {
		next[p.from] = i
		entered[p.to] = true
	}
	used := make([]bool, len(pieces))
	var paths []vg.Path
	follow := func(i int) {
		if used[i] {
			return
		}
		var path vg.Path
		path.Move(pieces[i].from)
		for ok := true; ok && !used[i]; i, ok = next[pieces[i].to] {
			used[i] = true
			path.Line(pieces[i].to)
		}
		paths = append(paths, path)
	}
	for i, p := range pieces { // open lines from their starts
		if !entered[p.from] {
			follow(i)
		}
	}
	for i := range pieces { // what is left are closed loops
		follow(i)
	}
	return paths
}
