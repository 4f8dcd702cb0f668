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

With --loads the torque along every shaft follows, and of every shaft with a
centre bearing the force on that, as in bearing2_right_n and bearing2_down_n.

  halfturn series --down 0,12,0 --rpm 1000 > turn.csv
  halfturn series my-driveline.json --steps 720
  halfturn series my-driveline.json --coasting
  halfturn series my-driveline.json --loads
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			steps := flags.Int("steps", 360, "`positions` in the turn, from 0")
			coasting := flags.Bool("coasting", false, "the last shaft turns uniformly and drives the others")
			loads := flags.Bool("loads", false, "add what the torque does (torque_nm of the FILE, or 100 N·m)")
			from := newSource(flags)
			return from.then(func(c *console, sv *survey.Survey) error {
				if *loads && *coasting {
					return usagef("both --loads and --coasting: want one of them: the torque is that of driving")
				}
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
				columns := motionColumns(r, rpm)
				if *loads {
					l := sv.Loads(d)
					remarkLoads(c, sv, l)
					columns = append(columns, loadColumns(l, r.Theta)...)
				}
				return writeSeries(csv.NewWriter(c.out), len(r.Theta), columns)
			})
		},
	}
}

// remarkLoads tells what was assumed for the loads, and what is missing.
func remarkLoads(c *console, sv *survey.Survey, l *survey.Loads) {
	if l.TorqueAssumed {
		c.remark("no torque given (torque_nm): loads are for %d N·m", survey.AssumedTorqueNM)
	}
	switch {
	case l.Forces == nil:
		c.remark("no length of %s given: forces on centre bearings are left out", sv.Shafts[l.Unmeasured].Name)
	case l.BearingsAssumed:
		c.remark("no bearing given: taken to sit at the driven-end joint of every shaft between two joints but the last")
	}
}

// column is one of the CSV: its head and what stands at position i, "" where that is
// not known.
type column struct {
	head string
	at   func(i int) string
}

// motionColumns are those of how the shafts turn at a speed in rev/min, 0 for none.
func motionColumns(r *kinematics.Revolution, rpm float64) []column {
	var columns []column
	speed := rpm * kinematics.RPM
	for k, t := range r.Shafts {
		add := func(quantity string, at func(i int) string) {
			columns = append(columns, column{fmt.Sprintf("shaft%d_%s", k+1, quantity), at})
		}
		add("lead_deg", func(i int) string { return number(t.Lead[i] / kinematics.Degree) })
		add("ratio", func(i int) string { return number(t.Ratio[i]) })
		add("accel_rad_s2", func(i int) string {
			if rpm == 0 {
				return ""
			}
			return number(t.Accel[i] * speed * speed)
		})
	}
	return columns
}

// loadColumns are those of what torque does at the positions theta, in radians.
func loadColumns(l *survey.Loads, theta []float64) []column {
	var columns []column
	add := func(head string, w kinematics.Wave) {
		columns = append(columns, column{head, func(i int) string { return number(w.At(theta[i])) }})
	}
	for k, torque := range l.Couples.Torques {
		add(fmt.Sprintf("shaft%d_torque_nm", k+1), torque)
	}
	if l.Forces != nil {
		for _, b := range l.Forces.Bearings {
			add(fmt.Sprintf("bearing%d_right_n", b.Shaft+1), b.Force.Right())
			add(fmt.Sprintf("bearing%d_down_n", b.Shaft+1), b.Force.Down())
		}
	}
	return columns
}

// writeSeries writes the positions of a turn as CSV.
func writeSeries(w *csv.Writer, positions int, columns []column) error {
	row := []string{"theta_deg"}
	for _, c := range columns {
		row = append(row, c.head)
	}
	w.Write(row)
	for i := range positions {
		row = append(row[:0], number(360*float64(i)/float64(positions)))
		for _, c := range columns {
			row = append(row, c.at(i))
		}
		w.Write(row)
	}
	w.Flush()
	return w.Error()
}

// number is a value at full precision.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
