package main

import (
	"github.com/spf13/pflag"

	"halfturn/kinematics/survey"
)

func schemaCommand() command {
	return command{
		name:    "schema",
		summary: "the JSON Schema of a driveline file, for editors",
		help: `Prints the JSON Schema of a driveline file. An editor that knows it completes
and checks the file as you type, once the file begins with
{"$schema": "driveline.schema.json", ...

  halfturn schema
  halfturn schema > driveline.schema.json
  halfturn schema > driveline.schema.json && halfturn check my-driveline.json
`,
		prepare: func(*pflag.FlagSet) func(*console, []string) error {
			return func(c *console, _ []string) error {
				_, err := c.out.Write(survey.Schema())
				return err
			}
		},
	}
}
