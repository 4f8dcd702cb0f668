package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Driving returns the motion of every shaft, in the order of the power flow,
// when the first shaft turns uniformly. θ is the rotation of the first shaft.
// The motions are appended to dst[:0]; dst may be nil.
func (d *Driveline) Driving(dst []Motion) []Motion {
	dst = dst[:0]
	for _, t := range d.chainTurns {
		dst = append(dst, newMotion(t))
	}
	return dst
}

// Coasting returns the motion of every shaft, again in the order of the power
// flow, when the last shaft turns uniformly and drives the others backward
// through the chain. θ is the rotation of the last shaft, clockwise seen along
// the power flow, zero when the ears of its yoke lie level. The motions are
// written to dst, which is grown as needed; dst may be nil.
func (d *Driveline) Coasting(dst []Motion) []Motion {
	n := len(d.shafts)
	if cap(dst) < n {
		dst = make([]Motion, n)
	}
	dst = dst[:n]
	t := phaseTurn(d.level(n - 1))
	dst[n-1] = newMotion(identity)
	for k := n - 2; k >= 0; k-- {
		t = t.then(d.jointTurns[k].inverse())
		dst[k] = newMotion(t)
		t = t.then(d.phaseTurns[k].inverse())
	}
	return dst
}

// ByItself returns the motion that joint k, counted from zero, would pass on if
// it were the only one: zero for a constant-velocity joint and for a
// double-cardan joint whose halves are equal.
func (d *Driveline) ByItself(k int) Motion { return newMotion(d.jointTurns[k]) }

// Ears returns the directions of the yoke ears of shaft k, counted from zero,
// when the first shaft has turned by theta: unit vectors in the driveline frame
// along the ears at its driving end and at its driven end. On the first and the
// last shaft, which have one yoke only, both are the same.
func (d *Driveline) Ears(k int, theta float64) (driving, driven r3.Vec) {
	t := phaseTurn(theta).then(d.chainTurns[k])
	return d.across(k, t), d.across(k, t.then(d.phaseTurns[k]))
}

// across returns the direction across shaft k to which t carries e.
func (d *Driveline) across(k int, t turn) r3.Vec {
	z := t.a + t.b // the image of z = 1
	e := d.frames[k]
	side := r3.Cross(r3.Unit(d.shafts[k].Axis), e)
	return r3.Unit(r3.Add(r3.Scale(real(z), e), r3.Scale(imag(z), side)))
}

// level returns the azimuth, in the frame of shaft k, of the level direction
// across it.
func (d *Driveline) level(k int) float64 {
	axis := d.shafts[k].Axis
	l, e := levelAcross(axis), d.frames[k]
	return math.Atan2(r3.Dot(l, r3.Cross(r3.Unit(axis), e)), r3.Dot(l, e))
}
