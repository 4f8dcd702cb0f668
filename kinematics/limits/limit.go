package limits

import "halfturn/kinematics/survey"

// Limit is a bound on one quantity, at one speed.
type Limit struct {
	Name      string  // one of survey.LimitNames
	Quantity  string  // what is bounded, such as "working angle difference"
	Value     float64 // in Unit
	Unit      string  // "deg", "rad/s²", "rpm·deg" or "" for a plain number
	Sense     Sense
	ByAngles  bool   // whether the working angles alone decide the quantity
	AppliesTo string // such as "each pair of companion joints"
	Basis     string // who prints it; NoSource; SetByFile
	Why       string // why the set has this value; "" when the file sets it
}

// Sense says on which side of a limit a value must stay. A value on the limit
// keeps it.
type Sense string

const (
	AtMost  Sense = "at most"
	AtLeast Sense = "at least"
)

// Bases of limits that nobody is known to print.
const (
	NoSource  = "common practice, no source"
	SetByFile = "set by the file"
)

// Kept reports whether the value v keeps the limit. A value that lies on the
// limit but for rounding does.
func (l Limit) Kept(v float64) bool {
	// Far above the rounding of a difference of angles, far below any reading.
	const rounding = 1e-9
	if l.Sense == AtLeast {
		return v >= l.Value*(1-rounding)
	}
	return v <= l.Value*(1+rounding)
}

// Margin returns how far inside the limit the value v lies, in parts of the limit;
// negative: how far outside.
func (l Limit) Margin(v float64) float64 {
	if l.Sense == AtLeast {
		return v/l.Value - 1
	}
	return 1 - v/l.Value
}

// tighter reports whether l allows less than other.
func (l Limit) tighter(other Limit) bool {
	if l.Sense == AtLeast {
		return l.Value > other.Value
	}
	return l.Value < other.Value
}

// kind is what all limits of one name share.
type kind struct {
	quantity, unit, appliesTo string
	sense                     Sense
	byAngles                  bool
	// power of the speed with which the quantity grows. Where it is not 0 the
	// quantity cannot be judged without a speed.
	power int
}

const (
	unitDeg      = "deg"
	unitAccel    = "rad/s²"
	unitSpeedDeg = "rpm·deg"
	unitNewton   = "N"

	onCardan = "each Cardan joint"
	onLast   = "the last shaft, driving, and each double-cardan joint by itself"
)

var kinds = map[string]kind{
	survey.LimitCompanionDifference: {"working angle difference", unitDeg, "each pair of companion joints", AtMost, true, 0},
	survey.LimitOddJointMax:         {"working angle without companion", unitDeg, "each odd joint", AtMost, true, 0},
	survey.LimitOddJointMin:         {"working angle without companion", unitDeg, "each odd joint", AtLeast, true, 0},
	survey.LimitLoneJointMax:        {"working angle without companion", unitDeg, "a lone Cardan joint", AtMost, true, 0},
	survey.LimitWorkingAngleMin:     {"working angle", unitDeg, onCardan, AtLeast, true, 0},
	survey.LimitWorkingAngleMax:     {"working angle", unitDeg, onCardan, AtMost, true, 0},
	survey.LimitConstantVelocityMax: {"working angle", unitDeg, "each constant-velocity joint", AtMost, true, 0},
	survey.LimitDoubleCardanMax:     {"working angle", unitDeg, "each double-cardan joint", AtMost, true, 0},
	survey.LimitResidualAccel:       {"torsional acceleration left", unitAccel, onLast, AtMost, false, 2},
	survey.LimitInertiaDriveAccel:   {"driving torsional acceleration", unitAccel, "each shaft between two joints", AtMost, false, 2},
	survey.LimitInertiaCoastAccel:   {"coasting torsional acceleration", unitAccel, "each shaft between two joints", AtMost, false, 2},
	survey.LimitEquivalentAngle:     {"equivalent angle left", unitDeg, onLast, AtMost, false, 0},
	survey.LimitNonuniformity:       {"non-uniformity left", "", onLast, AtMost, false, 0},
	survey.LimitSpeedAngle:          {"speed times working angle", unitSpeedDeg, onCardan, AtMost, true, 1},
	survey.LimitBearingSwing:        {"swing at the centre bearing", unitNewton, "each centre bearing", AtMost, false, 0},
}

// newLimit returns the limit of the given name.
func newLimit(name string, value float64, basis, why string) Limit {
	k := kinds[name]
	return Limit{
		Name: name, Quantity: k.quantity, Value: value, Unit: k.unit, Sense: k.sense, ByAngles: k.byAngles,
		AppliesTo: k.appliesTo, Basis: basis, Why: why,
	}
}
