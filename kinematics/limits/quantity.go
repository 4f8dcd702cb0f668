package limits

import (
	"math"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// This file says what is judged: which quantities there are, how each is measured,
// and what the limits of each name are about. Verdicts, sweeps, the states of a
// correction and figures all take their numbers from here.

// Quantity is something about a driveline that is judged or shown. It is the
// length of a vector, in a unit of its own: what the errors of the measurement do
// to a length near zero can be seen from the vector only.
type Quantity struct {
	Key  string // as in JSON and CSV, with its unit
	Name string // in words
	Unit string // "deg", "rad/s²", "rpm·deg", "N" or "" for a plain number

	// power of the speed with which the quantity grows. Where it is not 0 the
	// quantity cannot be judged without a speed.
	power int
	// scale makes the quantity of a vector's length, at a speed in rpm. It grows
	// with the length.
	scale func(length, rpm float64) float64
	// shown lists the parts of a driveline that a sweep shows it of.
	shown func(layout) []part
}

// NeedsSpeed reports whether the quantity depends on the speed.
func (q *Quantity) NeedsSpeed() bool { return q.power > 0 }

const (
	unitDeg      = "deg"
	unitAccel    = "rad/s²"
	unitSpeedDeg = "rpm·deg"
	unitNewton   = "N"
)

var (
	mismatch = &Quantity{"mismatch_deg", "mismatch", unitDeg, 0, inDegrees, companions}

	workingAngle = &Quantity{"working_angle_deg", "working angle", unitDeg, 0, inDegrees, everyJoint}

	residualAccel = &Quantity{"residual_accel_rad_s2", "shake left", unitAccel, 2, peakAccelOf, lastShaft}
	driveAccel    = &Quantity{"inertia_drive_accel_rad_s2", "acceleration when driving", unitAccel, 2, peakAccelOf, innerDriving}
	coastAccel    = &Quantity{"inertia_coast_accel_rad_s2", "acceleration when coasting", unitAccel, 2, peakAccelOf, innerCoasting}

	exactAngle = &Quantity{"exact_equivalent_angle_deg", "equivalent angle left", unitDeg, 0,
		func(length, _ float64) float64 { return 2 * math.Atan(math.Sqrt(length)) / kinematics.Degree }, lastShaft}
	firstOrderAngle = &Quantity{"equivalent_angle_deg", "equivalent angle left, first order", unitDeg, 0,
		func(length, _ float64) float64 { return math.Sqrt(length) / kinematics.Degree }, wholeSum}
	nonuniformity = &Quantity{"nonuniformity", "non-uniformity left", "", 0,
		func(length, _ float64) float64 { return motionOf(length).Nonuniformity() }, lastShaft}

	bearingSwing = &Quantity{"bearing_swing_n", "bearing swing", unitNewton, 0, asItIs, loadedBearings}
	// the same where no torque is given, which is not judged
	bearingSwingEach = &Quantity{"bearing_swing_n", "bearing swing for each 100 N·m", unitNewton, 0, asItIs, unloadedBearings}

	speedAngle = &Quantity{"speed_angle_rpm_deg", "speed times working angle", unitSpeedDeg, 1,
		func(length, rpm float64) float64 { return rpm * length / kinematics.Degree }, cardanJoints}
)

// quantities lists what a sweep shows, in this order.
var quantities = []*Quantity{
	workingAngle, mismatch, exactAngle, firstOrderAngle, nonuniformity, residualAccel, driveAccel, coastAccel,
	bearingSwing, bearingSwingEach,
}

func asItIs(length, _ float64) float64 { return length }

func inDegrees(length, _ float64) float64 { return length / kinematics.Degree }

// peakAccelOf returns the peak acceleration in rad/s² of a motion of the given
// second order of lead.
func peakAccelOf(length, rpm float64) float64 {
	omega := rpm * kinematics.RPM
	return omega * omega * motionOf(length).PeakAccel()
}

func motionOf(length float64) kinematics.Motion { return kinematics.MotionOf(complex(length, 0)) }

// kind is what all limits of one name share.
type kind struct {
	*Quantity
	sense     Sense
	class     Class
	holds     survey.PoseKind // the least demanding kind of pose in which it holds
	called    string          // what is bounded, in words
	appliesTo string
	parts     func(layout) []part // of a driveline that the limit holds for
}

// Class says what breaking a limit comes to, the gravest first. An answer names what
// is broken in this order.
type Class int

const (
	TooBent     Class = iota // a joint is bent more than it bears
	TooShaken                // what the exact motion in space leaves is too much
	OutOfMatch               // joints that should cancel do not, by the rules of a shop
	TooStraight              // a joint wears, since its needle bearings do not rock
)

var kinds = map[string]kind{
	survey.LimitCompanionDifference: {mismatch, AtMost, OutOfMatch, survey.Cruise, "mismatch", "companion joints", companions},
	survey.LimitOddJointMax:         {workingAngle, AtMost, OutOfMatch, survey.Cruise, angleOfOdd, "each odd joint", oddJoints},
	survey.LimitOddJointMin:         {workingAngle, AtLeast, TooStraight, survey.Cruise, angleOfOdd, "each odd joint", oddJoints},
	survey.LimitLoneJointMax:        {workingAngle, AtMost, OutOfMatch, survey.Cruise, "working angle of the lone joint", "the only Cardan joint of a driveline", loneJoint},
	survey.LimitWorkingAngleMin:     {workingAngle, AtLeast, TooStraight, survey.Cruise, angle, "each joint that has a companion", pairedJoints},
	survey.LimitWorkingAngleMax:     {workingAngle, AtMost, TooBent, survey.Travel, angle, "each Cardan joint", cardanJoints},
	survey.LimitConstantVelocityMax: {workingAngle, AtMost, TooBent, survey.Travel, angle, "each constant-velocity joint", ofKind(kinematics.ConstantVelocity)},
	survey.LimitDoubleCardanMax:     {workingAngle, AtMost, TooBent, survey.Travel, angle, "each double-cardan joint", ofKind(kinematics.DoubleCardan)},
	survey.LimitResidualAccel:       {residualAccel, AtMost, TooShaken, survey.Load, residualAccel.Name, onLast, leftOver},
	survey.LimitInertiaDriveAccel:   {driveAccel, AtMost, TooShaken, survey.Load, driveAccel.Name, onInner, innerDriving},
	survey.LimitInertiaCoastAccel:   {coastAccel, AtMost, TooShaken, survey.Load, coastAccel.Name, onInner, innerCoasting},
	survey.LimitEquivalentAngle:     {exactAngle, AtMost, TooShaken, survey.Cruise, exactAngle.Name, onLast, leftOver},
	survey.LimitNonuniformity:       {nonuniformity, AtMost, TooShaken, survey.Cruise, nonuniformity.Name, onLast, leftOver},
	survey.LimitSpeedAngle:          {speedAngle, AtMost, TooBent, survey.Load, speedAngle.Name, "each Cardan joint", cardanJoints},
	survey.LimitBearingSwing:        {bearingSwing, AtMost, TooShaken, survey.Load, bearingSwing.Name, "each centre bearing, where the torque is given", loadedBearings},
}

const (
	angle      = "working angle"
	angleOfOdd = "working angle of the odd joint"

	onLast  = "the last shaft, driving, and each double-cardan joint by itself"
	onInner = "each shaft between two joints"
)

// kindOf returns what the limits of a name share. A name that has no row is a
// mistake of ours.
func kindOf(name string) kind {
	k, ok := kinds[name]
	if !ok {
		panic("limits: no row says what " + name + " is about")
	}
	return k
}

// layout is what decides which parts of a driveline a quantity is measured on.
type layout struct {
	*survey.Survey
	Roles
}

func companions(l layout) []part { return numbered(matching, len(l.Companions)) }

func everyJoint(l layout) []part { return numbered(bend, len(l.Joints)) }

func oddJoints(l layout) []part { return joints(l.Odd) }
func loneJoint(l layout) []part { return joints(l.Lone) }

func pairedJoints(l layout) []part {
	var list []part
	for k := range l.Joints {
		if l.hasCompanion(k) {
			list = append(list, part{bend, k})
		}
	}
	return list
}

func cardanJoints(l layout) []part { return joints(jointsOf(l.Survey, kinematics.Cardan)) }

func ofKind(kind kinematics.Kind) func(layout) []part {
	return func(l layout) []part { return joints(jointsOf(l.Survey, kind)) }
}

func wholeSum(layout) []part { return []part{{sum, 0}} }

func lastShaft(l layout) []part { return []part{{driving, len(l.Shafts) - 1}} }

// leftOver is the last shaft and, where they are not all there is, the double-cardan
// joints.
func leftOver(l layout) []part {
	list := lastShaft(l)
	if len(l.Joints) > 1 {
		for _, k := range jointsOf(l.Survey, kinematics.DoubleCardan) {
			list = append(list, part{byItself, k})
		}
	}
	return list
}

func innerDriving(l layout) []part  { return innerShafts(l, driving) }
func innerCoasting(l layout) []part { return innerShafts(l, coasting) }

func innerShafts(l layout, of vector) []part {
	list := numbered(of, len(l.Shafts)-1)
	return list[1:]
}

// numbered returns the first n parts of a kind.
func numbered(of vector, n int) []part {
	list := make([]part, n)
	for i := range list {
		list[i] = part{of, i}
	}
	return list
}

// joints returns the bends of the joints of the given numbers.
func joints(numbers []int) []part {
	var list []part
	for _, k := range numbers {
		list = append(list, part{bend, k})
	}
	return list
}

// jointsOf returns the joints of a kind.
func jointsOf(s *survey.Survey, kind kinematics.Kind) []int {
	var list []int
	for k, j := range s.Joints {
		if j.Kind == kind {
			list = append(list, k)
		}
	}
	return list
}
