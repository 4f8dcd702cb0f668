package adjust

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// geometry is a driveline in space, in radians and the units of its survey.
//
// The axis of a shaft of known length is as long as the shaft, so that it leads
// from one point of the vehicle to the next:
//
//	pivot of the engine mounts → first joint → … → last joint → centre line of the axle
//
// Pivot and centre line stay where they are. Moving a joint therefore adds the
// way it goes to the axis before the joint and takes it off the axis behind:
// both shafts turn, and what the distances change is left to their slip joints.
type geometry struct {
	shafts []kinematics.Shaft
	known  []bool // the length of shaft k
}

func newGeometry(s *survey.Survey) geometry {
	var g geometry
	g.read(s)
	return g
}

// read takes the geometry of a survey.
func (g *geometry) read(s *survey.Survey) {
	g.shafts, g.known = s.AppendShafts(g.shafts[:0]), g.known[:0]
	for k, length := range s.Lengths() {
		if length > 0 {
			g.shafts[k].Axis = r3.Scale(length, r3.Unit(g.shafts[k].Axis))
		}
		g.known = append(g.known, length > 0)
	}
}

// move is what a change does to the two shafts at a joint.
type move struct {
	joint          int
	before, behind r3.Vec  // added to the axes of the shafts before and behind it
	turn           float64 // added to the phase of the shaft before it, rad
}

// displacement moves a joint.
func displacement(joint int, by r3.Vec) move {
	return move{joint: joint, before: by, behind: r3.Scale(-1, by)}
}

func (m *move) apply(shafts []kinematics.Shaft) {
	before, behind := &shafts[m.joint], &shafts[m.joint+1]
	before.Axis = r3.Add(before.Axis, m.before)
	before.Phase += m.turn
	behind.Axis = r3.Add(behind.Axis, m.behind)
}

// inclined returns the axis turned about the level line square to it until its
// inclination below the level is the given one; length and heading stay.
func inclined(axis r3.Vec, incline float64) r3.Vec {
	length, level := r3.Norm(axis), math.Hypot(axis.X, axis.Y)
	sin, cos := math.Sincos(incline)
	return r3.Vec{
		X: axis.X / level * length * cos,
		Y: axis.Y / level * length * cos,
		Z: -length * sin,
	}
}
