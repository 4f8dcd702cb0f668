package kinematics_test

import (
	"fmt"

	"halfturn/kinematics"
)

// A builder measured a one-piece driveline: how big are the working angles, and
// what is left of the fluctuation at 3000 rev/min?
func Example_builder() {
	const deg = kinematics.Degree
	d, err := kinematics.New([]kinematics.Shaft{
		{Axis: kinematics.AxisFromSlopes(3*deg, 0)},
		{Axis: kinematics.AxisFromIncline(7*deg, 2*deg)}, // inclinometer on a shaft that runs sideways
		{Axis: kinematics.AxisFromSlopes(4*deg, 0)},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for k := range 2 {
		fmt.Printf("joint %d works at %.2f°\n", k+1, d.Bend(k).Angle/deg)
	}
	motions := d.Driving(nil)
	speed := 3000 * kinematics.RPM
	fmt.Printf("left at the last shaft: as one joint at %.2f°, %.0f rad/s²\n",
		motions[2].Angle()/deg, motions[2].PeakAccel()*speed*speed)
	// Output:
	// joint 1 works at 4.47°
	// joint 2 works at 3.60°
	// left at the last shaft: as one joint at 2.84°, 243 rad/s²
}

// A student compares the small-angle vector sum with the exact motion.
func Example_student() {
	const deg = kinematics.Degree
	d, err := kinematics.New([]kinematics.Shaft{
		{Axis: kinematics.AxisFromSlopes(0, 0)},
		{Axis: kinematics.AxisFromSlopes(25*deg, 0)},
		{Axis: kinematics.AxisFromSlopes(40*deg, 0), Phase: 0},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	s := d.SecondOrder()
	fmt.Printf("first order √(25² − 15²) = %.3f°\n", s.Equivalent/deg)
	fmt.Printf("exact acos(cos 25°/cos 15°) = %.3f°\n", s.Exact/deg)
	// Output:
	// first order √(25² − 15²) = 20.000°
	// exact acos(cos 25°/cos 15°) = 20.236°
}

// An instructor tabulates the speed behind one joint every 30°.
func Example_instructor() {
	const deg = kinematics.Degree
	joint, err := kinematics.SingleJoint(30*deg, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for theta := 0.0; theta < 90; theta += 30 {
		s := joint.At(theta * deg)
		fmt.Printf("θ = %2.0f°  ω₂/ω₁ = %.4f  lead %+.3f°\n", theta, s.Ratio, s.Lead/deg)
	}
	// Output:
	// θ =  0°  ω₂/ω₁ = 0.8660  lead +0.000°
	// θ = 30°  ω₂/ω₁ = 0.9238  lead -3.435°
	// θ = 60°  ω₂/ω₁ = 1.0659  lead -3.690°
}

func ExampleDriveline_BestPhase() {
	const deg = kinematics.Degree
	// A shaft that leaves downward and arrives sideways: yokes in line are wrong.
	d, err := kinematics.New([]kinematics.Shaft{
		{Axis: kinematics.AxisFromSlopes(0, 0)},
		{Axis: kinematics.AxisFromSlopes(10*deg, 0)},
		{Axis: kinematics.AxisFromSlopes(10*deg, 10*deg)},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	best, err := d.BestPhase(1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("in phase: as one joint at %.2f°\n", d.SecondOrder().Exact/deg)
	fmt.Printf("clocked %.1f°: as one joint at %.2f°\n", best.Phase/deg, best.Left.Angle()/deg)
	// Output:
	// in phase: as one joint at 14.00°
	// clocked 90.0°: as one joint at 1.73°
}
