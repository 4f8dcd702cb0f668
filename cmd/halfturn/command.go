package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"halfturn/kinematics/survey"
)

// command is one subcommand.
type command struct {
	name     string
	operands string // as in the usage line; "": it takes none
	summary  string // one line, for the list of commands
	help     string // what it does, and examples
	// prepare declares the command's flags and returns what runs it with the
	// operands that are left once the flags are parsed.
	prepare func(*pflag.FlagSet) func(*console, []string) error
}

func commands() []command {
	return []command{
		demoCommand(),
		checkCommand(),
		adjustCommand(),
		liveCommand(),
		reportCommand(),
		plotCommand(),
		sweepCommand(),
		seriesCommand(),
		feltCommand(),
		limitsCommand(),
		verifyCommand(),
		schemaCommand(),
	}
}

// Exit statuses.
const (
	exitDone      = 0
	exitFailed    = 1 // the input or the run failed
	exitUsage     = 2 // the command line is wrong
	exitNotWithin = 3 // check --strict: a verdict is not "within"
)

// usageError is a mistake on the command line.
type usageError struct{ error }

func usagef(format string, args ...any) error {
	return usageError{fmt.Errorf(format, args...)}
}

// refuseUnused refuses flags that are given though they are not among those that are
// used; what names what does not use them.
func refuseUnused(flags *pflag.FlagSet, what string, used []string) (err error) {
	flags.Visit(func(f *pflag.Flag) {
		if err == nil && !slices.Contains(used, f.Name) {
			err = usagef("--%s: %s does not use it", f.Name, what)
		}
	})
	return err
}

// errNotWithin ends check --strict when a verdict is not "within".
var errNotWithin = errors.New("not every verdict is within")

// run runs the command line and returns the exit status.
func run(c *console, args []string) int {
	if len(args) == 0 {
		fmt.Fprint(c.err, overview())
		return exitUsage
	}
	if args[0] == "help" && len(args) > 1 {
		args = []string{args[1], "--help"}
	}
	switch args[0] {
	case "--help", "-h", "help":
		return c.print(overview())
	case "--version":
		return c.print(version() + "\n")
	case "--notices":
		return c.print(notices)
	}
	var names []string
	for _, cmd := range commands() {
		if cmd.name == args[0] {
			return cmd.execute(c, args[1:])
		}
		names = append(names, cmd.name)
	}
	c.remark("%q is not a command%s; see halfturn --help", args[0], perhaps("", args[0], names))
	return exitUsage
}

// print prints a text and returns the exit status.
func (c *console) print(text string) int {
	_, err := io.WriteString(c.out, text)
	return c.status("", err)
}

func (cmd command) execute(c *console, args []string) int {
	flags := pflag.NewFlagSet(cmd.name, pflag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.SortFlags = false
	flags.Usage = func() {}
	run := cmd.prepare(flags)

	err := flags.Parse(args)
	switch {
	case errors.Is(err, pflag.ErrHelp):
		return c.print(cmd.usage(flags))
	case err != nil:
		err = mistyped(flags, err)
	case cmd.operands == "" && flags.NArg() > 0:
		err = usagef("%q: %s takes no operand", flags.Args(), cmd.name)
	default:
		err = buffered(c, func(c *console) error { return run(c, flags.Args()) })
	}
	return c.status(cmd.name, err)
}

// mistyped adds to an error of the flags which one may have been meant.
func mistyped(flags *pflag.FlagSet, err error) error {
	unknown, ok := errors.AsType[*pflag.NotExistError](err)
	if !ok {
		return usageError{err}
	}
	var names []string
	flags.VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	return usagef("%v%s", err, perhaps("--", unknown.GetSpecifiedName(), names))
}

// perhaps says which of the known names may have been meant, "" for none.
func perhaps(prefix, name string, known []string) string {
	guess := survey.Nearest(name, known)
	if guess == "" {
		return ""
	}
	return fmt.Sprintf(": %s%s, perhaps", prefix, guess)
}

// buffered runs a command whose results reach the user's output in large pieces.
func buffered(c *console, run func(*console) error) error {
	out := bufio.NewWriter(c.out)
	inner := *c
	inner.out = out
	err := run(&inner)
	if lost := out.Flush(); lost != nil { // whatever the result was
		return lost
	}
	return err
}

// status reports err, if any, and returns the exit status that it stands for.
func (c *console) status(name string, err error) int {
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errNotWithin):
		return exitNotWithin
	case errors.Is(err, context.Canceled):
		c.remark("interrupted")
		return exitFailed
	}
	for line := range strings.Lines(err.Error()) {
		c.remark("%s", strings.TrimRight(line, "\n"))
	}
	if _, ok := errors.AsType[usageError](err); ok {
		c.remark("see halfturn %s --help", name)
		return exitUsage
	}
	return exitFailed
}
