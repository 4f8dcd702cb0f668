package plotting

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics/limits"
)

// Allowed returns the figure of the allowed working angle against speed, with the limits in print for such a driveline
// and its joints with their uncertainty. name is that of the driveline.
func Allowed(name string, a *limits.AngleFigure) (*Figure, error) {
	if a == nil {
		return nil, errors.New("allowed angle: nil: want the data of the figure")
	}
	p := &Panel{
		X: Axis{Label: "speed, rev/min", Least: Interval{0, 1}},
		Y: Axis{Label: "working angle β, °", Least: Interval{0, 1}},
	}
	for _, g := range grouped(a.Printed) {
		p.Add(Curve{Name: "limits in print", X: g.RPM, Y: g.Value, Pen: printedPen, End: g.Basis})
	}
	caption := "No limit of the working angle applies."
	if len(turningOnly(a.Allowed).RPM) > 0 {
		c := turningOnly(a.Allowed)
		p.Add(Curve{Name: "allowed here", X: c.RPM, Y: c.Value, Pen: Limit()})
		caption = "Allowed here is the tightest limit that applies to this driveline."
	}
	p.Add(joints(a)...)
	return &Figure{
		Title:    "How large may a working angle be at which speed?",
		Subtitle: brief(name, 90),
		Rows:     []Row{{Panels: []*Panel{p}}},
		Caption:  caption + " Bars: the interval in which the joint's true angle lies.",
		Size:     tall,
	}, nil
}

var printedPen = draw.LineStyle{Color: lagoon, Width: 0.9}

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
func joints(a *limits.AngleFigure) []Layer {
	if a.RPM > 0 {
		return []Layer{jointMarks(a)}
	}
	var rules []Layer
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
		rules = append(rules, Rule{At: j.Value, Label: label, Pen: draw.LineStyle{Color: signal, Width: 1.2}})
	}
	return rules
}

// jointText names a joint in up to n characters, with its angle.
func jointText(j limits.Marked, n int) string {
	return fmt.Sprintf("%s %.2f°", brief(j.Subject, n), j.Value)
}

func jointMarks(a *limits.AngleFigure) Drawing {
	d := Drawing{Keys: []Key{{Name: "joints, with their uncertainty", Pen: Accent(), Marker: draw.CircleGlyph{}}}}
	for _, j := range a.Joints {
		d.Reach = append(d.Reach, XY{a.RPM, j.Low}, XY{a.RPM, j.High})
	}
	d.Draw = func(s *Sketch) {
		places, texts := make([]vg.Point, len(a.Joints)), make([]string, len(a.Joints))
		for i, j := range a.Joints {
			s.measured(XY{a.RPM, j.Value}, j.Low, j.High)
			places[i] = s.At(XY{a.RPM, j.Value})
			room := max(s.Max.X-places[i].X, places[i].X-s.Min.X) - columnReach*s.Em()
			for n := longestName; n > 1; n-- {
				if texts[i] = jointText(j, n); s.letters.name.width(texts[i]) <= room {
					break
				}
			}
		}
		s.writeColumn(places, texts)
	}
	return d
}

// measured draws a point with the interval in which it lies.
func (s *Sketch) measured(at XY, low, high float64) {
	s.Polyline(draw.LineStyle{Color: signal, Width: 1.2}, XY{at.X, low}, XY{at.X, high})
	for _, end := range []float64{low, high} {
		p, half := s.At(XY{at.X, end}), 0.3*s.Em()
		s.StrokeLine2(s.letters.scaled(draw.LineStyle{Color: signal, Width: 1.2}), p.X-half, p.Y, p.X+half, p.Y)
	}
	s.letters.marker(s.Canvas, signal, draw.CircleGlyph{}, s.At(at))
}

// columnReach is how far from their places the texts of a column begin, in em.
const columnReach = 2

// writeColumn writes texts below each other beside their places, which are all about equally far right: to the right of
// them, unless one would leave the drawing there.
func (s *Sketch) writeColumn(places []vg.Point, texts []string) {
	l := s.letters.name
	wanted, sizes := make([]vg.Length, len(texts)), make([]vg.Length, len(texts))
	side := vg.Length(1)
	for i, text := range texts {
		wanted[i], sizes[i] = places[i].Y, l.line()
		if places[i].X+columnReach*s.Em()+l.width(text) > s.Max.X {
			side = -1
		}
	}
	pen := s.letters.scaled(draw.LineStyle{Color: Line, Width: 0.6})
	for i, y := range spread(wanted, sizes, s.Min.Y, s.Max.Y) {
		near := vg.Point{X: places[i].X + side*0.6*s.Em(), Y: places[i].Y}
		far := vg.Point{X: places[i].X + side*(columnReach-0.2)*s.Em(), Y: y}
		s.StrokeLines(pen, []vg.Point{near, far})
		l.drawClear(s, vg.Point{X: far.X + side*0.2*s.Em(), Y: y}, float64(1-side)/2, atMiddle, texts[i])
	}
}
