package kinematics

import (
	"math"
	"math/cmplx"
)

// Motion is how a shaft turns, relative to the uniform rotation θ of the shaft
// that drives: exactly as if a single Cardan joint stood between the two (see
// the package comment). Its zero value is not valid; get one from
// Driveline.Driving, Driveline.Coasting or SingleJoint.
type Motion struct {
	c   complex128 // tan²(β/2)·e^{2jμ} of the equivalent joint
	cos float64    // cos β of it, kept apart since 1 − |c| cancels near 90°
}

// MeanRatio is the mean speed ratio of every shaft over a turn of the driving
// shaft: all turn equally often. Package proof integrates it, and that the
// acceleration integrates to zero.
const MeanRatio = 1.0

// State is the motion of a shaft at one position.
type State struct {
	Lead  float64 // rotation less θ, mean over a turn taken out, rad
	Ratio float64 // speed over the driving shaft's speed
	Accel float64 // acceleration over the driving shaft's speed squared
}

// abs is cmplx.Abs in a third of the time, for what is never so large or small that its
// square over- or underflows, or is as good as nothing where it does.
func abs(z complex128) float64 { return math.Sqrt(real(z)*real(z) + imag(z)*imag(z)) }

// SingleJoint returns the motion behind one Cardan joint of working angle beta,
// 0 ≤ beta < π/2, whose plane normal stands at the given azimuth from the
// driving ears' position at θ = 0. Both are in radians.
func SingleJoint(beta, azimuth float64) (Motion, error) {
	if !(beta >= 0 && beta < math.Pi/2 && math.Cos(beta) > steepest) {
		return Motion{}, &RangeError{"working angle", beta / Degree, "deg", "0 or more and below 90"}
	}
	if !finite(azimuth) {
		return Motion{}, &RangeError{"azimuth", azimuth / Degree, "deg", "a finite angle"}
	}
	t := tan(beta / 2)
	return Motion{cmplx.Rect(t*t, 2*azimuth), math.Cos(beta)}, nil
}

// MotionOf returns the motion whose Vector is c, of a length below 1.
func MotionOf(c complex128) Motion {
	q := abs(c)
	return Motion{c, (1 - q) / (1 + q)}
}

// newMotion reads the equivalent joint off a chain's map.
func newMotion(t turn) Motion {
	c := t.b / t.a
	q := abs(c)
	if q < 0.5 {
		return Motion{c, (1 - q) / (1 + q)}
	}
	sum := cmplx.Abs(t.a) + cmplx.Abs(t.b)
	return Motion{c, t.det / (sum * sum)}
}

// At returns lead, speed ratio and acceleration at the position theta, any finite
// angle, with φ = θ − μ:
//
//	lead  = atan(cos β tan φ) − φ
//	ratio = cos β / (cos²φ + cos²β sin²φ)
//	accel = cos β sin²β sin 2φ / (cos²φ + cos²β sin²φ)²
func (m Motion) At(theta float64) State {
	sin, cos := math.Sincos(theta - m.Azimuth())
	return m.joint().at(sin, cos)
}

// AtStep returns the state at position i of n in a turn from θ = 0, 0 ≤ i < n, with
// all the symmetry of the circle: what is nothing at a quarter turn is zero.
func (m Motion) AtStep(i, n int) State {
	sin, cos := sincosTurn(i, n)
	sinMu, cosMu := math.Sincos(m.Azimuth())
	return m.joint().at(sin*cosMu-cos*sinMu, cos*cosMu+sin*sinMu)
}

// Angle returns the working angle β of the equivalent joint, 0 ≤ β < π/2.
func (m Motion) Angle() float64 {
	q := abs(m.c)
	return math.Atan2(2*math.Sqrt(q)/(1+q), m.cos)
}

// Azimuth returns the azimuth μ of the equivalent joint's plane normal from the
// driving ears' position at θ = 0, within [−π/2, π/2].
func (m Motion) Azimuth() float64 { return cmplx.Phase(m.c) / 2 }

// MinRatio returns the lowest speed ratio of the turn, cos β.
func (m Motion) MinRatio() float64 { return m.cos }

// MaxRatio returns the highest speed ratio of the turn, 1/cos β.
func (m Motion) MaxRatio() float64 { return 1 / m.cos }

// Nonuniformity returns the highest less the lowest speed ratio,
//
//	U = 1/cos β − cos β = sin β tan β
func (m Motion) Nonuniformity() float64 { return m.joint().sin2 / m.cos }

// MaxLead returns the largest lead of the turn; the smallest is its negative:
//
//	atan(sin²(β/2) / √cos β)
func (m Motion) MaxLead() float64 {
	return math.Atan(m.joint().vers / (2 * math.Sqrt(m.cos)))
}

// PeakAccel returns the largest acceleration of the turn over the driving speed
// squared; the smallest is its negative. With S = sin²β it stands where
//
//	cos 2φ = −4S / (2 − S + √((2 − S)² + 8S²))
//
// which follows from setting the derivative of the acceleration to zero.
func (m Motion) PeakAccel() float64 {
	j := m.joint()
	s, a := j.sin2, 1+j.cos*j.cos // 2 − S = 1 + cos²β
	cos2 := -4 * s / (a + math.Sqrt(a*a+8*s*s))
	if cos2 < -1 { // rounding at the steep end
		cos2 = -1
	}
	return j.at(math.Sqrt((1-cos2)/2), math.Sqrt((1+cos2)/2)).Accel
}

// RMSDeviation returns the root mean square, over a turn of the driving shaft, of
// the speed ratio less its mean, 1. With q = tan²(β/2) the ratio is
// 1 + 2·Σ (−q)^n·cos 2nφ, so by Parseval
//
//	√(2·Σ q^{2n}) = √(2q²/(1 − q²)) = (1 − cos β)/√(2 cos β)
func (m Motion) RMSDeviation() float64 { return m.joint().vers / math.Sqrt(2*m.cos) }

// RMSAccel returns the root mean square of the acceleration over a turn of the
// driving shaft, over its speed squared:
//
//	√(8·Σ n²q^{2n}) = √(8q²(1 + q²)/(1 − q²)³) = sin²β·√((1 + cos²β)/(4 cos³β))
func (m Motion) RMSAccel() float64 {
	return m.joint().sin2 * math.Sqrt((1+m.cos*m.cos)/m.cos) / (2 * m.cos)
}

// SecondOrder returns the amplitude of the lead's second order, tan²(β/2), in
// radians.
func (m Motion) SecondOrder() float64 { return abs(m.c) }

// Vector returns the second order of the lead as a vector, tan²(β/2)·e^{2jμ}, of
// the length SecondOrder. Everything else about the motion follows from it.
func (m Motion) Vector() complex128 { return m.c }

// joint returns what At needs of the equivalent joint.
func (m Motion) joint() equivalent {
	q := abs(m.c)
	return equivalent{cos: m.cos, sin2: 4 * q / ((1 + q) * (1 + q)), vers: 2 * q / (1 + q)}
}

// equivalent holds functions of the working angle, each accurate from straight
// to steep.
type equivalent struct {
	cos  float64 // cos β
	sin2 float64 // sin²β
	vers float64 // 1 − cos β
}

// at returns the state where the driving ears stand at the azimuth φ of the
// given sine and cosine from the plane's normal.
func (j equivalent) at(sin, cos float64) State {
	ratio, accel := j.speed(sin, cos)
	return State{Lead: math.Atan(j.tanLead(sin, cos)), Ratio: ratio, Accel: accel}
}

func (j equivalent) speed(sin, cos float64) (ratio, accel float64) {
	// Two ways to write cos²φ + cos²β sin²φ: the first is exactly 1 behind a
	// straight joint, the second keeps its digits behind a steep one.
	spread := 1 - j.sin2*(sin*sin)
	if j.sin2 > 0.5 {
		spread = cos*cos + j.cos*j.cos*(sin*sin)
	}
	inv := 1 / spread
	ratio = j.cos * inv
	return ratio, 0 + 2*j.sin2*(sin*cos)*ratio*inv // no minus zero
}

func (j equivalent) tanLead(sin, cos float64) float64 {
	return 0 - j.vers*(sin*cos)/(cos*cos+j.cos*(sin*sin))
}
