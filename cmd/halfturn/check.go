package main

import (
	"strings"

	"github.com/spf13/pflag"

	"halfturn/kinematics"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

func checkCommand() command {
	return command{
		name:     "check",
		operands: "FILE",
		summary:  "the verdict: working angles, what cancels, what is left",
		help: `Works out the true working angle of every joint and how much of the twice-a-turn
fluctuation is left at the last shaft, and judges both by a set of limits, as
far as the reading errors allow.

  halfturn check my-driveline.json
  halfturn check --down 3,7,4 --right 0,2,0 --rpm 3000 --reading-error 0.1
  halfturn check my-driveline.json --limits machinery --strict
  halfturn check my-driveline.json --felt 43Hz --at 90km/h
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			asJSON := flags.Bool("json", false, "print a JSON document for programs")
			strict := flags.Bool("strict", false, "exit with status 3 unless every verdict is \"within\"")
			felt := newFeltFlags(flags)
			from := newJudgedSource(flags)
			return from.then(func(c *console, sv *survey.Survey) error {
				result, err := newChecked(sv)
				if err != nil {
					return err
				}
				if result.felt, err = felt.diagnose(sv); err != nil {
					return err
				}
				if *asJSON {
					err = writeJSON(c, newCheckDocument(result))
				} else {
					writeCheck(c.out, result)
				}
				if err == nil && *strict && !result.within() {
					return errNotWithin
				}
				return err
			})
		},
	}
}

// checked is everything that check says of a driveline.
type checked struct {
	survey    *survey.Survey
	rpm       float64 // of the first shaft; 0: not given
	analysis  *kinematics.Analysis
	judgement *limits.Judgement
	poses     []adjust.State // as measured, then in each pose; empty without poses
	felt      *limits.Felt   // nil: no vibration was given
}

func newChecked(sv *survey.Survey) (*checked, error) {
	d, err := sv.Driveline()
	if err != nil {
		return nil, err
	}
	c := &checked{survey: sv, rpm: limits.RPM(sv)}
	if c.analysis, err = d.Analyse(); err != nil {
		return nil, err
	}
	if len(sv.Poses) == 0 {
		c.judgement, err = limits.Judge(sv)
		return c, err
	}
	travel, err := adjust.NewTravel(sv)
	if err != nil {
		return nil, err
	}
	c.poses, c.judgement = travel.States, travel.States[0].Judgement
	return c, nil
}

// within reports whether every verdict is within, in every pose.
func (c *checked) within() bool {
	for _, s := range c.poses {
		if s.Judgement.Outcome != limits.Within {
			return false
		}
	}
	return c.judgement.Outcome == limits.Within
}

// elsewhere names the poses that are not within.
func (c *checked) elsewhere() string {
	var names []string
	for _, s := range c.poses {
		if s.Pose != "" && s.Judgement.Outcome != limits.Within {
			names = append(names, s.Pose)
		}
	}
	return strings.Join(names, ", ")
}
