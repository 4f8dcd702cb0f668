package adjust

import (
	"fmt"
	"math"
	"strconv"

	"halfturn/kinematics/survey"
)

// instruction says in plain words how to make a change.
func instruction(s *survey.Survey, set setting) string {
	on, u := set.asked.On, string(s.Units)
	size := number(math.Abs(set.value))
	switch set.asked.Change {
	case survey.ChangeWedge:
		return fmt.Sprintf("fit a wedge of %s° to turn the nose of %q %s", size, on, wedgeWords(set.value))
	case survey.ChangeBearingHeight:
		return fmt.Sprintf("%s the bearing at %q by %s %s%s", sided(set.value, "lower", "raise"), on, size, u, inSteps(set, sided(set.value, "shim", "step"), u))
	case survey.ChangeBearingSide:
		return fmt.Sprintf("move the bearing at %q %s %s to the %s, as seen along the power flow%s",
			on, size, u, sided(set.value, "right", "left"), inSteps(set, "step", u))
	case survey.ChangeMount:
		return fmt.Sprintf("shim the mount of %q until %q stands %s %s %s%s", on,
			s.Joints[set.joint].Name, size, u, sided(set.value, "higher", "lower"), inSteps(set, sided(set.value, "shim", "step"), u))
	case survey.ChangeClocking:
		return fmt.Sprintf("turn the driven-end yoke of %q by %s° %s, as seen along the power flow%s", on, size,
			sided(set.value, "clockwise", "anticlockwise"), teeth(set))
	case survey.ChangeLength:
		return fmt.Sprintf("make %q %s %s %s and move the bearing at %q along with it", on, size, u,
			sided(set.value, "longer", "shorter"), s.Joints[set.joint].Name)
	}
	panic(fmt.Sprintf("adjust: %q is no change", set.asked.Change))
}

// wedgeWords tells which way a wedge turns the pinion and which end is thick.
//
// A pinion that falls toward the axle by more than before (a positive wedge) has
// its nose, where the joint is, higher. Turned so, the axle's spring seat rises
// at the end toward the shaft and sinks at the end away from it. Below a spring
// that stays where it is, the gap to fill is then widest away from the shaft;
// above one, toward the shaft. On a rear axle, away from the shaft is the rear.
func wedgeWords(value float64) string {
	if value > 0 {
		return "up: thick end away from the shaft (to the rear on a rear axle) with the spring on top of the axle, toward the shaft with the spring below it"
	}
	return "down: thick end toward the shaft (to the front on a rear axle) with the spring on top of the axle, away from the shaft with the spring below it"
}

func sided(value float64, positive, negative string) string {
	if value > 0 {
		return positive
	}
	return negative
}

// inSteps counts the steps of a change, where they add up to its value.
func inSteps(set setting, step, unit string) string {
	n := math.Abs(set.value / set.asked.Step)
	if set.asked.Step == 0 || !whole(n) {
		return ""
	}
	if math.Round(n) != 1 {
		step += "s"
	}
	return fmt.Sprintf(": %.0f %s of %s %s", n, step, number(set.asked.Step), unit)
}

// teeth counts the teeth of a spline that a clocking goes by, where its step
// divides the turn.
func teeth(set setting) string {
	n, all := math.Abs(set.value/set.asked.Step), 360/set.asked.Step
	if set.asked.Step == 0 || !whole(n) || !whole(all) {
		return ""
	}
	return fmt.Sprintf(": %.0f of the %.0f teeth", n, all)
}

// whole allows for steps that are written with few digits, such as 360/32 or an
// eighth of an inch as 0.125.
func whole(n float64) bool { return math.Abs(n-math.Round(n)) < 1e-3 }

func number(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}
