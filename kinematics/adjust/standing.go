package adjust

import (
	"slices"

	"halfturn/kinematics/limits"
)

// classes of limits, the gravest first.
const classes = int(limits.TooStraight) + 1

// standing tells what a candidate leaves to be wished for, the gravest first: how many
// limits it leaves broken, by class, and how many of those that it touches it leaves in
// doubt. Less is better.
type standing [classes + 1]uint16

func (s standing) compare(other standing) int { return slices.Compare(s[:], other[:]) }

func (s standing) perfect() bool { return s == standing{} }

// mends reports whether as many limits are mended as with another standing.
func (s standing) mends(other standing) bool { return slices.Equal(s[:classes], other[:classes]) }

// mended reports whether no limit stays broken.
func (s standing) mended() bool { return s.mends(standing{}) }

// leavesTooMuch reports whether a limit stays broken on what is left at the last shaft, or
// on how companions match.
func (s standing) leavesTooMuch() bool { return s[limits.TooShaken]+s[limits.OutOfMatch] > 0 }
