package limits

import (
	"math"

	"halfturn/kinematics"
)

// bound is the value of a limit as it depends on the speed.
type bound interface {
	// at returns the value at a speed in rpm, at speed 0, not given, one that holds
	// at every speed; ok is false where the bound says nothing.
	at(rpm float64) (value float64, ok bool)
	// reached returns the speed in rpm above which the bound forbids the value, 0
	// when it forbids it at every speed; ok is false when it never does.
	reached(value float64) (rpm float64, ok bool)
}

// fixed is the same at every speed.
type fixed float64

func (f fixed) at(float64) (float64, bool) { return float64(f), true }

func (f fixed) reached(value float64) (float64, bool) {
	return 0, !Limit{Value: float64(f), Sense: AtMost}.Kept(value)
}

// accelBound is the working angle in degrees at which a single Cardan joint, its
// driving shaft turning uniformly, peaks at the acceleration accel in rad/s², and
// no more than cap degrees.
type accelBound struct{ accel, cap float64 }

// at inverts the exact peak acceleration, which grows with the angle all the way.
func (b accelBound) at(rpm float64) (float64, bool) {
	omega := rpm * kinematics.RPM
	if omega*omega*peakAccel(b.cap) <= b.accel {
		return b.cap, true
	}
	low, high := 0.0, b.cap
	for range 60 { // halves the range down to rounding
		mid := (low + high) / 2
		if omega*omega*peakAccel(mid) <= b.accel {
			low = mid
		} else {
			high = mid
		}
	}
	return low, true
}

func (b accelBound) reached(deg float64) (float64, bool) {
	if deg > b.cap {
		return 0, true
	}
	peak := peakAccel(deg)
	return math.Sqrt(b.accel/peak) / kinematics.RPM, peak > 0
}

// peakAccel returns the peak acceleration behind a single joint over the speed
// squared, for a working angle below 90 degrees.
func peakAccel(deg float64) float64 {
	m, err := kinematics.SingleJoint(deg*kinematics.Degree, 0)
	if err != nil {
		return math.Inf(1)
	}
	return m.PeakAccel()
}

// tableBound is a printed table, by rising speed. A speed between two rows is
// judged by the faster one: what lies between is not printed, and the angles
// allowed fall with speed, so that this is on the safe side. Beyond the last row
// the table says nothing.
type tableBound []row

type row struct{ rpm, value float64 }

func (t tableBound) at(rpm float64) (float64, bool) {
	if !(rpm > 0) {
		return 0, false
	}
	for _, r := range t {
		if rpm <= r.rpm {
			return r.value, true
		}
	}
	return 0, false
}

func (t tableBound) reached(value float64) (float64, bool) {
	for i, r := range t {
		if value > r.value {
			if i == 0 {
				return 0, true
			}
			return t[i-1].rpm, true
		}
	}
	return 0, false
}
