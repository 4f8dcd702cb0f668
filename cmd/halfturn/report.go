package main

import (
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/guide"
	"halfturn/cmd/halfturn/report"
)

func reportCommand() command {
	return command{
		name:     "report",
		operands: "[FILE] -o PAGE",
		summary:  "one page to print; without a FILE, a sheet to fill in",
		help: `Writes one page that stands by itself, to print on A4 or Letter or to send:
lines to fill in by hand, what was measured, the drawing with its angles, the
verdicts with their sources, the recommended correction, and cautions. The name
of PAGE ends in .html. Without a FILE it is a worksheet to take under the
vehicle: how to measure, and boxes for one, two or three pieces.

  halfturn report -o worksheet.html
  halfturn report my-driveline.json -o job.html
  halfturn report my-driveline.json -o job.html --rpm 3200 --limits machinery
  halfturn report --down 3,7,4 --rpm 3000 --reading-error 0.1 -o job.html
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			output := flags.StringP("output", "o", "", "`PAGE` to write, such as job.html")
			from := newJudgedSource(flags)
			return func(c *console, operands []string) error {
				if err := checkPageName(*output); err != nil {
					return err
				}
				if !from.given(operands) {
					sheet, err := guide.Worksheet()
					if err != nil {
						return err
					}
					return c.write(*output, sheet)
				}
				found, err := from.find(c, operands, findings.Options{Correct: true})
				if err != nil {
					return err
				}
				page, err := report.New(found, version())
				if err != nil {
					return err
				}
				return c.write(*output, page)
			}
		},
	}
}

// checkPageName wants a name that a browser opens as a page.
func checkPageName(path string) error {
	if path == "" {
		return usagef("no output: add -o and the name of a page, such as -o job.html")
	}
	switch ending := strings.ToLower(filepath.Ext(path)); ending {
	case ".html", ".htm":
		return nil
	case "":
		return usagef("page %q: no ending: want .html", path)
	default:
		return usagef("page %q: ending %q: want .html", path, ending)
	}
}
