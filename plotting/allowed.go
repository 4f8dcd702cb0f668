package plotting

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics/limits"
	"halfturn/plotting/page"
)

// Allowed returns the figure of the allowed working angle against speed, with the limits in print for such a driveline
// and its joints with their uncertainty. name is that of the driveline.
func Allowed(name string, a *limits.AngleFigure) (*page.Figure, error) {
	if a == nil {
		return nil, errors.New("allowed angle: nil: want the data of the figure")
	}
	p := &page.Panel{
		X: page.Axis{Label: "speed, rev/min", Least: page.Interval{Min: 0, Max: 1}},
		Y: page.Axis{Label: "working angle β, °", Least: page.Interval{Min: 0, Max: 1}},
	}
	for _, g := range grouped(a.Printed) {
		p.Add(page.Curve{Name: "limits in print", Points: pairs(g.RPM, g.Value), Pen: printedPen, End: g.Basis})
	}
	caption := "No limit of the working angle applies."
	if len(turningOnly(a.Allowed).RPM) > 0 {
		c := turningOnly(a.Allowed)
		p.Add(page.Curve{Name: "allowed here", Points: pairs(c.RPM, c.Value), Pen: page.Limit()})
		caption = "Allowed here is the tightest limit that applies to this driveline."
	}
	p.Add(joints(a)...)
	return &page.Figure{
		Title:    "How large may a working angle be at which speed?",
		Subtitle: brief(name, 90),
		Rows:     []page.Row{{Panels: []*page.Panel{p}}},
		Caption:  caption + " Bars: the interval in which the joint's true angle lies.",
		Size:     page.Tall,
	}, nil
}

var printedPen = draw.LineStyle{Color: page.Lagoon, Width: 0.9}

// grouped returns the curves with those of equal values made one, whose basis names the first and counts the others.
func grouped(curves []limits.Curve) []limits.Curve {
	var groups []limits.Curve
	more := make(map[int]int)
next:
	for _, c := range curves {
		if c = turningOnly(c); len(c.RPM) == 0 {
			continue
		}
		for i, g := range groups {
			if slices.Equal(g.RPM, c.RPM) && slices.Equal(g.Value, c.Value) {
				more[i]++
				continue next
			}
		}
		c.Basis = shortSource(c.Basis)
		groups = append(groups, c)
	}
	for i, n := range more {
		groups[i].Basis += fmt.Sprintf(" and %d more", n)
	}
	return groups
}

// turningOnly leaves out a first point at standstill, where limits that depend on speed are silent.
func turningOnly(c limits.Curve) limits.Curve {
	if len(c.RPM) > 0 && c.RPM[0] == 0 {
		c.RPM, c.Value = c.RPM[1:], c.Value[1:]
	}
	return c
}

// shortSource is the beginning of a source, up to what only tells where in it to look.
func shortSource(basis string) string {
	if end := strings.IndexAny(basis, ",("); end > 0 {
		basis = basis[:end]
	}
	return brief(strings.TrimSpace(basis), 50)
}

// joints shows the joints at the speed of the driveline or, without one, at every speed.
func joints(a *limits.AngleFigure) []plot.Plotter {
	if a.RPM > 0 {
		return []plot.Plotter{jointMarks(a)}
	}
	var rules []plot.Plotter
	alike := make(map[string]int) // joints by the angle that is written
	for _, j := range a.Joints {
		alike[hundredths(j.Value)]++
	}
	for _, j := range a.Joints {
		n := alike[hundredths(j.Value)]
		if n == 0 {
			continue // they have their rule
		}
		alike[hundredths(j.Value)] = 0
		label := jointText(j, longestName)
		if n > 1 {
			label += fmt.Sprintf(" and %d more", n-1)
		}
		rules = append(rules, page.Rule{At: j.Value, Label: label, Pen: draw.LineStyle{Color: page.Signal, Width: 1.2}})
	}
	return rules
}

// jointText names a joint in up to n characters, with its angle.
func jointText(j limits.Marked, n int) string {
	return fmt.Sprintf("%s %.2f°", brief(j.Subject, n), j.Value)
}

func jointMarks(a *limits.AngleFigure) page.Drawing {
	d := page.Drawing{Keys: []page.Key{{Name: "joints, with their uncertainty", Pen: page.Accent(), Marker: draw.CircleGlyph{}}}}
	for _, j := range a.Joints {
		d.Reach = append(d.Reach, plotter.XY{X: a.RPM, Y: j.Low}, plotter.XY{X: a.RPM, Y: j.High})
	}
	d.Draw = func(s *page.Sketch) {
		places, texts := make([]vg.Point, len(a.Joints)), make([]string, len(a.Joints))
		for i, j := range a.Joints {
			measured(s, plotter.XY{X: a.RPM, Y: j.Value}, j.Low, j.High)
			places[i] = s.At(plotter.XY{X: a.RPM, Y: j.Value})
			room := s.ColumnRoom(places[i])
			for n := longestName; n > 1; n-- {
				if texts[i] = jointText(j, n); s.Name.Width(texts[i]) <= room {
					break
				}
			}
		}
		s.Column(places, texts)
	}
	return d
}

// measured draws a point with the interval in which it lies.
func measured(s *page.Sketch, at plotter.XY, low, high float64) {
	s.Polyline(draw.LineStyle{Color: page.Signal, Width: 1.2}, plotter.XY{X: at.X, Y: low}, plotter.XY{X: at.X, Y: high})
	for _, end := range []float64{low, high} {
		p, half := s.At(plotter.XY{X: at.X, Y: end}), 0.3*s.Em()
		s.StrokeLine2(s.Scaled(draw.LineStyle{Color: page.Signal, Width: 1.2}), p.X-half, p.Y, p.X+half, p.Y)
	}
	s.Marker(page.Signal, draw.CircleGlyph{}, at)
}
