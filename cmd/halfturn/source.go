package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"halfturn/kinematics/survey"
)

// source is where a command's driveline comes from: a file, or quick flags.
type source struct {
	flags           *pflag.FlagSet
	down, right     string
	phase           string
	rpm             float64
	readingErrorDeg float64
	limitSet        string
}

// geometryFlags are the flags that stand for a file.
var geometryFlags = []string{"down", "right", "phase"}

// newSource declares the flags of a driveline as it turns.
func newSource(flags *pflag.FlagSet) *source {
	s := &source{flags: flags}
	flags.StringVar(&s.down, "down", "", "side-view `slopes` of the shafts in degrees, as 0,12,0; down is positive")
	flags.StringVar(&s.right, "right", "", "top-view `headings` of the shafts in degrees; right is positive")
	flags.StringVar(&s.phase, "phase", "", "`phases` of the shafts between two joints in degrees; clockwise is positive")
	flags.Float64Var(&s.rpm, "rpm", 0, "`speed` of the first shaft in rev/min; overrides the file")
	return s
}

// newJudgedSource declares the flags of a driveline that is judged.
func newJudgedSource(flags *pflag.FlagSet) *source {
	s := newSource(flags)
	flags.Float64Var(&s.readingErrorDeg, "reading-error", 0, "half-`width` of the error of a reading in degrees")
	flags.StringVar(&s.limitSet, "limits", "", "`set` of limits instead of the file's: "+strings.Join(survey.SetNames, ", "))
	return s
}

// given reports whether operands or flags say anything of a driveline, for commands
// that do something without one too.
func (s *source) given(operands []string) bool {
	return len(operands) > 0 || slices.ContainsFunc(slices.Concat(geometryFlags, []string{"rpm", "reading-error", "limits"}), s.flags.Changed)
}

// survey returns the driveline that the operands and flags give.
func (s *source) survey(c *console, operands []string) (*survey.Survey, error) {
	quick := slices.ContainsFunc(geometryFlags, s.flags.Changed)
	var sv *survey.Survey
	var err error
	switch {
	case len(operands) > 1:
		return nil, usagef("%d FILEs: want one", len(operands))
	case quick && len(operands) == 1:
		return nil, usagef("both a FILE (%s) and a driveline by flags: want one of them", operands[0])
	case quick:
		sv, err = s.quick(c)
	case len(operands) == 1 && operands[0] == "":
		return nil, usagef("the name of the FILE is empty: want a FILE, or - for standard input")
	case len(operands) == 1:
		sv, err = readSurvey(c, operands[0])
	default:
		return nil, usagef("no driveline: want a FILE, - for standard input, or flags such as --down 0,12,0")
	}
	if err != nil {
		return nil, err
	}
	if s.flags.Changed("reading-error") {
		sv.ReadingErrorDeg = s.readingErrorDeg
		if err := sv.Validate(); err != nil {
			return nil, usageError{err}
		}
	}
	if s.flags.Changed("rpm") {
		if err := s.overrideRPM(sv); err != nil {
			return nil, err
		}
	}
	if s.flags.Changed("limits") {
		if !slices.Contains(survey.SetNames, s.limitSet) {
			return nil, usagef("--limits: %q: want one of %s", s.limitSet, strings.Join(survey.SetNames, ", "))
		}
		sv.Limits.Set = s.limitSet
	}
	return sv, nil
}

// then returns a command that does the rest with the driveline.
func (s *source) then(rest func(*console, *survey.Survey) error) func(*console, []string) error {
	return func(c *console, operands []string) error {
		sv, err := s.survey(c, operands)
		if err != nil {
			return err
		}
		return rest(c, sv)
	}
}

// readSurvey reads a driveline file, or standard input for "-".
func readSurvey(c *console, path string) (*survey.Survey, error) {
	return await(c.ctx, func() (*survey.Survey, error) {
		if path == "-" {
			return survey.Read(path, c.in)
		}
		f, err := os.Open(path)
		if err != nil {
			return nil, plainPathError(err)
		}
		defer f.Close()
		sv, err := survey.Read(path, f)
		return sv, plainPathError(err)
	})
}

// plainPathError words a file error as a person would.
func plainPathError(err error) error {
	if e, ok := errors.AsType[*fs.PathError](err); ok {
		return fmt.Errorf("%s: %w", e.Path, e.Err)
	}
	return err
}

// overrideRPM gives the survey the speed of --rpm instead of its own.
func (s *source) overrideRPM(sv *survey.Survey) error {
	sv.SetRPM(s.rpm)
	if s.rpm == 0 { // to a survey that is "not given"
		return usagef("--rpm: 0 rev/min: want a speed above 0")
	}
	if err := sv.Validate(); err != nil {
		return usageError{err}
	}
	return nil
}
