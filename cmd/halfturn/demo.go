package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/text"
	"halfturn/examples"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/survey"
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
  halfturn demo && halfturn adjust halfturn-demo/two-piece.json
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			folder := flags.StringP("output", "o", "halfturn-demo", "`folder` for the figures")
			return func(c *console, _ []string) error {
				return demo(c, *folder)
			}
		},
	}
}

func demo(c *console, folder string) error {
	example, err := examples.Files.ReadFile(demoExample)
	if err != nil {
		return err
	}
	sv, err := survey.Read(demoExample, bytes.NewReader(example))
	if err != nil {
		return err
	}
	found, err := findings.New(c.ctx, sv, findings.Options{Correct: true, Search: adjust.Options{Budget: c.patience}})
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return plainPathError(err)
	}
	file := filepath.Join(folder, demoExample)
	kept, err := keepChanged(file, example)
	if err != nil {
		return err
	}
	found.WriteShort(c.out)
	written := []string{file}
	if kept {
		written = nil
	}
	for _, name := range demoFigures {
		figure, err := drawNamed(name, subject{of: []*findings.Findings{found}})
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
		fmt.Fprintln(c.out, "  "+quoted(path))
	}
	if kept {
		fmt.Fprint(c.out, text.Wrap("", fmt.Sprintf("%s is kept as you changed it; what stands above is of the built-in one.", quoted(file))))
	}
	fmt.Fprintf(c.out, "\nNext:\n  halfturn adjust %s\n  halfturn plot %[1]s -o views.svg --figure views\n  halfturn live %[1]s\n", quoted(file))
	return nil
}

// keepChanged writes the example where it is not there yet. It reports whether there
// is another file in its place, which is kept.
func keepChanged(path string, example []byte) (kept bool, err error) {
	there, err := os.ReadFile(path)
	switch {
	case err == nil:
		return !bytes.Equal(there, example), nil
	case errors.Is(err, fs.ErrNotExist):
		return false, page.WriteFile(path, example)
	default:
		return false, plainPathError(err)
	}
}
