package main

import (
	"context"

	"halfturn/kinematics/survey"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// plotSubject is what figures are drawn of.
type plotSubject struct {
	surveys []*survey.Survey // at least one
	cases   []*plotting.Case // of each
	drive   plotting.Drive
	ctx     context.Context // of the command
	size    page.Size       // zero: the one that suits the figure
}

// draw draws the figure of that name.
func (s plotSubject) draw(name string) (*page.Figure, error) {
	f, err := figureNamed(name)
	if err != nil {
		return nil, err
	}
	return f.draw(s)
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
	var surveys []*survey.Survey
	for _, s := range sources {
		sv, err := from.survey(c, s)
		if err != nil {
			return plotSubject{}, err
		}
		surveys = append(surveys, sv)
	}
	return plotSubjectOf(c, surveys...)
}

// plotSubjectOf analyses drivelines for their figures.
func plotSubjectOf(c *console, surveys ...*survey.Survey) (plotSubject, error) {
	subject := plotSubject{surveys: surveys, ctx: c.ctx}
	for _, sv := range surveys {
		one, err := plotting.NewCase(sv)
		if err != nil {
			return plotSubject{}, err
		}
		subject.cases = append(subject.cases, one)
	}
	return subject, nil
}
