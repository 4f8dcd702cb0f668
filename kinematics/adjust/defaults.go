package adjust

import (
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// What is taken to be possible on a vehicle whose survey does not say: common
// practice, no source. Wedges are sold in half degrees, shims in 3 mm or 1/8 in.
const (
	wedgeReach = 4.0 // deg, either way
	wedgeStep  = 0.5 // deg
	clockReach = 90  // deg, either way: all there is, since half a turn is the same again
	clockStep  = 1.0 // deg, about what a yoke is set to by eye
)

type shims struct{ thickness, pile, sideways float64 }

var shimsIn = map[survey.Unit]shims{
	survey.Millimetre: {thickness: 3, pile: 30, sideways: 12},
	survey.Inch:       {thickness: 0.125, pile: 1.25, sideways: 0.5},
}

// Defaults returns the changes taken to be possible where a valid survey lists none,
// by common practice and without a source: a wedge under the axle of up to 4°
// either way in half degrees; centre bearings lowered by shims, or moved
// sideways; the first shaft raised by shims at its mount; yokes of a shaft with
// Cardan joints on both sides turned by any angle. refused says why those are
// missing that need a length which the survey does not give.
func Defaults(s *survey.Survey) (changes []survey.Change, refused []error) {
	s = s.Complete()
	g := newGeometry(s)
	offer := func(c survey.Change) {
		if _, err := newChange(s, g, c); err != nil {
			refused = append(refused, err)
			return
		}
		changes = append(changes, c)
	}
	shim, last := shimsIn[s.Units], len(s.Shafts)-1
	offer(survey.Change{Change: survey.ChangeWedge, On: s.Shafts[last].Name, From: -wedgeReach, To: wedgeReach, Step: wedgeStep})
	for _, j := range s.Joints[1:max(1, last-1)] {
		offer(survey.Change{Change: survey.ChangeBearingHeight, On: j.Name, To: shim.pile, Step: shim.thickness})
		offer(survey.Change{Change: survey.ChangeBearingSide, On: j.Name, From: -shim.sideways, To: shim.sideways, Step: shim.thickness})
	}
	offer(survey.Change{Change: survey.ChangeMount, On: s.Shafts[0].Name, To: shim.pile, Step: shim.thickness})
	fluctuates := func(j survey.Joint) bool { return j.Kind == kinematics.Cardan || j.SynchronousDeg != 0 }
	for k := 1; k < last; k++ {
		if slices.ContainsFunc(s.Joints[:k], fluctuates) && slices.ContainsFunc(s.Joints[k:], fluctuates) {
			offer(survey.Change{Change: survey.ChangeClocking, On: s.Shafts[k].Name, From: -clockReach, To: clockReach})
		}
	}
	return changes, refused
}

// nominalStep is the step of a change, or what it is commonly made in where it
// can take any value.
func (c *change) nominalStep(u survey.Unit) float64 {
	switch {
	case c.asked.Step > 0:
		return c.asked.Step
	case c.asked.Change == survey.ChangeWedge:
		return wedgeStep
	case c.asked.Change == survey.ChangeClocking:
		return clockStep
	default:
		return shimsIn[u].thickness
	}
}
