package plotting

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// Allowed returns the figure of the allowed working angle against speed, with the limits
// in print for such a driveline, and its joints with their uncertainty as far as they
// were judged by such a limit. j is the judgement of the driveline.
func Allowed(c *Case, j *limits.Judgement) (*page.Figure, error) {
	if err := checkJudged(c, j); err != nil {
		return nil, err
	}
	p := &page.Panel{
		X: page.Axis{Label: "speed, rev/min", Least: page.Interval{Min: 0, Max: 1}},
		Y: page.Axis{Label: "working angle β, °", Least: page.Interval{Min: 0, Max: 1}},
	}
	top := topSpeed(j.RPM)
	for _, g := range grouped(j.Set.Printed(survey.LimitWorkingAngleMax, top)) {
		p.Add(page.Curve{Name: "limits in print", Points: pairs(g.RPM, g.Value), Pen: printedPen, End: g.Basis})
	}
	caption := "No limit of the working angle applies."
	if allowed := j.Set.Against(survey.LimitWorkingAngleMax, top); len(allowed.RPM) > 0 {
		p.Add(page.Curve{Name: "allowed here", Points: pairs(allowed.RPM, allowed.Value), Pen: page.Limit()})
		caption = "Allowed here is the tightest limit that applies to this driveline."
	}
	joints := measuredJoints(c, j)
	if slices.ContainsFunc(joints, measured.uncertain) {
		caption += " Bars: the interval in which the joint's true angle lies."
	}
	if j.RPM > 0 {
		p.Add(jointMarks(j.RPM, joints))
	} else {
		p.Add(jointRules(joints)...)
	}
	return &page.Figure{
		Title:    "How large may a working angle be at which speed?",
		Subtitle: brief(c.Name, 90),
		Rows:     []page.Row{{Panels: []*page.Panel{p}}},
		Caption:  caption,
		Size:     page.Tall,
	}, nil
}

// checkJudged refuses a case without its judgement.
func checkJudged(c *Case, j *limits.Judgement) error {
	if err := c.check(); err != nil {
		return err
	}
	if j == nil {
		return errors.New("judgement: is nil: want that of the driveline")
	}
	return nil
}

// topSpeed is the highest speed, in rev/min, of figures against speed: twice that of the
// driveline; 0, not known, gives 5000.
func topSpeed(rpm float64) float64 { return cmp.Or(2*rpm, 5000) }

var printedPen = draw.LineStyle{Color: page.Lagoon, Width: 0.9}

// grouped returns the curves with those of equal values made one, whose basis names the
// first and counts the others.
func grouped(curves []limits.Curve) []limits.Curve {
	var groups []limits.Curve
	more := make(map[int]int)
next:
	for _, c := range curves {
		if len(c.RPM) == 0 {
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

// shortSource is the beginning of a source, up to what only tells where in it to look.
func shortSource(basis string) string {
	if end := strings.IndexAny(basis, ",("); end > 0 {
		basis = basis[:end]
	}
	return brief(strings.TrimSpace(basis), 50)
}

// measured is a working angle with the interval in which it lies, in degrees.
type measured struct {
	name             string
	value, low, high float64
}

func (m measured) uncertain() bool { return m.low < m.high }

// text names a joint in up to n characters, with its angle.
func (m measured) text(n int) string { return fmt.Sprintf("%s %.2f°", brief(m.name, n), m.value) }

// measuredJoints returns the working angles of all Cardan joints, as they were judged
// where they were.
func measuredJoints(c *Case, j *limits.Judgement) []measured {
	var joints []measured
	for k, joint := range c.Driveline.Joints() {
		if joint.Kind != kinematics.Cardan {
			continue
		}
		angle := c.Analysis.Bends[k].Angle / kinematics.Degree
		m := measured{c.Joints[k], angle, angle, angle}
		for _, v := range j.Verdicts {
			if v.LimitName == survey.LimitWorkingAngleMax && v.Subject == c.Joints[k] {
				m.value, m.low, m.high = v.Value, v.Low, v.High
			}
		}
		joints = append(joints, m)
	}
	return joints
}

// jointRules shows the joints at every speed.
func jointRules(joints []measured) []plot.Plotter {
	var rules []plot.Plotter
	alike := make(map[string]int) // joints by the angle that is written
	for _, m := range joints {
		alike[hundredths(m.value)]++
	}
	for _, m := range joints {
		n := alike[hundredths(m.value)]
		if n == 0 {
			continue // they have their rule
		}
		alike[hundredths(m.value)] = 0
		label := m.text(longestName)
		if n > 1 {
			label += fmt.Sprintf(" and %d more", n-1)
		}
		rules = append(rules, page.Rule{At: m.value, Label: label, Pen: draw.LineStyle{Color: page.Signal, Width: 1.2}})
	}
	return rules
}

// jointMarks shows the joints at the speed of the driveline.
func jointMarks(rpm float64, joints []measured) page.Drawing {
	key := page.Key{Name: "joints", Pen: page.Accent(), Marker: draw.CircleGlyph{}}
	if slices.ContainsFunc(joints, measured.uncertain) {
		key.Name = "joints, with their uncertainty"
	}
	d := page.Drawing{Keys: []page.Key{key}}
	for _, m := range joints {
		d.Reach = append(d.Reach, plotter.XY{X: rpm, Y: m.low}, plotter.XY{X: rpm, Y: m.high})
	}
	d.Draw = func(s *page.Sketch) {
		places, texts := make([]vg.Point, len(joints)), make([]string, len(joints))
		for i, m := range joints {
			m.draw(s, rpm)
			places[i] = s.At(plotter.XY{X: rpm, Y: m.value})
			room := s.ColumnRoom(places[i])
			for n := longestName; n > 1; n-- {
				if texts[i] = m.text(n); s.Name.Width(texts[i]) <= room {
					break
				}
			}
		}
		s.Column(places, texts)
	}
	return d
}

// draw draws a point at a speed with the interval in which it lies.
func (m measured) draw(s *page.Sketch, rpm float64) {
	pen := draw.LineStyle{Color: page.Signal, Width: 1.2}
	if m.uncertain() {
		s.Polyline(pen, plotter.XY{X: rpm, Y: m.low}, plotter.XY{X: rpm, Y: m.high})
		for _, end := range []float64{m.low, m.high} {
			p, half := s.At(plotter.XY{X: rpm, Y: end}), 0.3*s.Em()
			s.StrokeLine2(s.Scaled(pen), p.X-half, p.Y, p.X+half, p.Y)
		}
	}
	s.Marker(page.Signal, draw.CircleGlyph{}, plotter.XY{X: rpm, Y: m.value})
}
