package main

import (
	"cmp"
	"fmt"
	"strings"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics"
	"halfturn/kinematics/survey"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// figure is one that plot can draw. One of draw, set and turn is there.
type figure struct {
	name, shows string // shows is the caption on the page too
	takes       string // flags that it uses beside those of the driveline's geometry and of the image
	least, most int    // how many drivelines it takes; 0 means 1
	sized       bool   // chooses by the size of the page what is on it
	paper       bool   // has more on it than a slide can hold in letters that are read from the last row
	draw        func(subject) (*page.Figure, error)
	// title is that of a set as one document, which deck makes of its pages.
	title string
	deck  func(title string, pages ...*page.Figure) ([]byte, error)
	// set draws several pages that need no driveline, or use no more of one than its
	// working angles, in radians.
	set func(size page.Size, angles []float64) ([]plotting.Page, error)
	// turn shows one driveline turning.
	turn func(subject, plotting.AnimationOptions) (*plotting.Animation, error)
}

// drivelines says how many it takes where that is not plainly one.
func (f figure) drivelines() string {
	switch {
	case f.name == figures[0].name:
		return " (the usual one)"
	case f.set != nil:
		return "; no FILE"
	case f.most == 0:
		return ""
	case f.least == f.most:
		return fmt.Sprintf(", of %d FILEs", f.most)
	case f.least == 0:
		return fmt.Sprintf(", of up to %d FILEs", f.most)
	}
	return fmt.Sprintf(", of %d to %d FILEs", f.least, f.most)
}

// subject is what figures are drawn of.
type subject struct {
	of    []*findings.Findings // at least one
	drive plotting.Drive
	size  page.Size // zero: the one that suits the figure
	shaft int       // whose phase is turned; 0: the one that can do most
}

// one is the case of the first driveline, the only one of most figures.
func (s subject) one() *plotting.Case { return s.of[0].Case() }

func (s subject) cases() []*plotting.Case {
	var cases []*plotting.Case
	for _, f := range s.of {
		cases = append(cases, f.Case())
	}
	return cases
}

// figures are all that there are, the usual one first.
var figures = []figure{
	{
		name: "speed", shows: "how evenly each shaft turns", takes: "rpm coasting",
		draw: func(s subject) (*page.Figure, error) { return plotting.Speed(s.one(), s.drive) },
	},
	{
		name: "acceleration", shows: "torsional acceleration, driving and coasting", takes: "rpm",
		draw: func(s subject) (*page.Figure, error) { return plotting.Acceleration(s.one()) },
	},
	{
		name: "lead", shows: "how far each shaft runs ahead and behind", takes: "rpm coasting",
		draw: func(s subject) (*page.Figure, error) { return plotting.Lead(s.one(), s.drive) },
	},
	{
		name: "vectors", shows: "what each joint adds, head to tail", takes: "rpm limits", most: 4,
		draw: func(s subject) (*page.Figure, error) {
			if len(s.of) == 1 {
				return plotting.Vectors(s.one(), equivalentLimit(s.of[0]))
			}
			var limits []float64
			for _, f := range s.of {
				limits = append(limits, equivalentLimit(f))
			}
			return plotting.CompareVectors(s.cases(), limits)
		},
	},
	{
		name: "orders", shows: "orders 2 to 8, exact and by small-angle theory", takes: "rpm",
		draw: func(s subject) (*page.Figure, error) { return plotting.Orders(s.one()) },
	},
	{
		name: "loads", shows: "what torque does to bearings and joints",
		draw: func(s subject) (*page.Figure, error) { return plotting.Loads(s.one(), s.of[0].Loads, s.size) },
	},
	{
		name: "views", shows: "side view and top view to scale, with angles and yokes", takes: "rpm",
		draw: func(s subject) (*page.Figure, error) { return plotting.Views(s.one(), s.size) },
	},
	{
		name: "yokes", shows: "yokes and crosses in space", takes: "rpm",
		draw: func(s subject) (*page.Figure, error) { return plotting.Yokes(s.one(), 0) },
	},
	{
		name: "motion", shows: "yokes, crosses and speeds over a turn, as .gif or numbered .png",
		takes: "rpm frames seconds", turn: func(s subject, o plotting.AnimationOptions) (*plotting.Animation, error) {
			return plotting.NewAnimation(s.one(), o)
		},
	},
	{
		name: "travel", shows: "what is left across the poses of the suspension", takes: "limits",
		draw: func(s subject) (*page.Figure, error) { return travelFigure(s.of[0]) },
	},
	{
		name: "phasing", shows: "in phase and out of phase", takes: "rpm shaft",
		draw: func(s subject) (*page.Figure, error) { return plotting.Phasing(s.one(), s.shaft) },
	},
	{
		name: "theory", shows: "exact motion against first-order theory", takes: "rpm",
		draw: func(s subject) (*page.Figure, error) { return plotting.Theory(s.one()) },
	},
	{
		name: "compare", shows: "the last shafts beside each other", takes: "rpm", least: 2, most: 30,
		draw: func(s subject) (*page.Figure, error) { return plotting.Compare(s.cases()) },
	},
	{
		name: "correction", shows: "before and after a change", takes: "rpm", least: 2, most: 2,
		draw: func(s subject) (*page.Figure, error) { return plotting.Correction(s.one(), s.of[1].Case()) },
	},
	{
		name: "allowed", shows: "allowed working angle against speed, with the joints", takes: "rpm limits reading-error",
		draw: func(s subject) (*page.Figure, error) {
			return plotting.Allowed(s.one(), s.of[0].Judgement)
		},
	},
	{
		name: "residual", shows: "acceleration left against speed, with its limit", takes: "rpm limits reading-error",
		draw: func(s subject) (*page.Figure, error) {
			return plotting.Residual(s.one(), s.of[0].Judgement)
		},
	},
	{
		name: "sheet", shows: "everything about one driveline on a page", takes: "rpm limits", sized: true, paper: true,
		draw: func(s subject) (*page.Figure, error) {
			return plotting.Sheet(s.one(), equivalentLimit(s.of[0]), cmp.Or(s.size, page.A4))
		},
	},
	{
		name: "lecture", shows: "pages for a class, from one joint to cancellation",
		takes: "down right", title: plotting.LectureTitle, deck: page.Deck, set: func(size page.Size, angles []float64) ([]plotting.Page, error) {
			return plotting.Lecture(cmp.Or(size, page.Slide), angles...)
		},
	},
	{
		name: "exercises", shows: "exercises for a class with worked solutions",
		paper: true, title: plotting.ExercisesTitle, deck: page.Book, set: func(size page.Size, _ []float64) ([]plotting.Page, error) {
			return plotting.Exercises(cmp.Or(size, page.A4))
		},
	},
}

// figureNamed returns the figure of that name.
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

// drawNamed draws the figure of that name.
func drawNamed(name string, s subject) (*page.Figure, error) {
	f, err := figureNamed(name)
	if err != nil {
		return nil, err
	}
	return f.draw(s)
}

// equivalentLimit is the largest equivalent angle that is allowed, in radians; 0: no limit.
func equivalentLimit(f *findings.Findings) float64 {
	l, _ := f.Judgement.Set.Limit(survey.LimitEquivalentAngle, f.Judgement.RPM)
	return l.Value * kinematics.Degree
}

// travelFigure draws a driveline across the poses of its file.
func travelFigure(f *findings.Findings) (*page.Figure, error) {
	if f.Travel == nil {
		return nil, fmt.Errorf("%s: no poses: want a file that has some, under \"poses\"", f.Survey.Name)
	}
	return plotting.Travel(f.Case(), f.Travel, equivalentLimit(f))
}
