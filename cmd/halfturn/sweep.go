package main

import (
	"encoding/csv"
	"fmt"
	"math"
	"slices"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/survey"
	"halfturn/plotting"
)

func sweepCommand() command {
	return command{
		name:     "sweep",
		operands: "FILE --vary QUANTITY=FROM:TO[:STEP]",
		summary:  "vary one or two quantities: a curve, a map or CSV",
		help: `Varies one quantity of a driveline, or two together, and prints as CSV what
comes out at every point; with -o it draws a curve or a map into an image.

  halfturn sweep my-driveline.json --vary "rear shaft.phase=-90:90:1"
  halfturn sweep my-driveline.json --vary rpm=500:6000:50 \
      --show residual_accel_rad_s2 -o speed.svg
  halfturn sweep my-driveline.json --vary "wedge(axle pinion)=-4:4:0.05" \
      --vary "bearing-height(centre joint)=0:30:0.5" -o map.png

A QUANTITY is rpm; down, incline, right or phase of a shaft, as in
"rear shaft.down"; at.along, at.right or at.down of a joint; or a change to the
vehicle, as in "wedge(axle pinion)", which moves the geometry as it does there.
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			var r sweepRequest
			flags.StringArrayVar(&r.vary, "vary", nil, "`quantity` and its range; give it twice for a map")
			flags.StringSliceVar(&r.show, "show", nil, "`quantities` to show, by the names of the CSV columns (default: all)")
			r.image = newImageFlags(flags)
			return newJudgedSource(flags).then(r.run)
		},
	}
}

// sweepRequest is what the flags of sweep ask for.
type sweepRequest struct {
	vary, show []string
	image      *imageFlags
}

func (r *sweepRequest) run(c *console, sv *survey.Survey) error {
	if n := len(r.vary); n < 1 || n > 2 {
		return usagef("--vary is given %s: want it once or twice, such as --vary rpm=500:6000:50", text.Count(n, "time"))
	}
	if r.image.output != "" {
		if err := r.image.check(); err != nil {
			return err
		}
	} else if err := r.refuseImageFlags(); err != nil {
		return err
	}
	var variables []adjust.Variable
	for _, text := range r.vary {
		v, err := adjust.ParseVariable(sv, text)
		if err != nil {
			return usageError{fmt.Errorf("--vary: %w", err)}
		}
		variables = append(variables, v)
	}
	show := r.show
	if len(show) == 0 && r.image.output != "" {
		show = []string{drawnByDefault(variables)}
	}
	quantities, err := adjust.ParseQuantities(sv, show...)
	if err != nil {
		return usageError{fmt.Errorf("--show: %w", err)}
	}
	tell, wipe := c.progress()
	sweep, err := adjust.NewSweep(c.ctx, sv, quantities, variables, tell)
	wipe()
	if err != nil {
		return err
	}
	if r.image.output != "" {
		return r.draw(c, sv.Name, sweep)
	}
	swing := func(q adjust.Quantity) bool { return q.Key == survey.LimitBearingSwing }
	if _, assumed := sv.Torque(); assumed && slices.ContainsFunc(quantities, swing) {
		c.remark("no torque given (torque_nm): bearing swings are for each %d N·m", survey.AssumedTorqueNM)
	}
	return writeSweep(c, sweep)
}

// refuseImageFlags refuses what is said of an image that is not asked for.
func (r *sweepRequest) refuseImageFlags() error {
	for _, name := range []string{"format", "size", "text", "no-title", "no-caption", "dpi", "outlines"} {
		if r.image.flags.Changed(name) {
			return usagef("--%s: is of an image: want -o and its name, too", name)
		}
	}
	return nil
}

// variableColumn is the head of a variable's column in the CSV.
func variableColumn(v adjust.Variable) string {
	if v.Quantity == v.Unit {
		return v.Quantity
	}
	return v.Quantity + "_" + v.Unit
}

// writeSweep writes every point of a sweep; what does not exist there is empty.
func writeSweep(c *console, sweep *adjust.Sweep) error {
	w := csv.NewWriter(c.out)
	var row []string
	for _, v := range sweep.Variables {
		row = append(row, heading(variableColumn(v)))
	}
	for _, s := range sweep.Series {
		row = append(row, heading(s.Column()))
	}
	w.Write(row)
	inner := []float64{0}
	if len(sweep.Axes) == 2 {
		inner = sweep.Axes[1]
	}
	for i, outer := range sweep.Axes[0] {
		for j := range inner {
			if err := c.ctx.Err(); err != nil {
				return err
			}
			row = append(row[:0], number(outer))
			if len(sweep.Axes) == 2 {
				row = append(row, number(inner[j]))
			}
			for _, s := range sweep.Series {
				row = append(row, numberOrNone(s.Values[i*len(inner)+j]))
			}
			w.Write(row)
		}
	}
	w.Flush()
	return w.Error()
}

// numberOrNone is number, or nothing for NaN.
func numberOrNone(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return number(v)
}

// drawnByDefault is what a sweep draws where --show does not say: something that depends
// on what is varied.
func drawnByDefault(variables []adjust.Variable) string {
	if slices.ContainsFunc(variables, func(v adjust.Variable) bool { return v.Quantity == "rpm" }) {
		return "residual_accel_rad_s2"
	}
	return "exact_equivalent_angle_deg"
}

// draw writes the figure of a sweep: curves along one variable, or a map of one
// quantity over two.
func (r *sweepRequest) draw(c *console, name string, sweep *adjust.Sweep) error {
	for _, s := range sweep.Series {
		if s.Best < 0 {
			return usagef("--show: %s has no value at any point: want a speed, such as --rpm 1000, where it depends on that", s.Column())
		}
	}
	f, err := plotting.Sweep(name, sweep, sweep.Series)
	if err != nil {
		return usagef("--show: %v: name fewer, such as --show %s", err, sweep.Series[0].Column())
	}
	r.image.fit(f, false)
	return r.image.write(c, f)
}
