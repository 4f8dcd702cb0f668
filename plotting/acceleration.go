package plotting

import (
	"fmt"

	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// accelerationOf is the torsional acceleration at the speed of the case or, without one,
// as a multiple of ω². The floor is what a single joint of 0.8° leaves, rounded.
func accelerationOf(rpm float64) quantity {
	q := quantity{
		label: "acceleration ÷ ω² (no speed given)",
		unit:  1,
		of:    func(s kinematics.State) float64 { return s.Accel },
	}
	if rpm > 0 {
		omega := rpm * kinematics.RPM
		q.label, q.unit = "acceleration, rad/s²", omega*omega
	}
	q.floor = page.RoundUp(q.unit * 1e-4)
	return q
}

// Acceleration returns the figure of every shaft's torsional acceleration over a turn,
// driving and coasting.
func Acceleration(c *Case) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	q := accelerationOf(c.RPM)
	f := &page.Figure{Title: "How hard is each shaft shaken?", Subtitle: c.subtitle(), Caption: c.accelerationCaption()}
	var panels []*page.Panel
	for _, drive := range []Drive{Driving, Coasting} {
		p := q.everyShaft(c.over(drive), "what is left at the other end")
		p.Title = drive.heading()
		p.Add(alike(q.unit * max(c.peakAccel(Driving), c.peakAccel(Coasting))))
		panels = append(panels, p)
	}
	f.Add(panels...)
	return f, nil
}

// alike makes the axis of a panel reach as far as that of another.
func alike(peak float64) page.Drawing {
	return page.Drawing{Reach: []plotter.XY{{X: 0, Y: -peak}, {X: 360, Y: peak}}, Draw: func(*page.Sketch) {}}
}

func (d Drive) heading() string {
	if d == Coasting {
		return "Coasting: the last shaft turns evenly"
	}
	return "Driving: the first shaft turns evenly"
}

// peakAccel is the largest acceleration of any shaft, in units of ω².
func (c *Case) peakAccel(drive Drive) float64 {
	peak := 0.0
	for _, m := range c.over(drive).motions {
		peak = max(peak, m.PeakAccel())
	}
	return peak
}

// accelerationCaption gives the peaks.
func (c *Case) accelerationCaption() string {
	q, unit := accelerationOf(c.RPM), " ω²"
	if c.RPM > 0 {
		unit = " rad/s²"
	}
	peak := func(v float64) string { return significant(q.unit*v) + unit }
	return fmt.Sprintf("Peak left at %s: %s. Largest of any shaft: %s driving, %s coasting. A shaft that turns unevenly loads the joints by its inertia even where the ends cancel.",
		c.shaft(c.last()), peak(c.Analysis.Driving[c.last()].PeakAccel()), peak(c.peakAccel(Driving)), peak(c.peakAccel(Coasting)))
}
