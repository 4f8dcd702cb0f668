package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

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
that must hold. Shows each value as its source has it, ours, the difference, and
within what it must lie: half a unit of the last printed digit, or the rounding
of the machine's numbers. Needs no files. Exit status 1 if a value is off.

  halfturn verify
  halfturn verify > verified.txt
  halfturn verify && halfturn demo
`,
		prepare: func(*pflag.FlagSet) func(*console, []string) error {
			return func(c *console, _ []string) error {
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

// marks of values that are not simply right, and what they mean.
var marks = []struct {
	kind          proof.Kind
	mark, meaning string
}{
	{proof.Approximation, "*", "rounded on the way or by a formula for small angles, which ours follows here; the exact value stands under (exact)"},
	{proof.Misprint, "†", "a misprint; ours is compared with what must stand there"},
}

// checkLine is a line of the table of checks, text.Width wide.
const checkLine = "%s %-30s %10s %11s %10s %7s %5s\n"

// writeChecks prints a table of checks, which come group by group, and below it
// the sources by number.
func writeChecks(w io.Writer, checks []proof.Check) {
	fmt.Fprintf(w, checkLine, " ", "", "reference", "ours", "difference", "within", "from")
	var sources []string
	group := ""
	for _, c := range checks {
		if c.Group != group {
			group = c.Group
			fmt.Fprintf(w, "\n%s\n", group)
		}
		if !slices.Contains(sources, c.Source) {
			sources = append(sources, c.Source)
		}
		from := fmt.Sprintf("[%d]", slices.Index(sources, c.Source)+1)
		flag := " "
		if !c.OK() {
			flag = "!"
		}
		what := c.What
		if c.ID != "" {
			what = fmt.Sprintf("%-23s %6s", what, c.ID)
		}
		fmt.Fprintf(w, checkLine, flag, what, c.Printed+mark(c.Kind), ours(c),
			difference(c.Difference()), fmt.Sprintf("%.2g", c.Tolerance), from)
	}
	fmt.Fprint(w, "\n"+text.Wrap("", "S1-03 and so on are the rows of testdata/published.csv, which has the inputs and notes."))
	for _, m := range marks {
		fmt.Fprint(w, text.Wrap(m.mark+" ", m.meaning))
	}
	fmt.Fprintln(w)
	for i, source := range sources {
		fmt.Fprint(w, text.Wrap(fmt.Sprintf("%4s ", fmt.Sprintf("[%d]", i+1)), source))
	}
	fmt.Fprintln(w)
}

// mark returns the mark of a kind, "" for a plain value.
func mark(kind proof.Kind) string {
	for _, m := range marks {
		if m.kind == kind {
			return m.mark
		}
	}
	return ""
}

// ours prints our value with two digits more than the printed one has.
func ours(c proof.Check) string {
	digits, _, exponential := strings.Cut(c.Printed, "e")
	_, decimals, _ := strings.Cut(digits, ".")
	switch {
	case c.Want == 0:
		return difference(c.Ours)
	case exponential:
		return fmt.Sprintf("%.*e", len(decimals)+2, c.Ours)
	default:
		return fmt.Sprintf("%.*f", len(decimals)+2, c.Ours)
	}
}

// difference prints a small number with its sign.
func difference(v float64) string {
	if v == 0 || math.IsNaN(v) {
		return fmt.Sprint(math.Abs(v))
	}
	return text.Minus(fmt.Sprintf("%+.1e", v))
}
