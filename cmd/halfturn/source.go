package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/survey"
)

// source is where a command's driveline comes from: a file or flags, and flags that
// override either.
type source struct {
	flags           *pflag.FlagSet
	lists           [len(shaftLists)]string // as typed
	rpm, torque     float64
	readingErrorDeg float64
	units, limits   string

	// Questions are what a person would ask back of the flags, once they are read.
	questions []string
}

// loadFlags are those of what torque does, which lengths go into.
var loadFlags = []string{"length", "units", "torque"}

// newSource declares the flags of a driveline as it turns under torque.
func newSource(flags *pflag.FlagSet) *source {
	s := &source{flags: flags}
	for i, l := range shaftLists {
		flags.StringVar(&s.lists[i], l.name, "", l.usage)
	}
	flags.StringVar(&s.units, "units", "", "`unit` of lengths, mm or in (default: the file's, or mm)")
	flags.Float64Var(&s.rpm, "rpm", 0, "`speed` of the first shaft in rev/min; overrides the file")
	flags.Float64Var(&s.torque, "torque", 0, "`torque` on the first shaft in N·m; overrides the file")
	return s
}

// newJudgedSource declares the flags of a driveline that is judged.
func newJudgedSource(flags *pflag.FlagSet) *source {
	s := newSource(flags)
	flags.Float64Var(&s.readingErrorDeg, "reading-error", 0, "half-`width` of the error of a reading in degrees; overrides the file")
	flags.StringVar(&s.limits, "limits", "", "`set` of limits ("+strings.Join(survey.SetNames, ", ")+"), or a FILE that has some, instead of the file's")
	return s
}

// given reports whether operands or flags say anything of a driveline, for commands
// that do something without one too.
func (s *source) given(operands []string) bool {
	return len(operands) > 0 || slices.ContainsFunc(slices.Concat(geometryFlags, loadFlags, []string{"rpm", "reading-error", "limits"}), s.flags.Changed)
}

// survey returns the driveline that the operands and flags give.
func (s *source) survey(c *console, operands []string) (*survey.Survey, error) {
	quick := slices.ContainsFunc(geometryFlags, s.flags.Changed)
	switch {
	case s.flags.Changed("units") && !slices.Contains(survey.Units, survey.Unit(s.units)):
		return nil, usagef("--units: %q: want mm or in", s.units)
	case s.flags.Changed("units") && !quick && !s.flags.Changed("length"):
		return nil, usagef("--units: is the unit of --length, which is not given; a FILE has its own")
	}
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
	return sv, s.override(c, sv)
}

// override puts what the flags say in place of what stands in the driveline.
func (s *source) override(c *console, sv *survey.Survey) error {
	if s.flags.Changed("reading-error") {
		sv.ReadingErrorDeg = s.readingErrorDeg
	}
	if s.flags.Changed("torque") {
		sv.TorqueNM = s.torque
	}
	if s.flags.Changed("rpm") {
		sv.SetRPM(s.rpm)
	}
	switch { // to a survey 0 is "not given"
	case s.flags.Changed("rpm") && s.rpm == 0:
		return usagef("--rpm: 0 rev/min: want a speed above 0")
	case s.flags.Changed("torque") && s.torque == 0:
		return usagef("--torque: 0 N·m: want a torque above 0")
	}
	if s.flags.Changed("limits") {
		l, err := s.readLimits(c)
		if err != nil {
			return err
		}
		sv.Limits = l
	}
	if s.flags.Changed("length") {
		if err := s.setLengths(sv); err != nil {
			return err
		}
	}
	if err := sv.Validate(); err != nil {
		return usageError{err}
	}
	return nil
}

// readLimits returns the limits of --limits: those of a set by its name, or those of
// a file.
func (s *source) readLimits(c *console) (survey.Limits, error) {
	if slices.Contains(survey.SetNames, s.limits) {
		return survey.Limits{Set: s.limits}, nil
	}
	l, err := await(c.ctx, func() (l survey.Limits, err error) {
		err = reading(s.limits, func(f *os.File) error {
			l, err = survey.ReadLimits(s.limits, f)
			return err
		})
		return l, err
	})
	if s.limits == "" || errors.Is(err, fs.ErrNotExist) {
		return l, usagef("--limits: %q: want one of %s, or a FILE", s.limits, strings.Join(survey.SetNames, ", "))
	}
	return l, err
}

// setLengths gives the shafts the lengths of --length.
func (s *source) setLengths(sv *survey.Survey) error {
	unit := sv.Units
	if s.units != "" {
		unit = survey.Unit(s.units)
	}
	lengths, err := s.list(lengthList, unit)
	if err != nil {
		return err
	}
	if len(lengths) != len(sv.Shafts) {
		return usagef("--length has %s for %d shafts: want one for each", text.Count(len(lengths), "value"), len(sv.Shafts))
	}
	sv.Shafts = slices.Clone(sv.Shafts)
	for k, l := range lengths {
		sv.Shafts[k].Length = l * unit.Millimetres(1) / sv.Units.Millimetres(1)
	}
	return nil
}

// find returns what is to be said of the driveline that the operands and flags give.
func (s *source) find(c *console, operands []string, opts findings.Options) (*findings.Findings, error) {
	sv, err := s.survey(c, operands)
	if err != nil {
		return nil, err
	}
	return s.found(c, sv, opts)
}

// found returns what is to be said of a driveline of the source.
func (s *source) found(c *console, sv *survey.Survey, opts findings.Options) (*findings.Findings, error) {
	tell, wipe := c.progress()
	defer wipe()
	opts.Questions, s.questions, opts.Progress = s.questions, nil, tell
	return findings.New(c.ctx, sv, opts)
}

// then returns a command that does the rest with the driveline; what is to be asked
// back is remarked.
func (s *source) then(rest func(*console, *survey.Survey) error) func(*console, []string) error {
	return func(c *console, operands []string) error {
		sv, err := s.survey(c, operands)
		if err != nil {
			return err
		}
		for _, q := range s.questions {
			c.remark("%s", q)
		}
		return rest(c, sv)
	}
}

// readSurvey reads a driveline file, or standard input for "-".
func readSurvey(c *console, path string) (*survey.Survey, error) {
	return await(c.ctx, func() (sv *survey.Survey, err error) {
		if path == "-" {
			return survey.Read(path, c.in)
		}
		err = reading(path, func(f *os.File) error {
			sv, err = survey.Read(path, f)
			return err
		})
		return sv, err
	})
}

// reading opens a file to be read; its errors are worded as a person would.
func reading(path string, read func(*os.File) error) error {
	f, err := os.Open(path)
	if err != nil {
		return plainPathError(err)
	}
	defer f.Close()
	return plainPathError(read(f))
}

// plainPathError words a file error as a person would.
func plainPathError(err error) error {
	if e, ok := errors.AsType[*fs.PathError](err); ok {
		return fmt.Errorf("%s: %w", e.Path, e.Err)
	}
	return err
}
