package survey_test

import (
	"fmt"
	"os"
	"strings"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// A technician's readings become working angles.
func ExampleRead() {
	const file = `{
		"name": "Delivery van",
		"shafts": [
			{"name": "gearbox output", "down": 3},
			{"name": "rear shaft", "down": [7.9, 8.0, 8.1]},
			{"name": "axle pinion", "down": 4.5}
		]
	}`
	s, err := survey.Read("van.json", strings.NewReader(file))
	if err != nil {
		fmt.Println(err)
		return
	}
	driveline, err := s.Driveline()
	if err != nil {
		fmt.Println(err)
		return
	}
	for k, joint := range s.Joints {
		fmt.Printf("%s: %.1f deg\n", joint.Name, driveline.WorkingAngle(k)/kinematics.Degree)
	}
	// Output:
	// joint 1: 5.0 deg
	// joint 2: 3.5 deg
}

// Everything wrong with a file is said in one go.
func ExampleRead_faults() {
	const file = `{
  "rpm": "2800",
  "shafts": [
    {"name": "gearbox output", "down": 3.4},
    {"name": "rear shaft", "dwon": 6.1, "length": 1270},
    {"name": "axle pinion", "down": 95}
  ]
}`
	_, err := survey.Read("van.json", strings.NewReader(file))
	fmt.Println(err)
	// Output:
	// van.json:2:10: rpm: "2800": want a number; write 2800 without quotes
	// van.json:5:28: shafts[1].dwon: unknown field: want "down", perhaps
	// van.json:6:37: shafts[2].down: 95 deg: want a slope between -90 and 90 deg; read on a flange face? Then enter -5 deg, as along the shaft
}

// A driveline measured by joint centres, at another ride height.
func ExampleSurvey_In() {
	s := &survey.Survey{
		Shafts: []survey.Shaft{{Slope: survey.Down(0)}, {}, {Slope: survey.Down(0)}},
		Joints: []survey.Joint{
			{At: &survey.Point{Along: 0, Down: 0}},
			{At: &survey.Point{Along: 1000, Down: 100}},
		},
		Poses: []survey.Pose{{
			Name:   "droop",
			Joints: []survey.PoseJoint{{Name: "joint 2", At: &survey.Point{Along: 990, Down: 180}}},
		}},
	}
	if err := s.Validate(); err != nil {
		fmt.Println(err)
		return
	}
	for _, pose := range s.Poses {
		down, _ := kinematics.Slopes(s.In(pose).Axes()[1])
		fmt.Printf("%s: the shaft falls by %.1f deg\n", pose.Name, down/kinematics.Degree)
	}
	// Output:
	// droop: the shaft falls by 10.3 deg
}

func ExampleSurvey_Write() {
	s := &survey.Survey{
		RPM:    1500,
		Shafts: []survey.Shaft{{Name: "motor", Slope: survey.Down(0)}, {Name: "pump", Slope: survey.Down(6)}},
	}
	if err := s.Write(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// {
	//   "rpm": 1500,
	//   "shafts": [{"name": "motor", "down": 0}, {"name": "pump", "down": 6}]
	// }
}
