package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/examples"
	"halfturn/plotting/page"
)

// demoExample is the driveline of the demonstration.
const demoExample = "two-piece.json"

// demoFigures are the figures that the demonstration writes.
var demoFigures = []string{"speed", "acceleration"}

func demoCommand() command {
	return command{
		name:    "demo",
		summary: "the main job on a built-in example, with its figures",
		help: `Checks a built-in driveline and writes its figures as SVG into a folder, which
is made if need be. The driveline's file is written beside them, to play with.

  halfturn demo
  halfturn demo -o somewhere/else
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			folder := flags.StringP("output", "o", "halfturn-demo", "`folder` for the figures")
			return func(c *console, operands []string) error {
				if len(operands) > 0 {
					return usagef("%q: demo takes no operand", operands)
				}
				return demo(c, *folder)
			}
		},
	}
}

func demo(c *console, folder string) error {
	text, err := examples.Files.ReadFile(demoExample)
	if err != nil {
		return err
	}
	path := filepath.Join(folder, demoExample)
	written := []string{path}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return plainPathError(err)
	}
	if err := page.WriteFile(path, text); err != nil {
		return err
	}
	sv, err := readSurvey(c, path)
	if err != nil {
		return err
	}
	ctx, stop := c.interruptible()
	defer stop()
	found, err := findings.New(ctx, sv, findings.Options{})
	if err != nil {
		return err
	}
	found.WriteText(c.out)
	subject, err := plotSubjectOf(sv)
	if err != nil {
		return err
	}
	for _, name := range demoFigures {
		figure, err := subject.draw(name)
		if err != nil {
			return err
		}
		path := filepath.Join(folder, name+".svg")
		if err := page.Save(path, figure, page.Options{}); err != nil {
			return err
		}
		written = append(written, path)
	}
	fmt.Fprintln(c.out, "\nWritten:")
	for _, path := range written {
		fmt.Fprintln(c.out, "  "+path)
	}
	fmt.Fprintf(c.out, "\nNext:\n  halfturn adjust %s\n  halfturn plot %s -o views.svg --figure views\n", written[0], written[0])
	return nil
}
