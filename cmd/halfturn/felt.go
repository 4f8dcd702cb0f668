package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

func feltCommand() command {
	return command{
		name:     "felt",
		operands: "FREQUENCY [FILE] --at SPEED",
		summary:  "which rotation a vibration fits",
		help: `Says which rotation shakes as often as a vibration that somebody feels: wheels,
shafts, or the joint angles, which shake twice in a turn of the shaft. A FILE
with a road, or tyre and final drive, ties the shafts to the speed on the road;
a speed in rpm is that of the shafts and needs neither. Measure the frequency
with a telephone on the seat rail, at a steady speed.

  halfturn felt 94Hz --at 65mph --tyre 31x10.5R15 --final-drive 3.73
  halfturn felt 43Hz --at 2600rpm
  halfturn felt 94Hz my-driveline.json --at 65mph

Have somebody else drive while you read. Do not run a vehicle on stands in gear
to feel for it.
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			r := feltRequest{flags: flags}
			flags.StringVar(&r.at, "at", "", "`speed` at which it is felt: 90km/h, 65mph or 2800rpm (default: the file's)")
			flags.StringVar(&r.road.Tyre, "tyre", "", "`size` of the tyres, such as 235/60R16 or 31x10.5R15")
			flags.StringVar(&r.diameter, "tyre-diameter", "", "`diameter` of the tyres instead of their size, such as 31in or 787mm")
			flags.Float64Var(&r.road.FinalDrive, "final-drive", 0, "`turns` of the shaft for one turn of the wheels, such as 3.73")
			flags.Float64Var(&r.engineRPM, "engine-rpm", 0, "`speed` of the engine there in rev/min: looks at its orders too")
			flags.BoolVar(&r.asJSON, "json", false, "print a JSON document for programs")
			return r.run
		},
	}
}

// feltRequest is what the flags of felt ask for.
type feltRequest struct {
	flags        *pflag.FlagSet
	at, diameter string
	road         survey.Road
	engineRPM    float64
	asJSON       bool
}

func (r *feltRequest) run(c *console, operands []string) error {
	if n := len(operands); n < 1 || n > 2 {
		return usagef("%s: want a frequency, such as 94Hz, and a FILE if there is one", text.Count(n, "operand"))
	}
	hz, err := limits.ParseFrequency(operands[0])
	if err != nil {
		return usageError{err}
	}
	sv, err := r.survey(c, operands[1:])
	if err != nil {
		return err
	}
	gearing, rpm := sv.Gearing(), sv.ShaftRPM()
	if r.at != "" {
		speed, err := limits.ParseSpeed(r.at)
		if err != nil {
			return usageError{fmt.Errorf("--at: %w", err)}
		}
		if rpm, err = speed.RPM(gearing); err != nil {
			return usageError{err}
		}
	}
	if rpm == 0 {
		return usagef("no speed: want --at, such as --at 90km/h or --at 2800rpm")
	}
	felt, err := limits.Diagnose(hz, rpm, r.engineRPM, gearing)
	if err != nil {
		return usageError{err}
	}
	if r.asJSON {
		return c.writeJSON(findings.NewFeltDocument(felt))
	}
	findings.WriteFelt(c.out, felt)
	return nil
}

// survey returns the driveline of the FILE, or one that has nothing but the road of
// the flags.
func (r *feltRequest) survey(c *console, operands []string) (*survey.Survey, error) {
	byFlags := r.flags.Changed("tyre") || r.flags.Changed("tyre-diameter") || r.flags.Changed("final-drive")
	switch {
	case len(operands) > 0 && byFlags:
		return nil, usagef("both a FILE (%s) and a road by flags: want one of them", operands[0])
	case len(operands) > 0:
		return readSurvey(c, operands[0])
	case !byFlags:
		return new(survey.Survey), nil
	}
	if r.road.FinalDrive == 0 || r.road.Tyre == "" && r.diameter == "" {
		return nil, usagef("a road by flags: want --tyre or --tyre-diameter, and --final-drive")
	}
	if r.diameter != "" {
		mm, err := tyreDiameter(r.diameter)
		if err != nil {
			return nil, usageError{fmt.Errorf("--tyre-diameter: %w", err)}
		}
		r.road.TyreDiameter = mm
	}
	level := survey.Shaft{Slope: survey.Down(0)}
	sv := &survey.Survey{Units: survey.Millimetre, Road: &r.road, Shafts: []survey.Shaft{level, level}}
	if err := sv.Validate(); err != nil {
		return nil, usageError{err}
	}
	return sv.Complete(), nil
}

// tyreDiameter reads the diameter of a tyre and returns it in millimetres. It is
// plain what is meant without a unit: no tyre is as small as 200 mm or as large as
// 200 in.
func tyreDiameter(typed string) (float64, error) {
	if inches, err := survey.ParseNumber(typed, "in", "inch", "inches", `"`, "″"); err == nil && (inches < 200 || !strings.ContainsAny(typed[len(typed)-1:], "0123456789.")) {
		return survey.Inch.Millimetres(inches), nil
	}
	mm, err := survey.ParseNumber(typed, "mm")
	if err != nil {
		return 0, fmt.Errorf("%q: want a diameter such as 31in or 787mm", typed)
	}
	return mm, nil
}
