package adjust

import (
	"fmt"
	"math"
	"strconv"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// instruction says in plain words how to make a change.
func instruction(s *survey.Survey, set setting) string {
	text := set.tell(s, set)
	if beyond(set) {
		why := beyondRange
		if set.assumed {
			why = beyondUsual
		}
		text += fmt.Sprintf(" (%s: %s)", why, set.rangeWords(s.ChangeUnit(set.name)))
	}
	return text
}

// Why a setting beyond its range is no plan: by the file, or by common practice.
const (
	beyondRange = "not possible with these parts"
	beyondUsual = "more than is usual"
)

// beyond reports whether a setting lies beyond the range of its change.
func beyond(set setting) bool { return set.value < set.from || set.value > set.to }

// rangeWords says how far the change may go either way: "at most 30 mm lower or 10 mm
// higher".
func (c *change) rangeWords(unit string) string {
	down, up := limits.Bounded(math.Abs(c.from), unit), limits.Bounded(math.Abs(c.to), unit)
	switch {
	case c.from >= 0:
		return fmt.Sprintf("%s to %s %s", number(math.Abs(c.from)), up, c.ways[1])
	case c.to <= 0:
		return fmt.Sprintf("%s to %s %s", number(math.Abs(c.to)), down, c.ways[0])
	}
	return fmt.Sprintf("at most %s %s or %s %s", down, c.ways[0], up, c.ways[1])
}

// way names the way in which the change is made.
func (set *setting) way() string { return sided(set.value, set.ways[1], set.ways[0]) }

// size is how far it is made, without its way and unit.
func (set *setting) size() string {
	size := number(math.Abs(set.value))
	if set.unsure {
		return "about " + size
	}
	return size
}

// The instructions of the kinds of change.

func tellWedge(s *survey.Survey, set setting) string {
	if !onSprings(s) {
		return fmt.Sprintf("tilt %q by %s° until its driving end stands %s", set.asked.On, set.size(), sided(set.value, "higher", "lower"))
	}
	return fmt.Sprintf("fit a wedge of %s° to turn the nose of %q %s: %s", set.size(), set.asked.On, set.way(), thickEnd(set.value))
}

// thickEnd tells which end of a wedge is thick.
//
// A pinion that falls toward the axle by more than before (a positive wedge) has
// its nose, where the joint is, higher. Turned so, the axle's spring seat rises
// at the end toward the shaft and sinks at the end away from it. Below a spring
// that stays where it is, the gap to fill is then widest away from the shaft;
// above one, toward the shaft.
func thickEnd(value float64) string {
	return fmt.Sprintf("on leaf springs thick end %s the shaft (%s the shaft with the springs below the axle)",
		sided(value, "away from", "toward"), sided(value, "toward", "away from"))
}

func tellBearingHeight(s *survey.Survey, set setting) string {
	return fmt.Sprintf("%s the bearing at %q by %s %s%s", sided(set.value, "lower", "raise"), set.asked.On,
		set.size(), s.Units, inSteps(set, sided(set.value, "shim", "step"), s.Units))
}

func tellBearingSide(s *survey.Survey, set setting) string {
	return fmt.Sprintf("move the bearing at %q %s %s %s, as seen along the power flow", set.asked.On,
		set.size(), s.Units, set.way())
}

func tellMount(s *survey.Survey, set setting) string {
	return fmt.Sprintf("%s the mount of %q until %q stands %s %s %s%s", sided(set.value, "shim", "lower"), set.asked.On, s.Joints[set.at].Name,
		set.size(), s.Units, set.way(), inSteps(set, sided(set.value, "shim", "step"), s.Units))
}

// tellClocking counts the teeth of the spline where the steps of the change are such,
// larger than what a yoke is set to before it is welded.
func tellClocking(s *survey.Survey, set setting) string {
	teeth, all := math.Abs(set.value/set.step), 360/set.step
	how := "if the shaft has a slip spline, pull it and put it back by as many teeth (one of 32 is 11.25°, one of 16 is 22.5°), only else cut and weld it, and have it balanced anew"
	if set.step >= 360/maxTeeth && whole(teeth) && whole(all) {
		how = fmt.Sprintf("%.0f of the %.0f teeth", teeth, all)
	}
	return fmt.Sprintf("turn the driven-end yoke of %q by %s° %s, as seen along the power flow: %s", set.asked.On,
		set.size(), set.way(), how)
}

// maxTeeth of the spline of a shaft: more is a shaft welded anew.
const maxTeeth = 120

func tellLength(s *survey.Survey, set setting) string {
	return fmt.Sprintf("make %q %s %s %s and move the bearing at %q along with it", set.asked.On,
		set.size(), s.Units, set.way(), s.Joints[set.at].Name)
}

func sided(value float64, positive, negative string) string {
	if value > 0 {
		return positive
	}
	return negative
}

// inSteps counts the steps of a change, where they add up to its value and are not
// such as every stack is made of.
func inSteps(set setting, step string, unit survey.Unit) string {
	n := math.Abs(set.value / set.step)
	if set.step == set.usual[string(unit)].step || !whole(n) {
		return ""
	}
	if math.Round(n) != 1 {
		step += "s"
	}
	return fmt.Sprintf(": %.0f %s of %s %s", n, step, number(set.step), unit)
}

// whole allows for steps that are written with few digits, such as 360/32 or an
// eighth of an inch as 0.125.
func whole(n float64) bool { return math.Abs(n-math.Round(n)) < 1e-3 }

func number(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}
