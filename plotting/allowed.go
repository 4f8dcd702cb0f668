package plotting

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"

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
