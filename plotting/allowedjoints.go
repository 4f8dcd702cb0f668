package plotting

import (
	"cmp"
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

// measured is a working angle with the interval in which it lies, in degrees.
type measured struct {
	name             string
	value, low, high float64
}

func (m measured) uncertain() bool { return m.low < m.high }

// measuredJoint returns the working angle of a joint, as it was judged where it was.
func measuredJoint(c *Case, j *limits.Judgement, k int) measured {
	angle := c.Analysis.Bends[k].Angle / kinematics.Degree
	m := measured{c.Joints[k], angle, angle, angle}
	for _, v := range j.Verdicts {
		if v.Sense == limits.AtMost && v.Subject == c.Joints[k] && slices.Contains(angleLimits, v.LimitName) {
			m.value, m.low, m.high = v.Value, v.Low, v.High
		}
	}
	return m
}

// angleLimits are the limits by which the working angle of a Cardan joint is judged.
var angleLimits = []string{survey.LimitWorkingAngleMax, survey.LimitOddJointMax, survey.LimitLoneJointMax}

// A group is joints of one role whose names would lie on each other, by rising angle.
type group struct {
	joints []measured
	role   string
}

// together returns the joints of a role in groups. highest is the largest angle shown.
func together(r role, highest float64) []group {
	const line = 0.04 // height of a line of text as a part of that of the figure
	joints := slices.SortedStableFunc(slices.Values(r.joints), func(a, b measured) int { return cmp.Compare(a.value, b.value) })
	var groups []group
	for _, m := range joints {
		if n := len(groups); n > 0 && m.value-groups[n-1].joints[0].value < line*highest {
			groups[n-1].joints = append(groups[n-1].joints, m)
		} else {
			groups = append(groups, group{[]measured{m}, r.name})
		}
	}
	return groups
}

// ends returns the least and the greatest angle of the joints.
func (g group) ends() (low, high float64) {
	return g.joints[0].value, g.joints[len(g.joints)-1].value
}

// text names the first n joints and counts the others, with their angles and role.
func (g group) text(n int) string {
	var names []string
	for _, m := range g.joints {
		names = append(names, m.name)
	}
	names = shortened(names, roomFor(names))
	text := strings.Join(names[:n], ", ")
	if more := len(g.joints) - n; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	least, greatest := g.ends()
	low, high := hundredths(least), hundredths(greatest)
	if low != high {
		low += "° to " + high
	}
	text += " " + low + "°"
	if g.role != "" {
		text += ", " + g.role
	}
	return text
}

// jointRules shows the joints at every speed.
func jointRules(groups []group) []plot.Plotter {
	var rules []plot.Plotter
	for _, g := range groups {
		for i, m := range g.joints {
			rule := page.Rule{At: m.value, Pen: draw.LineStyle{Color: page.Signal, Width: 1.2}}
			if i == len(g.joints)/2 {
				rule.Label = g.text(min(len(g.joints), 3))
			}
			rules = append(rules, rule)
		}
	}
	return rules
}

// jointMarks shows the joints at the speed of the driveline.
func jointMarks(rpm float64, groups []group) page.Drawing {
	key := page.Key{Name: "joints", Pen: page.Accent(), Marker: draw.CircleGlyph{}}
	d := page.Drawing{}
	for _, g := range groups {
		for _, m := range g.joints {
			d.Reach = append(d.Reach, plotter.XY{X: rpm, Y: m.low}, plotter.XY{X: rpm, Y: m.high})
			if m.uncertain() {
				key.Name = "joints, with their uncertainty"
			}
		}
	}
	d.Keys = []page.Key{key}
	d.Draw = func(s *page.Sketch) {
		places, texts := make([]vg.Point, len(groups)), make([]string, len(groups))
		for i, g := range groups {
			for _, m := range g.joints {
				m.draw(s, rpm)
			}
			low, high := g.ends()
			places[i] = s.At(plotter.XY{X: rpm, Y: (low + high) / 2})
			for n := len(g.joints); n > 0; n-- {
				if texts[i] = g.text(n); s.Name.Width(texts[i]) <= s.ColumnRoom(places[i]) {
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
