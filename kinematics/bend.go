package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Bend is the geometry of one joint, in radians.
type Bend struct {
	// Angle is the true working angle β between the two axes, 0 ≤ β < π/2.
	Angle float64
	// Side and Top are what the two views show: the driven shaft's slope less
	// the driving shaft's, and the same of their headings.
	Side, Top float64
	// Plane is the direction of the joint plane's normal m = u₁ × u₂ as seen
	// along the power flow: zero when level (a bend in the side view), clockwise
	// positive, within (−π/2, π/2]. It is zero for a straight joint.
	Plane float64
	// Azimuth is the azimuth μ of m in the frames of both shafts, within
	// [−π, π]. It is zero for a straight joint.
	Azimuth float64
}

// Bend returns the geometry of joint k, counted from zero.
func (d *Driveline) Bend(k int) Bend {
	b := d.bends[k]
	down1, right1 := Slopes(d.shafts[k].Axis)
	down2, right2 := Slopes(d.shafts[k+1].Axis)
	return Bend{
		Angle:   b.angle(),
		Side:    down2 - down1,
		Top:     right2 - right1,
		Plane:   halfTurn(math.Atan2(-b.normal.Z, -b.normal.Y)),
		Azimuth: math.Atan2(imag(b.azimuth), real(b.azimuth)),
	}
}

// WorkingAngle returns the true working angle β of joint k, counted from zero,
// in radians: the Angle of its Bend without the rest.
func (d *Driveline) WorkingAngle(k int) float64 { return d.bends[k].angle() }

// BendVector returns the bend of joint k, counted from zero, as a vector across
// its shafts: of the length of the working angle, in radians, in the direction
// e^{jμ} of the joint plane's normal; 0 for a straight joint.
func (d *Driveline) BendVector(k int) complex128 {
	return complex(d.bends[k].angle(), 0) * d.bends[k].azimuth
}

// bend is the bend as the motion needs it.
type bend struct {
	sin, cos float64    // of the working angle
	axis     r3.Vec     // driving axis, unit
	next     r3.Vec     // driven axis, unit
	normal   r3.Vec     // axis × next, of length sin
	azimuth  complex128 // e^{jμ}
}

// newBend returns the bend from axis to next; e is the reference direction of
// the driving shaft.
func newBend(axis, next, e r3.Vec) bend {
	length, nextLength := norm(axis), norm(next)
	if ratio := length / nextLength; ratio < 0.5 || ratio > 2 {
		// In the difference below the shorter one would lose its digits.
		next, nextLength = r3.Scale(ratio, next), length
	}
	// axis × next, written so that nearly equal axes do not cancel.
	normal := r3.Scale(1/(length*nextLength), r3.Cross(axis, r3.Sub(next, axis)))
	b := bend{
		sin:     norm(normal),
		cos:     r3.Dot(axis, next) / (length * nextLength),
		axis:    r3.Scale(1/length, axis),
		next:    r3.Scale(1/nextLength, next),
		normal:  normal,
		azimuth: 1,
	}
	if b.sin > 0 {
		// A straight joint has no plane; whatever azimuth stands for it, the
		// motion is the same.
		b.azimuth = complex(r3.Dot(normal, e)/b.sin, r3.Dot(normal, r3.Cross(b.axis, e))/b.sin)
	}
	return b
}

func (b bend) angle() float64 { return math.Atan2(b.sin, b.cos) }

// transport turns the reference direction e, square to the driving axis u, by
// the smallest rotation that carries u onto the driven axis v:
//
//	e − (e·v)/(1 + u·v) · (u + v)
func (b bend) transport(e r3.Vec) r3.Vec {
	t := r3.Sub(e, r3.Scale(r3.Dot(e, b.next)/(1+b.cos), r3.Add(b.axis, b.next)))
	// Rounding must not pile up along a chain: make it square and unit again.
	t = r3.Sub(t, r3.Scale(r3.Dot(t, b.next), b.next))
	return r3.Scale(1/norm(t), t)
}

// norm is the length of a vector whose square neither over- nor underflows, as that of
// every valid axis: in a third of the time of r3.Norm, which guards against both.
func norm(v r3.Vec) float64 { return math.Sqrt(r3.Norm2(v)) }

// levelAcross returns the level unit vector square to an axis that lies to the
// left of someone who looks along it. A vertical axis has no level side of its
// own; it gets ŷ.
func levelAcross(axis r3.Vec) r3.Vec {
	left := r3.Vec{X: -axis.Y, Y: axis.X} // ẑ × axis
	if r3.Norm(left) < 1e-12*r3.Norm(axis) {
		return r3.Vec{Y: 1}
	}
	return r3.Unit(left)
}

// halfTurn brings the direction of a line into (−π/2, π/2].
func halfTurn(a float64) float64 {
	a = math.Remainder(a, math.Pi)
	if a <= -math.Pi/2 {
		a += math.Pi
	}
	return a + 0 // no minus zero
}
