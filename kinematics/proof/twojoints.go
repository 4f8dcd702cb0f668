package proof

import (
	"math"

	"halfturn/kinematics"
)

// twoJoints holds the quantities of a pair of joints, in phase and in one plane,
// and those of angles.
var twoJoints = map[string]recipe{
	"companion_angle": {
		title: "Joint 2 of a pair left with {accel_rad_s2} rad/s²",
		what:  "joint 1 at {joint1_deg}°, {rpm} rpm",
		exact: func(r row) float64 { return r.companion(r.in.number("joint1_deg"), exactResidue) },
		// β₂² = β₁² + accel/ω², the small-angle sum.
		asPrinted: func(r row) float64 { return r.companion(r.in.number("joint1_deg"), smallAngleResidue) },
	},
	"angle_at_accel": {
		title: "Angle of one joint that makes {accel_rad_s2} rad/s²",
		what:  "{rpm} rpm",
		exact: func(r row) float64 { return r.companion(0, exactResidue) },
	},
	"joint_angle": {
		title: "Joint angle in the side view",
		what:  "from {before_deg}° to {after_deg}°",
		exact: func(r row) float64 {
			return inPlane(r.in.number("before_deg"), r.in.number("after_deg")).Bend(0).Side / kinematics.Degree
		},
	},
	"speed_angle": {
		title: "Speed times angle",
		what:  "{beta_deg}° at {rpm} rpm",
		exact: func(r row) float64 {
			return r.in.number("rpm") * inPlane(0, r.in.number("beta_deg")).WorkingAngle(0) / kinematics.Degree
		},
	},
}

// companion returns the angle in degrees of the second joint, behind one of the
// angle first, at which the pair is left with the row's acceleration.
func (r row) companion(first float64, residue func(*kinematics.Driveline) float64) float64 {
	speed := r.in.number("rpm") * kinematics.RPM
	return root(first, 45, func(second float64) float64 {
		return residue(inPlane(0, first, first-second))*speed*speed - r.in.number("accel_rad_s2")
	})
}

// exactResidue returns the peak acceleration of the last shaft over speed squared.
func exactResidue(d *kinematics.Driveline) float64 { return lastOf(d).PeakAccel() }

// smallAngleResidue is exactResidue by the small-angle sum, the square of the
// equivalent angle.
func smallAngleResidue(d *kinematics.Driveline) float64 {
	return math.Pow(d.SecondOrder().Equivalent, 2)
}
