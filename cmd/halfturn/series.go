package main

import (
	"encoding/csv"
	"fmt"
	"strconv"

	"github.com/spf13/pflag"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

func seriesCommand() command {
	return command{
		name:     "series",
		operands: "FILE",
		summary:  "lead, speed and acceleration of every shaft over a turn, as CSV",
		help: `Prints one revolution of the first shaft as CSV: its rotation theta_deg, then
for each shaft k its lead (its rotation less theta, mean taken out), the ratio
of its speed to the first shaft's, and its acceleration. Without a speed the
acceleration is left empty.

With --coasting the last shaft turns uniformly instead: theta_deg is its
rotation, zero when the ears of its yoke lie level, and ratios are to its speed.

  halfturn series --down 0,12,0 --rpm 1000 > turn.csv
  halfturn series my-driveline.json --steps 720
  halfturn series my-driveline.json --coasting
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			steps := flags.Int("steps", 360, "`positions` in the turn, from 0")
			coasting := flags.Bool("coasting", false, "the last shaft turns uniformly and drives the others")
			from := newSource(flags)
			return from.then(func(c *console, sv *survey.Survey) error {
				d, err := sv.Driveline()
				if err != nil {
					return err
				}
				r, err := kinematics.NewRevolution(*steps)
				if err != nil {
					return usageError{fmt.Errorf("--steps: %w", err)}
				}
				if *coasting {
					r.Sample(d.Coasting(nil))
				} else {
					r.Sample(d.Driving(nil))
				}
				rpm := sv.ShaftRPM()
				if rpm == 0 {
					c.remark("no speed given (--rpm): accelerations are left empty")
				}
				return writeSeries(csv.NewWriter(c.out), r, rpm)
			})
		},
	}
}

// writeSeries writes the revolution as CSV at a speed in rev/min, 0 for none.
func writeSeries(w *csv.Writer, r *kinematics.Revolution, rpm float64) error {
	row := []string{"theta_deg"}
	for k := range r.Shafts {
		for _, column := range []string{"lead_deg", "ratio", "accel_rad_s2"} {
			row = append(row, fmt.Sprintf("shaft%d_%s", k+1, column))
		}
	}
	w.Write(row)
	speed := rpm * kinematics.RPM
	for i := range r.Theta {
		row = append(row[:0], number(360*float64(i)/float64(len(r.Theta))))
		for _, t := range r.Shafts {
			accel := ""
			if rpm > 0 {
				accel = number(t.Accel[i] * speed * speed)
			}
			row = append(row, number(t.Lead[i]/kinematics.Degree), number(t.Ratio[i]), accel)
		}
		w.Write(row)
	}
	w.Flush()
	return w.Error()
}

// number is a value at full precision.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
