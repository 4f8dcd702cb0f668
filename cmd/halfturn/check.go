package main

import (
	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics/adjust"
)

func checkCommand() command {
	return command{
		name:     "check",
		operands: "FILE",
		summary:  "the verdict: working angles, what cancels, what is left",
		help: `Works out the true working angle of every joint and how much of the twice-a-turn
fluctuation is left at the last shaft, and judges both by a set of limits, as
far as the reading errors allow. The answer comes first, then what cures it.

  halfturn check my-driveline.json
  halfturn check --down 3,7,4 --right 0,2,0 --rpm 3000 --reading-error 0.1
  halfturn check --down "2.8 up; 3.9 down; 1.1 up" --rpm 3000 --full
  halfturn check my-driveline.json --limits machinery --strict
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			full := flags.Bool("full", false, "print everything, not what matters most")
			asJSON := flags.Bool("json", false, "print a JSON document for programs")
			strict := flags.Bool("strict", false, "exit with status 3 unless every verdict is \"within\", in every pose")
			from := newJudgedSource(flags)
			return func(c *console, operands []string) error {
				if *full && *asJSON {
					return usagef("--full and --json: want one of them, JSON has everything")
				}
				found, err := from.find(c, operands, findings.Options{Correct: !*asJSON, Search: adjust.Options{Budget: c.patience}})
				if err != nil {
					return err
				}
				switch {
				case *asJSON:
					err = c.writeJSON(found.Document())
				case *full:
					found.WriteFull(c.out)
				default:
					found.WriteShort(c.out)
				}
				if err == nil && *strict && !found.Within() {
					return errNotWithin
				}
				return err
			}
		},
	}
}
