package limits_test

import (
	"context"
	"fmt"
	"log"
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// A lorry's shaft whose ends are parallel, but whose rear yoke was welded on a
// quarter turn out.
func ExampleJudge() {
	s, err := survey.Read("shaft.json", strings.NewReader(`{
		"rpm": 2400,
		"reading_error_deg": 0.1,
		"shafts": [
			{"name": "gearbox", "down": 2},
			{"name": "shaft", "down": 4.8, "phase": 90},
			{"name": "pinion", "down": 2}
		]
	}`))
	if err != nil {
		log.Fatal(err)
	}
	j, err := limits.Judge(context.Background(), s)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(j.Answer)
	fmt.Println(j.PhaseCure)
	fmt.Println(j.Left)
	// Output:
	// Not fine: the angles at joint 1 and joint 2 match (2.80° and 2.80°), but the yokes are 90° out of phase: as bad as 2.80° of difference, 0.5° is allowed.
	// Turn the driven-end yoke of shaft by 90° anticlockwise, to a phase of 0°.
	// Shake left: 302 of 300 rad/s² allowed (as one joint at 3.96°), 80.0 times a second at 2400 rev/min; speed of pinion from −0.239 % to +0.239 %.
}

// The joint angles shake twice in a turn of the shaft.
func ExampleDiagnose() {
	tyre := &survey.Gearing{Radius: 0.33, FinalDrive: 3.9}
	felt, err := limits.Diagnose(47, tyre.RPM(90), 0, tyre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(felt.Answer)
	// Output: 47 Hz fits the first order of the shafts (47.0 Hz): joint angles cannot be the cause, they shake twice in a turn of the shaft. Look at: balance and run-out of the shafts, and how their flanges sit.
}
