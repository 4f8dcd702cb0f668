package adjust

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"halfturn/kinematics/survey"
)

// Options of Search; the zero value is usable.
type Options struct {
	// Only these kinds of change, out of survey.Changes, are made; nil: all.
	Only []string
	// Allow adds to the changes of the survey, or to the usual ones, and replaces
	// the range of one that is among them.
	Allow []survey.Change
	// AllPoses asks for plans that keep the limits in every pose of the survey and
	// not only as measured and in those of the kind cruise.
	AllPoses bool
	// MostParts is how many changes a plan may combine; 0: as many as are of use.
	MostParts int
	// Before is what Search would find out first, where the caller has it: the states
	// that NewTravel returns of the survey.
	Before []State
	// Budget is how many steps the search may take, each the measuring of one joint in
	// one pose. One that takes more fails with ErrBudget; 0: none does.
	Budget   int64
	Progress Progress // of poses judged and combinations tried; may be nil
}

// check refuses options that make no sense, and changes that the survey cannot
// have.
func (o Options) check(s *survey.Survey) error {
	for _, name := range o.Only {
		if !slices.Contains(survey.Changes, name) {
			return fmt.Errorf("%q is no kind of change: want some of %s", name, strings.Join(survey.Changes, ", "))
		}
	}
	if o.MostParts < 0 {
		return fmt.Errorf("%d changes at once: want 1 or more, or 0 for the program's choice", o.MostParts)
	}
	trial := s.Complete()
	trial.Adjust = o.Allow
	return trial.Validate()
}

// choose returns the changes to try and the part of the result that tells of
// them.
func choose(s *survey.Survey, opts Options) (*Result, []*change, error) {
	if err := s.Validate(); err != nil {
		return nil, nil, err
	}
	if err := opts.check(s); err != nil {
		return nil, nil, err
	}
	r := &Result{Assumed: len(s.Adjust) == 0}
	asked := slices.Clone(s.Adjust)
	if r.Assumed {
		asked = usual(s, opts.Only)
	}
	for _, c := range opts.Allow {
		asked = append(slices.DeleteFunc(asked, func(have survey.Change) bool { return sameChange(have, c) }), c)
	}
	asked = slices.DeleteFunc(asked, func(c survey.Change) bool {
		return opts.Only != nil && !slices.Contains(opts.Only, c.Change)
	})
	g := newGeometry(s)
	var changes []*change
	for _, c := range asked {
		made, err := newChange(s, g, c)
		if err == nil && len(made.values) == 0 {
			err = fmt.Errorf("%s: its range holds no value but 0 in steps of %g", label(c), made.step)
		}
		if err != nil {
			r.Refused = append(r.Refused, err.Error())
			if errors.Is(err, errLength) {
				r.Untried = append(r.Untried, label(c))
			}
			continue
		}
		made.assumed = r.Assumed && !slices.ContainsFunc(opts.Allow, func(a survey.Change) bool { return sameChange(a, c) })
		made.cuts = made.assumed && c.Change == survey.ChangeClocking && !slices.Contains(opts.Only, c.Change) && inPhase(s, made.at)
		c.Step = made.step
		changes = append(changes, made)
		r.Changes = append(r.Changes, c)
	}
	return r, changes, nil
}

func sameChange(a, b survey.Change) bool { return a.Change == b.Change && a.On == b.On }

// usual returns the changes that are possible on most vehicles: those that
// common practice knows and those of the kinds asked for.
func usual(s *survey.Survey, only []string) []survey.Change {
	var changes []survey.Change
	for _, k := range kinds {
		parts := s.ChangeParts(k.name)
		if k.unasked != nil && !slices.Contains(only, k.name) {
			parts = k.unasked(s)
		}
		of := k.usual[s.ChangeUnit(k.name)]
		for _, on := range parts {
			changes = append(changes, survey.Change{Change: k.name, On: on, From: of.from, To: of.to, Step: of.step})
		}
	}
	return changes
}
