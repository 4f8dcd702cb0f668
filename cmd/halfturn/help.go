package main

import (
	"fmt"
	"runtime/debug"
	"strings"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/text"
)

const intro = `halfturn - what a chain of Cardan joints does to rotation

Give it the slopes of a vehicle's propeller shafts. It works out the true
working angle of each joint in space, how much of the twice-a-turn fluctuation
is left at the last shaft, and what that means at this speed.

Stand at the driving end and look along the power flow. What you see is what
you enter: down is positive, right is positive, clockwise is positive.
`

const examplesOfUse = `
Try:
  halfturn demo
  halfturn check --down 3,7,4 --rpm 3000
  halfturn check my-driveline.json
  halfturn series --down 0,12,0 --rpm 1000 --steps 72 > turn.csv

FILE is a driveline file (see halfturn schema), or - for standard input.
halfturn COMMAND --help tells more.
`

func overview() string {
	var b strings.Builder
	b.WriteString(intro)
	b.WriteString("\nUsage: halfturn COMMAND [FILE] [flags]\n\nCommands:\n")
	for _, cmd := range commands() {
		fmt.Fprintf(&b, "  %-9s %s\n", cmd.name, cmd.summary)
	}
	b.WriteString(examplesOfUse)
	b.WriteString("\n" + findings.Cautions)
	b.WriteString("\nExit status: 0 done; 1 the input or the run failed; 2 the command line is\nwrong; 3 check --strict found a verdict that is not \"within\".\n")
	return b.String()
}

func (cmd command) usage(flags *pflag.FlagSet) string {
	line, does := "Usage: halfturn "+cmd.name, "\n\n"+cmd.help
	if cmd.operands != "" {
		line += " " + cmd.operands
	}
	if flags.HasFlags() {
		line += " [flags]"
		does += "\nFlags:\n" + flagText(flags)
	}
	return line + does + "\n" + text.Wrap("", findings.ShortCaution)
}

// version is the module's version as the Go tool recorded it at build time.
func version() string {
	v := "(version unknown)"
	if info, ok := debug.ReadBuildInfo(); ok {
		v = info.Main.Version
	}
	return "halfturn " + v
}

// flagWidth is how much of a line the names of flags take.
const flagWidth = 26

// flagText lists flags in the order of their declaration, what each does beside
// its name or, if that is long, below it.
func flagText(flags *pflag.FlagSet) string {
	var b strings.Builder
	flags.VisitAll(func(f *pflag.Flag) {
		value, does := pflag.UnquoteUsage(f)
		if f.Value.Type() == "bool" {
			value = ""
		} else if f.DefValue != "" && f.DefValue != "0" && f.DefValue != "[]" {
			does += fmt.Sprintf(" (default %s)", f.DefValue)
		}
		name := "  --" + f.Name
		if f.Shorthand != "" {
			name = fmt.Sprintf("  -%s, --%s", f.Shorthand, f.Name)
		}
		name = strings.TrimRight(name+" "+value, " ")
		if utf8.RuneCountInString(name) > flagWidth-2 {
			b.WriteString(name + "\n")
			name = ""
		}
		b.WriteString(text.Wrap(fmt.Sprintf("%-*s", flagWidth, name), does))
	})
	return b.String()
}
