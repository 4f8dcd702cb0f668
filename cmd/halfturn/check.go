package main

import (
	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics/survey"
)

func checkCommand() command {
	return command{
		name:     "check",
		operands: "FILE",
		summary:  "the verdict: working angles, what cancels, what is left",
		help: `Works out the true working angle of every joint and how much of the twice-a-turn
fluctuation is left at the last shaft, and judges both by a set of limits, as
far as the reading errors allow.

  halfturn check my-driveline.json
  halfturn check --down 3,7,4 --right 0,2,0 --rpm 3000 --reading-error 0.1
  halfturn check my-driveline.json --limits machinery --strict
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			asJSON := flags.Bool("json", false, "print a JSON document for programs")
			strict := flags.Bool("strict", false, "exit with status 3 unless every verdict is \"within\"")
			from := newJudgedSource(flags)
			return from.then(func(c *console, sv *survey.Survey) error {
				found, err := findings.New(c.ctx, sv, findings.Options{})
				if err != nil {
					return err
				}
				if *asJSON {
					err = c.writeJSON(found.Document())
				} else {
					found.WriteText(c.out)
				}
				if err == nil && *strict && !found.Within() {
					return errNotWithin
				}
				return err
			})
		},
	}
}
