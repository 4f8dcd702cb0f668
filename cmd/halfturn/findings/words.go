package findings

import (
	"fmt"
	"math"
	"strings"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics"
	"halfturn/kinematics/limits"
)

// How the text output shows numbers.

// degrees prints an angle given in radians, inDegrees one given in degrees.
func degrees(a float64) string { return inDegrees(a / kinematics.Degree) }

func inDegrees(deg float64) string { return text.Minus(fmt.Sprintf("%.2f°", deg)) }

// angleList prints angles given in degrees.
func angleList(deg []float64) string {
	var texts []string
	for _, a := range deg {
		texts = append(texts, inDegrees(a))
	}
	return strings.Join(texts, ", ")
}

// wholeDegrees prints a direction given in radians.
func wholeDegrees(a float64) string {
	d := math.RoundToEven(a / kinematics.Degree)
	if d == -180 {
		d = 180
	}
	return text.Minus(fmt.Sprintf("%.0f°", d+0)) // no minus zero
}

// signed prints an angle given in radians with its sign; a rounded zero has none.
func signed(a float64) string {
	number := fmt.Sprintf("%+.2f°", a/kinematics.Degree)
	if math.Abs(a/kinematics.Degree) < 0.005 {
		return number[1:]
	}
	return text.Minus(number)
}

// plane words the direction of a joint's plane.
func plane(b kinematics.Bend) string {
	if b.Angle < 0.005*kinematics.Degree {
		return "straight"
	}
	return wholeDegrees(b.Plane)
}

// swing prints between which ends a speed goes, above and below its mean.
func swing(m kinematics.Motion) string { return span(m.MinRatio(), m.MaxRatio()) }

func span(lowest, highest float64) string {
	if highest-lowest < 1e-9 { // nothing but rounding
		return "even"
	}
	return fmt.Sprintf("−%s to +%s %%", short(100*(1-lowest)), short(100*(highest-1)))
}

// acceleration prints an acceleration given in rad/s².
func acceleration(v float64) string { return limits.Amount(v, "rad/s²") }

// short prints a positive number to three digits that matter.
func short(v float64) string { return limits.Amount(v, "") }
