package main

import (
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

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
			var r seriesRequest
			flags.IntVar(&r.steps, "steps", 360, "`positions` in the turn, from 0")
			flags.BoolVar(&r.coasting, "coasting", false, "the last shaft turns uniformly and drives the others")
			flags.BoolVar(&r.loads, "loads", false, "add what the torque does, per 100 N·m where none is given")
			r.from = newSource(flags)
			return r.from.then(r.run)
		},
	}
}

// seriesRequest is what the flags of series ask for.
type seriesRequest struct {
	from            *source
	steps           int
	coasting, loads bool
}

func (r *seriesRequest) run(c *console, sv *survey.Survey) error {
	if r.loads && r.coasting {
		return usagef("both --loads and --coasting: want one of them: the torque is that of driving")
	}
	if i := slices.IndexFunc(loadFlags, r.from.flags.Changed); i >= 0 && !r.loads {
		return usagef("--%s: is for what torque does: want --loads, too", loadFlags[i])
	}
	d, err := sv.Driveline()
	if err != nil {
		return err
	}
	if r.steps < 1 || r.steps > mostSteps {
		return usagef("--steps: %d: want 1 to %d positions in a turn", r.steps, mostSteps)
	}
	motions := d.Driving(nil)
	if r.coasting {
		motions = d.Coasting(nil)
	}
	rpm := sv.ShaftRPM()
	if rpm == 0 {
		c.remark("no speed given (--rpm): accelerations are left empty")
	}
	columns := motionColumns(motions, rpm)
	if r.loads {
		l := sv.Loads(d)
		remarkLoads(c, sv, l)
		columns = append(columns, loadColumns(l)...)
	}
	return writeSeries(c, r.steps, columns)
}

// mostSteps is the largest number of positions in a turn.
const mostSteps = 1 << 20

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

// column is one of the CSV, or several that are worked out together: their heads, and
// what stands below them at position i of n in a turn, "" where that is not known.
type column struct {
	heads []string
	at    func(row []string, i, n int) []string // appends to the row
}

// motionColumns are those of how the shafts turn at a speed in rev/min, 0 for none.
func motionColumns(motions []kinematics.Motion, rpm float64) []column {
	var columns []column
	speed := rpm * kinematics.RPM
	for k, m := range motions {
		shaft := fmt.Sprintf("shaft%d_", k+1)
		columns = append(columns, column{
			[]string{shaft + "lead_deg", shaft + "ratio", shaft + "accel_rad_s2"},
			func(row []string, i, n int) []string {
				s := m.AtStep(i, n)
				accel := ""
				if rpm > 0 {
					accel = number(s.Accel * speed * speed)
				}
				return append(row, number(s.Lead/kinematics.Degree), number(s.Ratio), accel)
			},
		})
	}
	return columns
}

// loadColumns are those of what torque does.
func loadColumns(l *survey.Loads) []column {
	var columns []column
	add := func(head string, w kinematics.Wave) {
		columns = append(columns, column{[]string{head}, func(row []string, i, n int) []string {
			return append(row, number(w.At(2*math.Pi*float64(i)/float64(n))))
		}})
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

// writeSeries writes the positions of a turn as CSV, one after the other.
func writeSeries(c *console, positions int, columns []column) error {
	w := csv.NewWriter(c.out)
	row := []string{"theta_deg"}
	for _, col := range columns {
		row = append(row, col.heads...)
	}
	w.Write(row)
	for i := range positions {
		if err := c.ctx.Err(); err != nil {
			return err
		}
		row = append(row[:0], number(360*float64(i)/float64(positions)))
		for _, col := range columns {
			row = col.at(row, i, positions)
		}
		w.Write(row)
	}
	w.Flush()
	return w.Error()
}

// heading returns the head of a column so that no spreadsheet takes it for a formula,
// whatever somebody has called a shaft.
func heading(head string) string {
	if strings.IndexAny(head, "=+-@\t\r") == 0 {
		return "'" + head
	}
	return head
}

// number is a value at full precision.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
