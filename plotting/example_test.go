package plotting_test

import (
	"fmt"
	"strings"

	"halfturn/kinematics/survey"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// A driveline as measured becomes a figure in three steps.
func ExampleNewCase() {
	van := &survey.Survey{
		Name: "a van", RPM: 2600,
		Shafts: []survey.Shaft{
			{Name: "gearbox output", Slope: survey.Down(3)},
			{Name: "drive shaft", Slope: survey.Down(8)},
			{Name: "axle pinion", Slope: survey.Down(4)},
		},
	}
	c, err := plotting.NewCase(van)
	if err != nil {
		fmt.Println(err)
		return
	}
	figure, err := plotting.Speed(c, plotting.Driving)
	if err != nil {
		fmt.Println(err)
		return
	}
	svg, err := page.Encode(figure, page.SVG, page.Options{})
	fmt.Println(strings.Contains(string(svg), "what is left at axle pinion"), err)
	fmt.Println(figure.Caption)
	// Output:
	// true <nil>
	// Left at axle pinion: what one joint at 3.00° leaves. Twice a turn the speed swings between −0.137 and +0.137 %, 86.7 times a second.
}
