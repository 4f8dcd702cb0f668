package proof

import (
	"math"

	"halfturn/kinematics"
)

// shaft returns a shaft of which slope, heading and phase are given in degrees.
func shaft(down, right, phase float64) kinematics.Shaft {
	return kinematics.Shaft{
		Axis:  kinematics.AxisFromSlopes(down*kinematics.Degree, right*kinematics.Degree),
		Phase: phase * kinematics.Degree,
	}
}

// chain returns a chain of Cardan joints.
func chain(shafts ...kinematics.Shaft) *kinematics.Driveline {
	return must(kinematics.New(shafts, nil))
}

// inPlane returns a chain of Cardan joints in phase whose shafts fall by the given
// slopes in degrees.
func inPlane(down ...float64) *kinematics.Driveline {
	shafts := make([]kinematics.Shaft, len(down))
	for k, slope := range down {
		shafts[k] = shaft(slope, 0, 0)
	}
	return chain(shafts...)
}

// joint returns the motion behind a joint of an angle in degrees whose driving
// ears lie in its plane at θ = 0, where the driven shaft is fastest.
func joint(beta float64) kinematics.Motion {
	return must(kinematics.SingleJoint(beta*kinematics.Degree, math.Pi/2))
}

// lastOf returns the motion of the last shaft, driving.
func lastOf(d *kinematics.Driveline) kinematics.Motion {
	motions := d.Driving(nil)
	return motions[len(motions)-1]
}
