package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/survey"
)

func adjustCommand() command {
	return command{
		name:     "adjust",
		operands: "FILE",
		summary:  "what to shim, lower or clock, and by how much",
		help: `Looks for the changes that a good technician would make, in practical steps. A
plan makes nothing worse, as measured and in the poses that cruise (--all-poses:
in all), and keeps every limit that it touches and that the readings can prove;
of such plans the best mends the most with the fewest parts, and leaves the
least at the last shaft. What can be changed stands in the file ("adjust"); else
the usual changes are tried and named.

  halfturn adjust my-driveline.json
  halfturn adjust my-driveline.json --only wedge,bearing-height
  halfturn adjust my-driveline.json --allow "wedge(axle pinion)=-6:6:0.5"
  halfturn adjust my-driveline.json --write corrected.json
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			var r adjustRequest
			flags.StringSliceVar(&r.only, "only", nil, "`kinds` of change to make, out of "+strings.Join(survey.Changes, ", "))
			flags.StringArrayVar(&r.allow, "allow", nil, "a `change` and its range, as \"wedge(axle pinion)=-6:6:0.5\"; repeatable")
			flags.BoolVar(&r.options.AllPoses, "all-poses", false, "be within limits in every pose of the file, not only in those of the kind cruise")
			flags.IntVar(&r.options.MostParts, "parts", 0, "most `changes` in one plan (default: all)")
			flags.StringVar(&r.write, "write", "", "`FILE` to write the corrected driveline to")
			flags.BoolVar(&r.force, "force", false, "write over a FILE that is there already")
			flags.IntVar(&r.plan, "plan", 1, "`number` of the plan to write")
			flags.BoolVar(&r.asJSON, "json", false, "print a JSON document for programs")
			r.from = newJudgedSource(flags)
			return r.run
		},
	}
}

// adjustRequest is what the flags of adjust ask for.
type adjustRequest struct {
	from        *source
	only, allow []string
	options     adjust.Options
	write       string
	force       bool
	plan        int
	asJSON      bool
}

func (r *adjustRequest) run(c *console, operands []string) error {
	for _, flag := range []string{"plan", "force"} {
		if r.write == "" && r.from.flags.Changed(flag) {
			return usagef("--%s: is for a file to write: want --write and its name, too", flag)
		}
	}
	if r.plan < 1 || r.plan > adjust.MostPlans {
		return usagef("--plan: %d: want a number from 1 to %d", r.plan, adjust.MostPlans)
	}
	if r.options.MostParts < 0 {
		return usagef("--parts: %d: want a number above 0", r.options.MostParts)
	}
	for _, kind := range r.only {
		if !slices.Contains(survey.Changes, kind) {
			return usagef("--only: %q: want out of %s", kind, strings.Join(survey.Changes, ", "))
		}
	}
	r.options.Only = r.only
	sv, err := r.from.survey(c, operands)
	if err != nil {
		return err
	}
	for _, text := range r.allow {
		change, err := adjust.ParseChange(sv, text)
		if err != nil {
			return usageError{fmt.Errorf("--allow: %w", err)}
		}
		r.options.Allow = append(r.options.Allow, change)
	}
	found, err := r.from.found(c, sv, findings.Options{Correct: true, Search: r.options})
	if err == nil {
		err = found.NoCorrection
	}
	if err != nil {
		return err
	}
	if err := r.writeSurvey(c, found.Correction); err != nil {
		return err
	}
	if r.asJSON {
		return c.writeJSON(found.CorrectionDocument())
	}
	found.WriteCorrection(c.out)
	return nil
}

// writeSurvey writes the corrected driveline of the plan asked for.
func (r *adjustRequest) writeSurvey(c *console, result *adjust.Result) error {
	switch {
	case r.write == "":
		return nil
	case result.Fine && len(result.Plans) == 0:
		c.remark("%s is not written: nothing needs to be changed", r.write)
		return nil
	case len(result.Plans) == 0:
		c.remark("%s is not written: there is no plan", r.write)
		return nil
	case r.plan > len(result.Plans):
		return fmt.Errorf("--plan: %d: want at most %d, as many plans as were found", r.plan, len(result.Plans))
	}
	var text bytes.Buffer
	if err := result.Plans[r.plan-1].Survey.Write(&text); err != nil {
		return err
	}
	return c.writeDriveline(r.write, text.Bytes(), r.force)
}
