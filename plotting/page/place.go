package page

import (
	"fmt"

	"gonum.org/v1/plot/vg"
)

// A Place is where a panel stands on its page and what its axes show. Figure.Places
// returns them; as Figure.Held they keep the panels where they are while what is on them
// changes, so that nothing jumps from one picture to the next.
type Place struct {
	Area vg.Rectangle // of the data
	Cell vg.Rectangle // of the data and the labels around them
	X, Y Interval     // ranges; a held panel shows them at least
}

// Places returns the places of all panels, row by row.
func (f *Figure) Places() ([]Place, error) {
	l, err := f.arrange()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", f.named(), err)
	}
	places := make([]Place, len(l.cells))
	for i, c := range l.cells {
		if c.Equal {
			c.widen(c.area.Size())
		}
		places[i] = Place{Area: c.area, Cell: c.cell, X: c.x.Interval, Y: c.y.Interval}
	}
	return places, nil
}

// hold puts the panels where they are held.
func (f *Figure) hold(l Letters) ([]placedPanel, error) {
	sizes := make([]room, len(f.Held))
	whole := vg.Rectangle{Max: vg.Point{X: f.size().Width, Y: f.size().Height}}
	for i, h := range f.Held {
		a, c := h.Area, h.Cell
		if !(c.Min.X >= 0 && c.Min.X <= a.Min.X && a.Min.X < a.Max.X && a.Max.X <= c.Max.X && c.Max.X <= whole.Max.X &&
			c.Min.Y >= 0 && c.Min.Y <= a.Min.Y && a.Min.Y < a.Max.Y && a.Max.Y <= c.Max.Y && c.Max.Y <= whole.Max.Y) {
			return nil, fmt.Errorf("held place %d: area %v in cell %v: want both on the page of %s, one in the other", i+1, a, c, f.size())
		}
		sizes[i] = room{width: c.Size().X, area: a.Size()}
	}
	rows, err := f.fitRows(l, sizes, f.Legend == LegendPanels)
	if err != nil {
		return nil, err
	}
	var panels []placedPanel
	for _, row := range rows {
		for _, p := range row {
			h := f.Held[len(panels)]
			panels = append(panels, placedPanel{fitted: p, area: h.Area, cell: h.Cell})
		}
	}
	return panels, nil
}
