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
	// Output: Not fine because the mismatch between joint 1 and joint 2, 2.80°, is over 0.5°.
}

// The joint angles shake twice in a turn of the shaft.
func ExampleDiagnose() {
	tyre := &survey.Gearing{Radius: 0.33, FinalDrive: 3.9}
	felt, err := limits.Diagnose(47, tyre.RPM(90), tyre)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(felt.Answer)
	// Output: 47 Hz fits the first order of the shafts (47.0 Hz): joint angles cannot be the cause, they shake twice in a turn of the shaft.
}
