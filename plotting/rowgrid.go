package plotting

import (
	"math"

	"gonum.org/v1/plot/vg"

	"halfturn/plotting/page"
	"halfturn/plotting/scene"
)

// A placedRow is a row of joints with its place on the page.
type placedRow struct {
	scene.Row
	picture scene.Picture
}

// Room around rows, in em.
const (
	labelRoom = 1.7 // below a row
	rowSpace  = 1.5 // beside it
)

// row lays out the joints from first up to last, this one left out.
func (c *Case) row(first, last int) scene.Row {
	colours := scene.Colours{Steel: page.Soft, Ink: page.Ink, Line: page.Line}
	for k := range c.Shafts {
		colours.Shafts = append(colours.Shafts, c.colour(k))
	}
	return scene.NewRow(c.Driveline, first, last, colours)
}

// fitRows breaks a driveline into rows, so that the joints are large but the driveline is
// not in shreds, and places the rows in a data area like words on lines.
func (c *Case) fitRows(s *page.Sketch) []placedRow {
	const most = 24   // rows; more would have no room for labels
	const worth = 1.3 // how much larger each further row must make the joints
	var best grid
	var merit float64
	for n := 1; n <= min(most, len(c.Joints)); n++ {
		rows := make([]scene.Row, n)
		for i := range rows {
			rows[i] = c.row(i*len(c.Joints)/n, (i+1)*len(c.Joints)/n)
		}
		for columns := 1; columns <= n; columns++ {
			g := newGrid(s, rows, columns)
			if m := g.scale / math.Pow(worth, float64(n)); m > merit {
				best, merit = g, m
			}
		}
	}
	return best.place(s)
}

// A grid is a way to place rows of joints in columns.
type grid struct {
	rows    []scene.Row
	columns int
	cell    vg.Point // of each row with its labels
	scale   float64  // points on the page to the unit of a joint
}

func newGrid(s *page.Sketch, rows []scene.Row, columns int) grid {
	var width, height float64
	for _, r := range rows {
		size := r.Extent(yokeView).Size()
		width, height = max(width, size.X), max(height, size.Y)
	}
	lines := (len(rows) + columns - 1) / columns
	cell := vg.Point{X: s.Size().X / vg.Length(columns), Y: s.Size().Y / vg.Length(lines)}
	scale := min((cell.X-rowSpace*s.Em()).Points()/width, (cell.Y-labelRoom*s.Em()).Points()/height)
	return grid{rows, columns, cell, scale}
}

func (g grid) place(s *page.Sketch) []placedRow {
	var placed []placedRow
	for i, r := range g.rows {
		centre := r.Extent(yokeView).Center()
		left := s.Min.X + vg.Length(i%g.columns)*g.cell.X
		top := s.Max.Y - vg.Length(i/g.columns)*g.cell.Y
		middle := vg.Point{X: left + g.cell.X/2, Y: top - (g.cell.Y-labelRoom*s.Em())/2}
		origin := vg.Point{
			X: middle.X - vg.Length(g.scale*centre.X),
			Y: middle.Y - vg.Length(g.scale*centre.Y),
		}
		picture := scene.Picture{View: yokeView, Canvas: s.Canvas, Origin: origin, Scale: g.scale, Pen: s.Em() / 10}
		placed = append(placed, placedRow{r, picture})
	}
	return placed
}
