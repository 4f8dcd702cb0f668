package adjust_test

import (
	"context"
	"fmt"
	"log"

	"halfturn/kinematics/adjust"
	"halfturn/kinematics/survey"
)

func pickup() *survey.Survey {
	return &survey.Survey{
		RPM: 2500, ReadingErrorDeg: 0.1,
		Shafts: []survey.Shaft{
			{Name: "gearbox output", Slope: survey.Down(3), Length: 700},
			{Name: "shaft", Slope: survey.Down(5.5), Length: 1300},
			{Name: "axle pinion", Slope: survey.Down(1), Length: 250},
		},
	}
}

func ExampleSearch() {
	r, err := adjust.Search(context.Background(), pickup(), adjust.Options{Only: []string{survey.ChangeWedge}})
	if err != nil {
		log.Fatal(err)
	}
	best := r.Plans[0]
	fmt.Printf("now %s, working angles %.2f°\n", r.Before[0].Judgement.Outcome, r.Before[0].WorkingAngleDeg)
	fmt.Printf("%s of %g %s: %s, working angles %.2f°\n", best.Kind(), best.Steps[0].Value, best.Steps[0].Unit,
		best.Outcome, best.After[0].WorkingAngleDeg)
	// Output:
	// now over, working angles [2.50 4.50]°
	// wedge of 2 deg: within, working angles [2.12 2.12]°
}

func ExampleNewSweep() {
	s := pickup()
	v, err := adjust.ParseVariable(s, "wedge(axle pinion)=0:4:1")
	if err != nil {
		log.Fatal(err)
	}
	quantities, err := adjust.ParseQuantities(s, "residual_accel_rad_s2")
	if err != nil {
		log.Fatal(err)
	}
	w, err := adjust.NewSweep(context.Background(), s, quantities, []adjust.Variable{v}, nil)
	if err != nil {
		log.Fatal(err)
	}
	left := w.Series[0]
	fmt.Printf("%s at %v: %.0f %s\n", left.Name, w.Axes[0], left.Values, left.Unit)
	// Output:
	// shake left at [0 1 2 3 4]: [293 117 0 59 61] rad/s²
}
