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

// Allowed returns the figure of the allowed working angle against speed, by the tightest
// limit that holds for each joint, with the limits in print for such a driveline, and its
// joints with their uncertainty as far as they were judged by such a limit. j is the
// judgement of the driveline.
func Allowed(c *Case, j *limits.Judgement) (*page.Figure, error) {
	if err := checkJudged(c, j); err != nil {
		return nil, err
	}
	p := &page.Panel{
		X: page.Axis{Label: "speed, rev/min", Least: page.Interval{Min: 0, Max: 1}},
		Y: page.Axis{Label: "working angle β, °", Least: page.Interval{Min: 0, Max: 1}},
	}
	top := topSpeed(j.RPM)
	printed := grouped(j.Set.Printed(survey.LimitWorkingAngleMax, top))
	roles := rolesOf(c, j)
	allowed, caption := allowances(j.Set, roles, top)
	p.Add(allowed...)
	p.Add(printedLimits(printed)...)
	var groups []group
	for _, r := range roles {
		if slices.ContainsFunc(r.joints, measured.uncertain) {
			caption += " Bars: the interval in which the joint's true angle lies."
			break
		}
	}
	most := highest(printed, roles)
	for _, r := range roles {
		groups = append(groups, together(r, most)...)
	}
	if j.RPM > 0 {
		p.Add(jointMarks(j.RPM, groups))
	} else {
		p.Add(jointRules(groups)...)
	}
	return &page.Figure{
		Title:    "How large may a working angle be at which speed?",
		Subtitle: brief(c.Name, longestName),
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

// printedLimits shows the limits in print, numbered at their ends as in the legend. Those
// that end as one carry all their numbers.
func printedLimits(curves []limits.Curve) []plot.Plotter {
	ends := make(map[plotter.XY]string)
	for i, c := range curves {
		end := endOf(c)
		ends[end] = strings.TrimPrefix(fmt.Sprintf("%s, %d", ends[end], i+1), ", ")
	}
	var layers []plot.Plotter
	for i, c := range curves {
		pen, end := page.Pen(i+1), endOf(c)
		pen.Width = 1
		layers = append(layers, page.Curve{Name: fmt.Sprintf("%d  %s", i+1, c.Basis), Points: pairs(c.RPM, c.Value), Pen: pen, End: ends[end]})
		ends[end] = ""
	}
	return layers
}

func endOf(c limits.Curve) plotter.XY {
	last := len(c.Value) - 1
	return plotter.XY{X: c.RPM[last], Y: c.Value[last]}
}

// highest returns the largest value of all curves and joints.
func highest(curves []limits.Curve, roles []role) float64 {
	most := 0.0
	for _, c := range curves {
		most = max(most, slices.Max(c.Value))
	}
	for _, r := range roles {
		for _, m := range r.joints {
			most = max(most, m.value)
		}
	}
	return most
}

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
