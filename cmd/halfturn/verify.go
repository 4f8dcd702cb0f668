package main

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/proof"
)

func verifyCommand() command {
	return command{
		name:    "verify",
		summary: "checks this copy against printed values and other programs",
		help: `Computes again, in this copy of the program, what it was checked against: values
that others print, chains of rigid bodies, arithmetic of many digits, and laws
that must hold. Shows each value as printed, ours, the difference, and within
what it must lie: half a unit of the last printed digit, or the rounding of the
machine's numbers. Needs no files. Exit status 1 if a value is off.

  halfturn verify
`,
		prepare: func(*pflag.FlagSet) func(*console, []string) error {
			return func(c *console, operands []string) error {
				if len(operands) > 0 {
					return usagef("%q: verify takes no operand", operands)
				}
				return verify(c.out, proof.Checks())
			}
		},
	}
}

// verify prints the checks and what became of them. It returns an error if one
// fails.
func verify(w io.Writer, checks []proof.Check) error {
	writeChecks(w, checks)
	failing := 0
	for _, check := range checks {
		if !check.OK() {
			failing++
			fmt.Fprint(w, text.Wrap("! ", complaint(check)))
		}
	}
	fmt.Fprintf(w, "%d values agree, %d are off.\n", len(checks)-failing, failing)
	if failing > 0 {
		return fmt.Errorf("%d of %d values are off", failing, len(checks))
	}
	return nil
}

// complaint tells what is wrong with a check that fails.
func complaint(c proof.Check) string {
	text := fmt.Sprintf("%s, %s: ours is %.17g: want %.17g within %.2g", c.Group, c.What, c.Ours, c.Want, c.Tolerance)
	if c.Where != "" {
		text += "; worst at " + c.Where
	}
	return text
}
