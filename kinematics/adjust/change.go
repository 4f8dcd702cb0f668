package adjust

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// change is a survey.Change that can be followed in space.
type change struct {
	asked survey.Change
	// joint is the one it moves; a clocking turns the yoke of the shaft before it.
	joint int
	// tiltOnly is set on a wedge where a length is missing: it turns the pinion
	// and leaves the joint where it is.
	tiltOnly bool
	// values other than 0 that it can be set to, rising; nil: any in its range.
	values []float64
}

// newChange finds the joint that c moves. c must be a valid change of s. It
// fails where a length is missing without which the change cannot be followed.
func newChange(s *survey.Survey, g geometry, c survey.Change) (*change, error) {
	made := &change{asked: c, values: settings(c)}
	switch c.Change {
	case survey.ChangeBearingHeight, survey.ChangeBearingSide:
		made.joint = s.JointIndex(c.On)
	case survey.ChangeClocking, survey.ChangeLength:
		made.joint = s.ShaftIndex(c.On)
	case survey.ChangeWedge:
		made.joint = len(s.Joints) - 1
	}
	if c.Change == survey.ChangeLength && made.joint == len(s.Joints)-1 {
		return nil, fmt.Errorf("%s: its driven end is held by the axle, so that its slip takes up any change and no angle changes: want a shaft before a centre bearing", label(c))
	}
	missing := g.missing(s, made.joint)
	switch {
	case len(missing) == 0 || c.Change == survey.ChangeClocking:
		return made, nil
	case c.Change == survey.ChangeWedge:
		made.tiltOnly = true
		return made, nil
	}
	return nil, fmt.Errorf("%s: it moves %q and so turns %q and %q: want the length of %s", label(c),
		s.Joints[made.joint].Name, s.Shafts[made.joint].Name, s.Shafts[made.joint+1].Name, strings.Join(missing, " and of "))
}

// missing returns the quoted names of the shafts at the joint whose length is
// not known.
func (g geometry) missing(s *survey.Survey, joint int) []string {
	var names []string
	for k := joint; k <= joint+1; k++ {
		if !g.known[k] {
			names = append(names, fmt.Sprintf("%q", s.Shafts[k].Name))
		}
	}
	return names
}

// move returns what the change does to shafts when it is set to value, in deg
// or the units of lengths. Where the geometry ends, as for a mount raised higher
// than the shaft is long, it holds NaN.
func (c *change) move(shafts []kinematics.Shaft, value float64) move {
	before, behind := shafts[c.joint].Axis, shafts[c.joint+1].Axis
	switch c.asked.Change {
	case survey.ChangeWedge:
		// The axle turns in its bearings about its centre line, which lies
		// level and square to the pinion; a steeper pinion has a higher nose.
		steeper := inclined(behind, kinematics.Incline(behind)+value*kinematics.Degree)
		m := displacement(c.joint, r3.Sub(behind, steeper))
		if c.tiltOnly {
			m.before = r3.Vec{}
		}
		return m
	case survey.ChangeMount:
		// The joint rises by value on its arc about the pivot.
		level := inclined(before, math.Asin(math.Sin(kinematics.Incline(before))-value/r3.Norm(before)))
		return displacement(c.joint, r3.Sub(level, before))
	case survey.ChangeBearingHeight:
		return displacement(c.joint, r3.Vec{Z: -value})
	case survey.ChangeBearingSide:
		return displacement(c.joint, r3.Vec{Y: -value})
	case survey.ChangeLength:
		return displacement(c.joint, r3.Scale(value/r3.Norm(before), before))
	case survey.ChangeClocking:
		return move{joint: c.joint, turn: value * kinematics.Degree}
	}
	panic(fmt.Sprintf("adjust: %q is no change", c.asked.Change))
}

// settings returns the values other than 0 that a change can be set to, rising;
// nil: any in its range.
func settings(c survey.Change) []float64 {
	switch {
	case c.To > c.From && c.Step == 0:
		return nil
	case c.Step == 0:
		c.Step = 1
	}
	return slices.DeleteFunc(grid(c.From, c.To, c.Step), func(v float64) bool { return v == 0 })
}

// label names a change as a sweep does: wedge(axle pinion).
func label(c survey.Change) string { return c.Change + "(" + c.On + ")" }
