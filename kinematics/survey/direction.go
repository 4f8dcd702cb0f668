package survey

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// Readings are repeated readings of one quantity; nil: not entered, which is
// not the same as an entered 0.
type Readings []float64

// Mean returns the mean of the readings, 0 for none.
func (r Readings) Mean() float64 {
	if len(r) == 0 {
		return 0
	}
	sum := 0.0
	for _, v := range r {
		sum += v
	}
	return sum / float64(len(r))
}

// usualError is the greatest error of a reading of the coarsest gauge that is usual,
// dial or bubble, in deg. Common practice, no source.
const usualError = 0.5

// Agree reports whether repeated readings of an angle lie no further apart than the
// error of a reading allows, in deg; 0: not given.
func (r Readings) Agree(errorDeg float64) bool {
	if len(r) < 2 {
		return true
	}
	return slices.Max(r)-slices.Min(r) <= 2*cmp.Or(errorDeg, usualError)*(1+1e-9) // but for rounding
}

// shifted returns the readings moved by an amount.
func (r Readings) shifted(by float64) Readings {
	moved := make(Readings, len(r))
	for i, v := range r {
		moved[i] = v + by
	}
	return moved
}

// A Method is how the direction of a shaft was measured, by its name in a file.
type Method string

// The methods for a slope and those for a heading.
const (
	ByDown    Method = "down"    // slope in the side-view projection, deg
	ByIncline Method = "incline" // true inclination, as an inclinometer laid along the shaft reads it, deg
	ByTurned  Method = "turned"  // the same, read once and once more with the gauge turned end for end

	ByRight  Method = "right"  // heading in the top-view projection, deg
	ByOffset Method = "offset" // by tape: how far the driven end stands to the right of the driving end, Units
)

var (
	slopeMethods   = []Method{ByDown, ByIncline, ByTurned}
	headingMethods = []Method{ByRight, ByOffset}
)

// Slope is how much a shaft falls toward its driven end, positive down, and how
// that was read.
//
// The two readings by ByTurned are both positive down toward the driven end, as
// read from the same side. The gauge's own zero adds to the one and takes from the
// other, so that their mean is free of it and half their difference is that zero,
// no scatter.
type Slope struct {
	By  Method   // "" where nothing is entered
	Deg Readings // one or more, two by ByTurned; nil: not entered
}

// Down returns a slope in the side-view projection.
func Down(deg ...float64) Slope { return Slope{ByDown, deg} }

// Incline returns a true inclination.
func Incline(deg ...float64) Slope { return Slope{ByIncline, deg} }

// Turned returns a true inclination, read with the gauge turned end for end.
func Turned(a, b float64) Slope { return Slope{ByTurned, Readings{a, b}} }

// Entered reports whether the slope was measured at all.
func (sl Slope) Entered() bool { return sl.Deg != nil }

// inclined reports whether the slope is that of the axis itself, and not of its
// side-view projection.
func (sl Slope) inclined() bool { return sl.By == ByIncline || sl.By == ByTurned }

// Mean returns the slope in degrees, 0 where it is not entered.
func (sl Slope) Mean() float64 { return sl.Deg.Mean() }

// Of returns what would be read of an axis in the same view, in degrees.
func (sl Slope) Of(axis r3.Vec) float64 {
	if sl.inclined() {
		return kinematics.Incline(axis) / kinematics.Degree
	}
	down, _ := kinematics.Slopes(axis)
	return down / kinematics.Degree
}

// Shifted returns the slope with every reading moved by deg degrees. One that is
// not entered counts as a side-view slope of 0.
func (sl Slope) Shifted(deg float64) Slope {
	if !sl.Entered() {
		return Down(deg)
	}
	return Slope{sl.By, sl.Deg.shifted(deg)}
}

// GaugeZero returns the zero of the gauge in degrees, which is what it shows on a
// level, where the gauge was turned end for end; ok is false elsewhere.
func (sl Slope) GaugeZero() (deg float64, ok bool) {
	if sl.By != ByTurned || len(sl.Deg) != 2 {
		return 0, false
	}
	return (sl.Deg[0] - sl.Deg[1]) / 2, true
}

// Heading is how much a shaft drifts to the right toward its driven end, and how
// that was measured.
type Heading struct {
	By     Method   // "" where nothing is entered
	Values Readings // deg, by ByOffset Units; nil: not entered
}

// Right returns a heading in the top view, in degrees.
func Right(deg ...float64) Heading { return Heading{ByRight, deg} }

// Offset returns a sideways run by tape, in Units.
func Offset(run ...float64) Heading { return Heading{ByOffset, run} }

// Entered reports whether the heading was measured at all.
func (h Heading) Entered() bool { return h.Values != nil }

// Mean returns the heading as it was measured, in degrees or Units, 0 where it is
// not entered.
func (h Heading) Mean() float64 { return h.Values.Mean() }

// Of returns what would be measured in the same way of an axis, in degrees or as
// the sideways run of a shaft of that length.
func (h Heading) Of(axis r3.Vec, length float64) float64 {
	if h.By == ByOffset {
		return -length * r3.Unit(axis).Y
	}
	_, right := kinematics.Slopes(axis)
	return right / kinematics.Degree
}

// Shifted returns the heading with every value moved by an amount. One that is
// not entered counts as 0 degrees.
func (h Heading) Shifted(by float64) Heading {
	if !h.Entered() {
		return Right(by)
	}
	return Heading{h.By, h.Values.shifted(by)}
}

// Axis returns the direction of the shaft along the power flow, of any length, in
// the frame of package kinematics. Where its sideways run o is given over its
// length L, with a true inclination i or a side-view slope s,
//
//	sin(right) = o / (L·cos i)
//	tan(right) = o / (cos s · √(L² − o²))
//
// since the end of a shaft of length L stands L·sin i below its start, o to the
// right of it and √(L²·cos²i − o²) further along, or o to the right and √(L² − o²)
// further along the slope of the side view. The axis is NaN where the run is not
// less than the shaft allows.
func (sh Shaft) Axis() r3.Vec {
	slope, right := sh.Slope.Mean()*kinematics.Degree, sh.right()
	if sh.Slope.inclined() {
		return kinematics.AxisFromIncline(slope, right)
	}
	return kinematics.AxisFromSlopes(slope, right)
}

// right returns the heading in radians.
func (sh Shaft) right() float64 {
	run := sh.Heading.Mean()
	if sh.Heading.By != ByOffset {
		return run * kinematics.Degree
	}
	cos := math.Cos(sh.Slope.Mean() * kinematics.Degree)
	if sh.Slope.inclined() {
		return math.Asin(run / (sh.Length * cos))
	}
	return math.Atan2(run, cos*math.Sqrt(sh.Length*sh.Length-run*run))
}
