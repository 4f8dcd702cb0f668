package plotting

import (
	"fmt"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// A role is what a Cardan joint does beside others, on which depends how far it may bend.
type role struct {
	name   string // "" where there is no other
	limit  string // that holds for it beside those of every joint; may be empty
	joints []measured
}

// rolesOf returns the roles of the Cardan joints, those that joints have.
func rolesOf(c *Case, j *limits.Judgement) []role {
	paired, odd, lone := role{}, role{name: "odd", limit: survey.LimitOddJointMax}, role{limit: survey.LimitLoneJointMax}
	for k, joint := range c.Driveline.Joints() {
		if joint.Kind != kinematics.Cardan {
			continue
		}
		r := &paired
		switch {
		case slices.Contains(j.Roles.Odd, k):
			r = &odd
		case slices.Contains(j.Roles.Lone, k):
			r = &lone
		}
		r.joints = append(r.joints, measuredJoint(c, j, k))
	}
	return slices.DeleteFunc([]role{paired, odd, lone}, func(r role) bool { return len(r.joints) == 0 })
}

// allowances shows how far the joints of each role may bend, the area below shaded, and
// says in words what is shown.
func allowances(set limits.Set, roles []role, top float64) (layers []plot.Plotter, caption string) {
	caption = "No limit of the working angle applies."
	for _, r := range roles {
		c := set.AnglesOf(r.limit, top)
		if len(c.RPM) == 0 {
			continue
		}
		limit := page.Curve{Name: "allowed here", Points: pairs(c.RPM, c.Value), Pen: allowedPen}
		switch {
		case r.name != "":
			limit.Name, limit.End, limit.Pen.Color = "allowed for an odd joint", r.name, page.Soft
			caption += fmt.Sprintf(" An odd joint has no companion, and its own limit: %s° at most.", fewest(slices.Max(c.Value)))
		case r.limit != "":
			caption = "Allowed here is the tightest limit that applies: nothing cancels what the only Cardan joint of a driveline makes."
		case len(roles) > 1:
			caption = "Allowed here is the tightest limit that applies to a joint with a companion."
		default:
			caption = "Allowed here is the tightest limit that applies to this driveline."
		}
		layers = append(layers, areaBelow(pairs(c.RPM, c.Value)), limit)
	}
	return layers, caption
}

// allowedPen is a full line, wide enough to be seen below one in print that it follows.
var allowedPen = draw.LineStyle{Color: page.Ink, Width: 3}

// areaBelow shades what a limit allows.
func areaBelow(limit plotter.XYs) page.Drawing {
	area := slices.Concat(plotter.XYs{{X: limit[0].X}}, limit, plotter.XYs{{X: limit[len(limit)-1].X}})
	return page.Drawing{Draw: func(s *page.Sketch) { s.Polygon(page.Shade, draw.LineStyle{}, area...) }}
}
