// Package findings holds all that is to be said of a driveline, in one value, and
// says it: as text for a person, as a JSON document for a program, and in tables
// that text, report and page share. Whoever shows a driveline asks it and computes
// nothing again.
package findings

import (
	"context"
	"errors"
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
	"halfturn/plotting"
)

// Findings is all that is to be said of a driveline. Do not change it.
type Findings struct {
	Survey    *survey.Survey // complete
	Driveline *kinematics.Driveline
	Analysis  *kinematics.Analysis
	Judgement *limits.Judgement // as measured
	Loads     *survey.Loads     // as measured
	// Poses are as measured and then in each pose of the survey, those of Travel; nil
	// where the survey has none.
	Poses  []adjust.State
	Travel *adjust.Travel
	// Correction is what can be changed; nil where none was asked for or none could
	// be looked for, which NoCorrection explains.
	Correction   *adjust.Result
	NoCorrection error
	// Questions are what a person would ask back, one line each, before the answer.
	Questions []string
}

// Options of New; the zero value looks for no correction.
type Options struct {
	Correct bool           // look for a correction
	Search  adjust.Options // how
	// Progress is told how far judgements and search are, which may take seconds; nil:
	// nobody is.
	Progress adjust.Progress
	// Questions that come before those of the survey.
	Questions []string
}

// New returns what is to be said of a driveline. It fails with what
// survey.Survey.Validate says of one that is not valid, and with the error of ctx
// when that ends.
func New(ctx context.Context, s *survey.Survey, opts Options) (*Findings, error) {
	f := &Findings{Survey: s.Complete()}
	var err error
	if f.Driveline, err = f.Survey.Driveline(); err != nil {
		return nil, err
	}
	f.Analysis = f.Driveline.Analyse()
	f.Loads = f.Survey.Loads(f.Driveline)
	if err := f.judge(ctx, opts); err != nil {
		return nil, err
	}
	f.Questions = slices.Concat(opts.Questions, f.Judgement.Questions)
	if opts.Correct {
		f.correct(ctx, opts)
	}
	return f, ctx.Err()
}

func (f *Findings) judge(ctx context.Context, opts Options) (err error) {
	if len(f.Survey.Poses) == 0 {
		f.Judgement, err = limits.Judge(ctx, f.Survey)
		return err
	}
	if f.Travel, err = adjust.NewTravel(ctx, f.Survey, opts.Progress); err != nil {
		return err
	}
	f.Poses, f.Judgement = f.Travel.States, f.Travel.States[0].Judgement
	return nil
}

// correct looks for a correction. That none can be looked for is no failure.
func (f *Findings) correct(ctx context.Context, opts Options) {
	opts.Search.Before, opts.Search.Progress = f.Poses, opts.Progress
	f.Correction, f.NoCorrection = adjust.Search(ctx, f.Survey, opts.Search)
}

// hurried reports whether the search for a correction takes more than it may.
func (f *Findings) hurried() bool { return errors.Is(f.NoCorrection, adjust.ErrBudget) }

// Within reports whether every verdict is within, in every pose.
func (f *Findings) Within() bool {
	return f.Judgement.Outcome == limits.Within && len(f.elsewhere()) == 0
}

// elsewhere returns the poses that are not within.
func (f *Findings) elsewhere() []adjust.State {
	var states []adjust.State
	for _, s := range f.Poses {
		if s.Pose != "" && s.Judgement.Outcome != limits.Within {
			states = append(states, s)
		}
	}
	return states
}

// Case returns what figures of the driveline are drawn from.
func (f *Findings) Case() *plotting.Case {
	return plotting.CaseOf(f.Survey, f.Driveline, f.Analysis)
}
