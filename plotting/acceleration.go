package plotting

import (
	"fmt"
	"math"

	"halfturn/kinematics"
)

// accelerationOf is the torsional acceleration at the speed of the case or, without one, as a multiple of ω². The floor
// is what a single joint of 0.8° leaves, rounded.
func accelerationOf(rpm float64) quantity {
	q := quantity{
		label: "acceleration ÷ ω² (no speed given)",
		unit:  1,
		of:    func(t kinematics.Track) []float64 { return t.Accel },
		order: func(o kinematics.Order) (float64, float64) { return o.Accel, o.Phase - math.Pi },
	}
	if rpm > 0 {
		omega := rpm * kinematics.RPM
		q.label, q.unit = "acceleration, rad/s²", omega*omega
	}
	q.floor = niceStep(q.unit * 1e-4).times(1)
	return q
}

// Acceleration returns the figure of every shaft's torsional acceleration over a turn, driving and coasting.
func Acceleration(c *Case) (*Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	f := &Figure{Title: "How hard is each shaft shaken?", Subtitle: c.subtitle(), Legend: LegendPanels, Caption: c.accelerationCaption()}
	q := accelerationOf(c.RPM)
	for _, drive := range []Drive{Driving, Coasting} {
		t, err := c.over(drive)
		if err != nil {
			return nil, err
		}
		p := q.everyShaft(t)
		p.Title = drive.heading()
		f.Add(p)
	}
	return f, nil
}

func (d Drive) heading() string {
	if d == Coasting {
		return "Coasting: the last shaft turns evenly"
	}
	return "Driving: the first shaft turns evenly"
}

// accelerationCaption gives the peaks.
func (c *Case) accelerationCaption() string {
	q := accelerationOf(c.RPM)
	driving, coasting := 0.0, 0.0
	for k := range c.Shafts {
		driving = max(driving, c.Analysis.Driving[k].PeakAccel())
		coasting = max(coasting, c.Analysis.Coasting[k].PeakAccel())
	}
	unit := " ω²"
	if c.RPM > 0 {
		unit = " rad/s²"
	}
	return fmt.Sprintf("Peaks: %s%s left at %s; of any shaft %s%s driving and %s%s coasting. Shafts that do not turn evenly load the joints by their inertia even where the ends cancel.",
		significant(q.unit*c.Analysis.Driving[c.last()].PeakAccel()), unit, c.shaft(c.last()),
		significant(q.unit*driving), unit, significant(q.unit*coasting), unit)
}
