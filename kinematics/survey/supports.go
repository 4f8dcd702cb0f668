package survey

import (
	"errors"
	"slices"

	"halfturn/kinematics"
)

// Supports returns how every shaft is held, in metres. Where no shaft has a centre
// bearing of its own, one is assumed at the driven-end joint of every shaft between
// two joints but the last, where such bearings usually sit: common practice, no
// source. A length that is not known is 0.
func (s *Survey) Supports() (supports []kinematics.Support, assumed bool) {
	lastHeld := len(s.Shafts) - 3 // that behind it has the slip
	given := slices.ContainsFunc(s.Shafts, func(sh Shaft) bool { return sh.Bearing != nil })
	assumed = !given && lastHeld > 0
	for i, length := range s.Lengths() {
		held := kinematics.Support{Length: s.metres(length)}
		if bearing := s.Shafts[i].Bearing; bearing != nil {
			held.Held, held.Bearing = true, s.metres(*bearing)
		} else if assumed && 0 < i && i <= lastHeld {
			held.Held, held.Bearing = true, held.Length
		}
		supports = append(supports, held)
	}
	return supports, assumed
}

// metres returns a length of the survey in metres.
func (s *Survey) metres(length float64) float64 { return s.Units.Millimetres(length) / 1000 }

// checkSupports holds that statics settles the forces on the centre bearings, if any
// is given.
func (s *Survey) checkSupports(c *collector) {
	supports, assumed := s.Supports()
	if assumed || !c.sound("shafts", "joints") {
		return
	}
	for i := range supports {
		if supports[i].Length == 0 { // the layout is the same with any
			supports[i].Length = supports[i].Bearing + 1
		}
	}
	_, err := kinematics.FreeShaft(supports)
	open, ok := errors.AsType[*kinematics.SupportError](err)
	if !ok {
		return
	}
	path, value := member(element("shafts", open.Shaft), "bearing"), "none"
	if at := s.Shafts[open.Shaft].Bearing; at != nil {
		value = quantity(*at, string(s.Units))
	}
	c.report(path, value, supportWanted[open.Err])
}

// supportWanted says of every layout that statics does not settle what would do.
var supportWanted = map[error]string{
	kinematics.ErrNoFreeShaft:    "one shaft between two joints without a centre bearing: with one on each, nothing tells which bears how much",
	kinematics.ErrManyFreeShafts: "a centre bearing on every shaft between two joints but one: a second one without is held by nothing",
	kinematics.ErrBearingAtJoint: "a place off the joint away from the shaft without a bearing, which else nothing holds",
}

// checkReach holds that the shafts of a pose still reach to their centre bearings.
func (s *Survey) checkReach(c *collector, pose string) {
	for i, length := range s.Lengths() {
		sh, unit := s.Shafts[i], string(s.Units)
		if sh.Bearing != nil && 0 < length && length < *sh.Bearing {
			c.report(pose, quoted(sh.Name)+" "+quantity(length, unit)+" long",
				"a length that reaches to its centre bearing, at "+quantity(*sh.Bearing, unit))
		}
	}
}
