package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Coupling returns the direction of the coupling yoke of joint k, counted from
// zero: a unit vector in the driveline frame along the power flow. It lies in
// the joint's plane, β₁ on from the driving axis and β₂ short of the driven one:
//
//	(sin β₂·u₁ + sin β₁·u₂) / sin β
//
// ok is false where there is no coupling yoke, which only a double-cardan joint
// has.
func (d *Driveline) Coupling(k int) (axis r3.Vec, ok bool) {
	if d.joints[k].Kind != DoubleCardan {
		return r3.Vec{}, false
	}
	b := d.bends[k]
	if b.sin == 0 {
		return b.axis, true
	}
	half := d.joints[k].halves(b.angle())
	sum := r3.Add(r3.Scale(math.Sin(half[1]), b.axis), r3.Scale(math.Sin(half[0]), b.next))
	return r3.Unit(sum), true
}

// halves returns the working angles of the two crosses of a double-cardan joint
// that is bent by beta, in the order of the power flow.
//
// The coupling yoke carries cross A at the driving shaft and cross B at the
// driven shaft, a distance d apart. A ball on the driving shaft's stub, a
// distance a beyond A, slides in a bore along the driven shaft's axis, so the
// two axes meet at the ball P:
//
//	A ──── d ──── B
//	 ╲ β₁      β₂╱          angle at P: π − β,  β = β₁ + β₂
//	  a         ╱
//	   ╲      ╱              law of sines in A, B, P:
//	     ╲  ╱                sin β₂ / a = sin β / d
//	      P
//
// Both halves are equal where a/d = 1/(2·cos(β/2)); the joint is made so at the
// bend Synchronous. Hence
//
//	sin β₂ = sin β / (2·cos(Synchronous/2))
//
// which bisects at that bend and, trivially, at zero. Derived here from the
// triangle; no source.
func (j Joint) halves(beta float64) [2]float64 {
	if j.Synchronous == 0 {
		return [2]float64{beta / 2, beta / 2}
	}
	driven := math.Asin(math.Sin(beta) / (2 * math.Cos(j.Synchronous/2)))
	return [2]float64{beta - driven, driven}
}
