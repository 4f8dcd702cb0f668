package main

import (
	"fmt"
	"math"

	"halfturn/kinematics"
)

// How the text output shows numbers.

// degrees prints an angle given in radians.
func degrees(a float64) string { return fmt.Sprintf("%.2f°", a/kinematics.Degree) }

// wholeDegrees prints a direction given in radians.
func wholeDegrees(a float64) string {
	d := math.RoundToEven(a / kinematics.Degree)
	if d == -180 {
		d = 180
	}
	return fmt.Sprintf("%.0f°", d+0) // no minus zero
}

// signed prints an angle given in radians with its sign; a rounded zero has none.
func signed(a float64) string {
	text := fmt.Sprintf("%+.2f°", a/kinematics.Degree)
	if math.Abs(a/kinematics.Degree) < 0.005 {
		return text[1:]
	}
	return text
}

// plane words the direction of a joint's plane.
func plane(b kinematics.Bend) string {
	if b.Angle < 0.005*kinematics.Degree {
		return "straight"
	}
	return wholeDegrees(b.Plane)
}

// percent prints a fluctuation about the mean given as a ratio.
func percent(v float64) string { return "±" + short(100*v) + " %" }

// acceleration prints an acceleration given in rad/s².
func acceleration(v float64) string { return quantity(v, "rad/s²") }

// quantity prints a number with its unit.
func quantity(v float64, unit string) string {
	switch unit {
	case "":
		return short(v)
	case "deg":
		return short(v) + "°"
	default:
		return short(v) + " " + unit
	}
}

// short prints a positive number to three digits that matter, without exponent.
func short(v float64) string {
	switch {
	case v >= 100:
		return fmt.Sprintf("%.0f", v)
	case v >= 10:
		return fmt.Sprintf("%.1f", v)
	case v >= 1:
		return fmt.Sprintf("%.2f", v)
	default:
		return fmt.Sprintf("%.3f", v)
	}
}
