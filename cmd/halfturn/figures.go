package main

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// figure is one that plot can draw.
type figure struct {
	name, shows string
	coasts      bool // takes --coasting
	least, most int  // how many drivelines it takes; 0 means 1
	sized       bool // chooses by the size of the page what is on it
	draw        func(plotSubject) (*page.Figure, error)
	// set draws several pages that need no driveline; draw is nil then.
	set func(page.Size) ([]plotting.Page, error)
}

var figures = []figure{
	{
		name: "speed", shows: "how evenly each shaft turns (the usual one)", coasts: true,
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Speed(s.cases[0], s.drive) },
	},
	{
		name: "acceleration", shows: "torsional acceleration, driving and coasting",
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Acceleration(s.cases[0]) },
	},
	{
		name: "lead", shows: "how far each shaft runs ahead and behind", coasts: true,
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Lead(s.cases[0], s.drive) },
	},
	{
		name: "vectors", shows: "what each joint adds to the second order, head to tail",
		draw: func(s plotSubject) (*page.Figure, error) {
			limit, err := equivalentLimit(s.surveys[0])
			if err != nil {
				return nil, err
			}
			return plotting.Vectors(s.cases[0], limit)
		},
	},
	{
		name: "orders", shows: "orders 2 to 8, exact and by small-angle theory",
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Orders(s.cases[0]) },
	},
	{
		name: "views", shows: "side view and top view to scale, with angles and yokes",
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Views(s.cases[0]) },
	},
	{
		name: "yokes", shows: "yokes and crosses in space",
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Yokes(s.cases[0], 0) },
	},
	{
		name: "travel", shows: "what is left across the poses of the suspension",
		draw: func(s plotSubject) (*page.Figure, error) { return travelFigure(s.ctx, s.surveys[0]) },
	},
	{
		name: "phasing", shows: "in phase and out of phase",
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Phasing(s.cases[0]) },
	},
	{
		name: "theory", shows: "exact motion against first-order theory",
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Theory(s.cases[0]) },
	},
	{
		name: "compare", shows: "the last shafts of several FILEs", least: 2, most: 30,
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Compare(s.cases) },
	},
	{
		name: "correction", shows: "before and after a change, of two FILEs", least: 2, most: 2,
		draw: func(s plotSubject) (*page.Figure, error) { return plotting.Correction(s.cases[0], s.cases[1]) },
	},
	{
		name: "allowed", shows: "allowed working angle against speed, with the joints",
		draw: func(s plotSubject) (*page.Figure, error) {
			a, err := limits.NewAngleFigure(s.surveys[0], topSpeed(s.surveys[0]))
			if err != nil {
				return nil, err
			}
			return plotting.Allowed(s.surveys[0].Name, a)
		},
	},
	{
		name: "residual", shows: "acceleration left against speed, with its limit",
		draw: func(s plotSubject) (*page.Figure, error) {
			r, err := limits.NewResidualFigure(s.surveys[0], topSpeed(s.surveys[0]))
			if err != nil {
				return nil, err
			}
			return plotting.Residual(s.surveys[0].Name, r)
		},
	},
	{
		name: "sheet", shows: "everything about one driveline on a page", sized: true,
		draw: func(s plotSubject) (*page.Figure, error) {
			limit, err := equivalentLimit(s.surveys[0])
			if err != nil {
				return nil, err
			}
			return plotting.Sheet(s.cases[0], limit, cmp.Or(s.size, page.A4))
		},
	},
	{
		name: "lecture", shows: "pages for a class, from one joint to cancellation; no FILE",
		set: func(size page.Size) ([]plotting.Page, error) {
			return plotting.Lecture(cmp.Or(size, page.Slide))
		},
	},
}

// equivalentLimit is the largest equivalent angle that is allowed, in radians; 0: no limit.
func equivalentLimit(sv *survey.Survey) (float64, error) {
	set, err := limits.Of(sv)
	if err != nil {
		return 0, err
	}
	for _, l := range set.Limits(sv.ShaftRPM()) {
		if l.Name == survey.LimitEquivalentAngle {
			return l.Value * kinematics.Degree, nil
		}
	}
	return 0, nil
}

// topSpeed is the highest speed, in rev/min, of figures against speed.
func topSpeed(sv *survey.Survey) float64 {
	if rpm := sv.ShaftRPM(); rpm > 0 {
		return 2 * rpm
	}
	return 5000
}

func figureNamed(name string) (figure, error) {
	var names []string
	for _, f := range figures {
		if f.name == name {
			return f, nil
		}
		names = append(names, f.name)
	}
	return figure{}, usagef("--figure: %q: want one of %s", name, strings.Join(names, ", "))
}

// travelFigure draws a driveline across the poses of its file.
func travelFigure(ctx context.Context, sv *survey.Survey) (*page.Figure, error) {
	if len(sv.Poses) == 0 {
		return nil, fmt.Errorf("%s: no poses: want a file that has some", sv.Name)
	}
	travel, err := adjust.NewTravel(ctx, sv)
	if err != nil {
		return nil, err
	}
	limit, err := equivalentLimit(sv)
	if err != nil {
		return nil, err
	}
	t := plotting.Travel{Name: sv.Name, Shaft: travel.Shaft, Limit: limit / kinematics.Degree}
	for _, j := range sv.Joints {
		t.Joints = append(t.Joints, j.Name)
	}
	for i, s := range travel.States {
		t.Poses = append(t.Poses, plotting.Pose{
			Name: findings.PoseName(s), SlopeDeg: travel.SlopeDeg[i],
			LeftDeg: s.ExactEquivalentDeg, WorkingAngle: s.WorkingAngleDeg,
		})
	}
	return plotting.TravelCurve(t)
}
