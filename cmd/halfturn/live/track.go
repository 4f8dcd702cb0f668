package live

import (
	"gonum.org/v1/plot/vg"

	"halfturn/plotting/page"
)

// A track is where the curve that a panel is about passes while the first shaft makes
// a turn: positions from the upper left corner of the figure, in its own units, at
// equal steps of rotation, both ends included. A mark runs along it.
type track [][2]vg.Length

const trackSteps = 72

// tracks returns the track of every panel over a turn.
func tracks(f *page.Figure, places []page.Place) []track {
	var list []track
	n := 0
	for _, row := range f.Rows {
		for _, panel := range row.Panels {
			place := places[n]
			n++
			if c, ok := subject(panel); ok && panel.X.Range == turn {
				list = append(list, follow(c, place, f.Size.Height))
			}
		}
	}
	return list
}

// turn is the range of axes over a turn, in degrees.
var turn = page.Interval{Min: 0, Max: 360}

// subject returns the curve that a panel is about.
func subject(p *page.Panel) (page.Curve, bool) {
	for _, layer := range p.Layers {
		if c, ok := layer.(page.Curve); ok && c.Pen.Color == page.Accent().Color {
			return c, true
		}
	}
	return page.Curve{}, false
}

func follow(c page.Curve, p page.Place, height vg.Length) track {
	t := make(track, trackSteps+1)
	for i := range t {
		x, y := c.Points.XY(i * (c.Points.Len() - 1) / trackSteps)
		t[i] = [2]vg.Length{
			p.Area.Min.X + share(x, p.X)*p.Area.Size().X,
			height - p.Area.Min.Y - share(y, p.Y)*p.Area.Size().Y,
		}
	}
	return t
}

// share is where a value stands in a range, from 0 to 1.
func share(v float64, in page.Interval) vg.Length {
	return vg.Length((v - in.Min) / (in.Max - in.Min))
}

// haunt adds to every panel over a turn the curve that it was about at the start.
func haunt(f, start *page.Figure) {
	for i, row := range f.Rows {
		for j, panel := range row.Panels {
			if panel.X.Range != turn || i >= len(start.Rows) || j >= len(start.Rows[i].Panels) {
				continue
			}
			if c, ok := subject(start.Rows[i].Panels[j]); ok {
				c.Name, c.Pen = "at the start", page.Aid()
				panel.Add(c)
			}
		}
	}
}
