package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Degree is one degree in radians: 12*Degree is an angle, a/Degree its degrees.
const Degree = math.Pi / 180

// RPM is one revolution per minute in rad/s.
const RPM = math.Pi / 30

// AxisFromSlopes returns the direction of a shaft that falls by the side-view
// slope down and drifts by the top-view heading right, both in radians within
// (−π/2, π/2), toward its driven end:
//
//	(1, −tan right, −tan down)
//
// The vector is not normalised, so that two nearly equal slopes keep their
// difference to full precision. Beyond that range, as degrees by mistake are, it is
// NaN, which New refuses.
func AxisFromSlopes(down, right float64) r3.Vec {
	return r3.Vec{X: 1, Y: -tan(right), Z: -tan(down)}
}

// AxisFromIncline is AxisFromSlopes for a slope that an inclinometer laid along
// the shaft reads: the true inclination of the axis against the level.
//
//	tan(incline) = tan(down)·cos(right)
func AxisFromIncline(incline, right float64) r3.Vec {
	return r3.Vec{X: 1, Y: -tan(right), Z: -tan(incline) / math.Cos(right)}
}

// Slopes returns the side-view slope and the top-view heading of an axis, in
// radians; it is the inverse of AxisFromSlopes.
func Slopes(axis r3.Vec) (down, right float64) {
	return math.Atan2(-axis.Z, axis.X), math.Atan2(-axis.Y, axis.X)
}

// Incline returns the true inclination of an axis below the level, in radians,
// which is what an inclinometer laid along the shaft reads.
func Incline(axis r3.Vec) float64 {
	return math.Atan2(-axis.Z, math.Hypot(axis.X, axis.Y))
}

// tan is math.Tan but NaN for angles of ±π/2 and beyond, which no slope has, and exact
// for angles of about 1e-7, where math.Tan takes the angle itself and is off by ten
// roundings.
func tan(a float64) float64 {
	if !(math.Abs(a) < math.Pi/2) {
		return math.NaN()
	}
	sin, cos := math.Sincos(a)
	return sin / cos
}
