package survey

import (
	"cmp"
	"maps"
	"slices"

	"halfturn/kinematics"
)

// Survey is a driveline as measured, in the units of its file: degrees, rpm and
// millimetres or inches. It is the border of the program; inside, everything is
// Driveline(). Lengths and positions are in Units.
//
// Survey values from Read are valid and complete. One built in code may leave
// out what a file may leave out; Complete fills that in and Validate checks it.
type Survey struct {
	Name     string
	Note     string  // free text, may have several lines
	Units    Unit    // of every length and position; "" is Millimetre
	RPM      float64 // speed of the first shaft, rev/min; 0: not given
	TorqueNM float64 // torque on the first shaft, N·m; 0: not given

	// Half-widths of rectangular distributions; 0: none given.
	ReadingErrorDeg float64 // of placing the gauge once, for a slope or a heading
	GaugeErrorDeg   float64 // of the gauge's own zero, the same in every reading of it
	PhaseErrorDeg   float64 // of a phase
	TapeError       float64 // of one coordinate of a joint centre, or of an offset
	// GaugeResolutionDeg is the least step that the gauge shows; 0: not given.
	GaugeResolutionDeg float64

	Shafts []Shaft // along the power flow, at least two
	Joints []Joint // one fewer; empty: Cardan joints throughout
	Road   *Road   // nil: not given
	Limits Limits
	Adjust []Change // empty: nothing said about what can be changed
	Poses  []Pose
}

// MaxRPM is the highest speed of the first shaft that a survey may have.
const MaxRPM = 100_000

// Unit is the unit of lengths and positions.
type Unit string

// The units of length.
const (
	Millimetre Unit = "mm"
	Inch       Unit = "in"
)

// Units lists every unit of length.
var Units = []Unit{Millimetre, Inch}

// Millimetres returns the length v, given in u, in millimetres.
func (u Unit) Millimetres(v float64) float64 {
	if u == Inch {
		return v * inch
	}
	return v
}

// inch is one inch in millimetres, exact by definition.
const inch = 25.4

// Shaft is one straight shaft of the driveline.
type Shaft struct {
	Name    string // "" is "shaft 1", "shaft 2" …
	Slope   Slope
	Heading Heading // not entered: straight along
	// PhaseDeg is how far the driven-end yoke ears are turned, clockwise, from the
	// driving-end ears; not entered: in phase. Only a shaft between two joints has
	// one.
	PhaseDeg Readings
	// Length is the distance between the joint centres; on the first shaft from
	// the pivot of the engine mounts to the first joint, on the last from the last
	// joint to the centre line of the axle. 0: not given; needed by corrections,
	// by loads and beside an offset.
	Length float64
	// Bearing is the distance of a centre bearing from the driving-end joint, nil
	// for none. Only a shaft between two joints has one.
	Bearing *float64
}

// Joint connects two neighbouring shafts.
type Joint struct {
	Name string // "" is "joint 1", "joint 2" …
	Kind kinematics.Kind
	// SynchronousDeg is the bend at which the centring of a double-cardan joint
	// makes it exactly synchronous; 0: ideal at every bend.
	SynchronousDeg float64
	// At is the joint centre. Either every joint has one, and the shafts between
	// two joints take their direction from it, or none has.
	At *Point
	// Companions names the joints that are meant to cancel with this one: one for
	// a pair, several for a group; none: found from the chain. See Groups.
	Companions []string
}

// Point is a position seen from any fixed origin, along the power flow, in Units.
type Point struct{ Along, Right, Down float64 }

// Road ties the speed of the driveline to the road: at most one speed, and
// exactly one of Tyre, TyreDiameter and RollingRadius. 0 or "" is not given.
type Road struct {
	SpeedKMH, SpeedMPH float64
	Tyre               string  // size, see TyreDiameter
	TyreDiameter       float64 // unloaded, in Units
	RollingRadius      float64 // effective, in Units
	FinalDrive         float64 // turns of the last shaft for one turn of the wheels
}

// Limits choose what is acceptable: a set of limits by name, and single limits
// that override the set.
type Limits struct {
	Set    string             // one of SetNames; "": the program's choice
	Values map[string]float64 // by names out of LimitNames, each above 0
	Off    []string           // limits switched off (null in a file), in the order of LimitNames
}

// with returns the limits with those of over before them.
func (l Limits) with(over Limits) Limits {
	merged := Limits{Set: cmp.Or(over.Set, l.Set), Values: maps.Clone(over.Values)}
	for name, v := range l.Values {
		if _, set := over.Values[name]; !set && !slices.Contains(over.Off, name) {
			if merged.Values == nil {
				merged.Values = make(map[string]float64)
			}
			merged.Values[name] = v
		}
	}
	for _, name := range LimitNames {
		_, set := merged.Values[name]
		if !set && (slices.Contains(l.Off, name) || slices.Contains(over.Off, name)) {
			merged.Off = append(merged.Off, name)
		}
	}
	return merged
}

// Change is one thing that can be altered on the vehicle, and how far.
type Change struct {
	Change string `json:"change"` // one of Changes, which say what it does, where and in which unit
	On     string `json:"on"`     // name of the shaft or joint

	// Ends of the possible range, in deg or Units; 0 is as measured.
	From float64 `json:"from"`
	To   float64 `json:"to"`
	Step float64 `json:"step"` // steps from From on; 0: any value
}

// Pose is the driveline at another ride height, or at work: what is measured anew
// there. Everything else is as in the Survey.
type Pose struct {
	Name   string
	Kind   PoseKind // "": not said
	RPM    *float64 // speed of the first shaft there, 0: it stands still; nil: as in the Survey
	Limits Limits   // override those of the Survey
	Shafts []PoseShaft
	Joints []PoseJoint
}

// PoseKind says which limits a pose must keep.
type PoseKind string

// The kinds of poses.
const (
	Cruise PoseKind = "cruise" // where it is driven for hours: all limits
	Load   PoseKind = "load"   // under power or braking: accelerations and greatest angles
	Travel PoseKind = "travel" // droop, bump, a tight turn: greatest angles
)

// PoseKinds lists every kind of pose.
var PoseKinds = []PoseKind{Cruise, Load, Travel}

// PoseShaft overrides the slope and the heading of the shaft of that name, each
// where it is entered.
type PoseShaft struct {
	Name    string
	Slope   Slope
	Heading Heading
}

// PoseJoint overrides the position of the joint of that name.
type PoseJoint struct {
	Name string
	At   *Point
}
