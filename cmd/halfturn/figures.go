package main

import (
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
	"halfturn/plotting"
)

// figure is one that plot can draw.
type figure struct {
	name, shows string
	coasts      bool // takes --coasting
	many        bool // takes several drivelines
	draw        func(plotSubject) (*plotting.Figure, error)
}

// plotSubject is what figures are drawn of.
type plotSubject struct {
	surveys []*survey.Survey // at least one
	cases   []*plotting.Case // of each
	drive   plotting.Drive
}

var figures = []figure{
	{
		name: "speed", shows: "how evenly each shaft turns (the usual one)", coasts: true,
		draw: func(s plotSubject) (*plotting.Figure, error) { return plotting.Speed(s.cases[0], s.drive) },
	},
	{
		name: "acceleration", shows: "torsional acceleration, driving and coasting",
		draw: func(s plotSubject) (*plotting.Figure, error) { return plotting.Acceleration(s.cases[0]) },
	},
	{
		name: "lead", shows: "how far each shaft runs ahead and behind", coasts: true,
		draw: func(s plotSubject) (*plotting.Figure, error) { return plotting.Lead(s.cases[0], s.drive) },
	},
	{
		name: "vectors", shows: "what each joint adds to the second order, head to tail",
		draw: func(s plotSubject) (*plotting.Figure, error) { return plotting.Vectors(s.cases[0], 0) },
	},
	{
		name: "orders", shows: "orders 2 to 8, exact and by small-angle theory",
		draw: func(s plotSubject) (*plotting.Figure, error) { return plotting.Orders(s.cases[0]) },
	},
	{
		name: "views", shows: "side view and top view to scale, with angles and yokes",
		draw: func(s plotSubject) (*plotting.Figure, error) { return plotting.Views(s.cases[0]) },
	},
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

// sizes are the pages that a figure can be drawn on.
var sizes = []struct {
	name string
	plotting.Size
}{
	{"figure", plotting.Size{}}, // the one that suits the figure
	{"slide", plotting.Slide},
	{"a4", plotting.A4},
	{"letter", plotting.Letter},
}

func sizeNames() []string {
	var names []string
	for _, s := range sizes {
		names = append(names, s.name)
	}
	return names
}

func sizeNamed(name string) (plotting.Size, error) {
	for _, s := range sizes {
		if s.name == name {
			return s.Size, nil
		}
	}
	return plotting.Size{}, usagef("--size: %q: want one of %s", name, strings.Join(sizeNames(), ", "))
}

// newPlotSubject reads and analyses the drivelines of the operands or flags.
func newPlotSubject(c *console, from *source, operands []string) (plotSubject, error) {
	sources := [][]string{operands}
	if len(operands) > 1 {
		sources = nil
		for _, o := range operands {
			sources = append(sources, []string{o})
		}
	}
	var subject plotSubject
	for _, s := range sources {
		sv, err := from.survey(c, s)
		if err != nil {
			return plotSubject{}, err
		}
		one, err := newCase(sv)
		if err != nil {
			return plotSubject{}, err
		}
		subject.surveys = append(subject.surveys, sv)
		subject.cases = append(subject.cases, one)
	}
	return subject, nil
}

// newCase analyses a driveline for its figures.
func newCase(sv *survey.Survey) (*plotting.Case, error) {
	d, err := sv.Driveline()
	if err != nil {
		return nil, err
	}
	a, err := d.Analyse()
	if err != nil {
		return nil, err
	}
	c := &plotting.Case{Name: sv.Name, RPM: limits.RPM(sv), Lengths: sv.Lengths(), Driveline: d, Analysis: a}
	for _, s := range sv.Shafts {
		c.Shafts = append(c.Shafts, s.Name)
	}
	for _, j := range sv.Joints {
		c.Joints = append(c.Joints, j.Name)
	}
	return c, nil
}
