package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

func limitsCommand() command {
	return command{
		name:     "limits",
		operands: "[SET...]",
		summary:  "the sets of limits, each with its source and its reason",
		help: `Prints the sets of limits that check --limits and a driveline file can choose
from: each limit with what it applies to, why the set has it and who prints it.
Limits that depend on the speed are shown for --rpm. A file can set any limit by
its name, which stands in brackets. --limits takes such a FILE too, in which a
shop keeps its rules: {"limits": {"set": "machinery", ...}}.

  halfturn limits
  halfturn limits light-vehicle
  halfturn limits machinery heavy-road --rpm 1500
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			rpm := flags.Float64("rpm", 3000, "`speed` of the shafts in rev/min")
			return func(c *console, operands []string) error {
				if !(*rpm > 0 && *rpm <= survey.MaxRPM) {
					return usagef("--rpm: %v rev/min: want a speed above 0 and up to %d", *rpm, survey.MaxRPM)
				}
				sets, err := setsNamed(operands)
				if err != nil {
					return err
				}
				for i, set := range sets {
					if i > 0 {
						fmt.Fprintln(c.out)
					}
					writeSet(c.out, set, *rpm)
				}
				return nil
			}
		},
	}
}

// setsNamed returns the sets of these names, all where there is none.
func setsNamed(names []string) ([]limits.Set, error) {
	if len(names) == 0 {
		return limits.Sets, nil
	}
	var sets []limits.Set
	for _, name := range names {
		i := slices.IndexFunc(limits.Sets, func(s limits.Set) bool { return s.Name == name })
		if i < 0 {
			return nil, usagef("%q: want out of %s", name, strings.Join(survey.SetNames, ", "))
		}
		sets = append(sets, limits.Sets[i])
	}
	return sets, nil
}

func writeSet(w io.Writer, set limits.Set, rpm float64) {
	fmt.Fprint(w, text.Wrap(set.Name+": ", fmt.Sprintf("%s; at %.0f rev/min", set.For, rpm)))
	var sources []string
	for _, l := range set.Limits(rpm) {
		if !slices.Contains(sources, l.Basis) {
			sources = append(sources, l.Basis)
		}
		fmt.Fprint(w, text.Wrap("  - ", fmt.Sprintf("%s of %s: %s %s (%s) [%d]: %s",
			l.Quantity, l.AppliesTo, l.Sense, limits.Bounded(l.Value, l.Unit), l.Name, slices.Index(sources, l.Basis)+1, l.Why)))
	}
	findings.WriteSources(w, sources)
}
