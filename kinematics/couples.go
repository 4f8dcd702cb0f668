package kinematics

import "math/cmplx"

// Couples is the torque along every shaft and the couple at every joint while a
// constant torque acts on the first shaft.
type Couples struct {
	Torques []Wave        // along every shaft, clockwise positive
	Joints  []JointCouple // of every joint
}

// JointCouple is the couple that the shaft before a joint passes to the shaft
// behind it, less the torque: what bends the two shafts.
type JointCouple struct {
	Driving Load // its part across the shaft before, which is bent by the reverse
	Driven  Load // its part across the shaft behind
}

// Couples returns torques and couples, in the unit of torque, when torque acts on
// the first shaft: positive driving, negative coasting. Shafts have no inertia, so
// a shaft's torque times its speed ratio is the same everywhere.
//
// A cross turns freely on both pairs of its pins and so passes on a couple square
// to both. With p and q along the driving and the driven ears that is
//
//	C = T₁·(p × q)/((p × q)·u₁) = T₁·u₁ + c₁ = T₂·u₂ + c₂
//
// where, as complex numbers across each shaft, α the azimuth of its ears,
//
//	c₁ = −(j/2)·T₁·tan β·(e^{jμ} + e^{−jμ}·e^{2jα₁})
//	c₂ = +(j/2)·T₂·tan β·(e^{jμ} + e^{−jμ}·e^{2jα₂})
//
// a steady couple and one of the same size that turns at twice the speed of the
// shaft. With z → a·z + b·z̄ the map of the ears and det its determinant,
//
//	T·e^{2jα} = T₀·(a·z + b·z̄)²/det,  T = T₀·|a·z + b·z̄|²/det
//
// and so torques and couples are a steady part and a second order and nothing
// else, whatever the angles. Derived here; Klein, technical information section 7,
// prints c₁ and c₂ of one joint at its four main positions.
//
// A constant-velocity joint passes on a couple along u₁ + u₂, with no swing:
//
//	c₁ = −j·e^{jμ}·T·tan(β/2),  c₂ = +j·e^{jμ}·T·tan(β/2)
//
// A double-cardan joint is taken as one: its two crosses swing against each other.
// What its centring leaves of that is neglected.
func (d *Driveline) Couples(torque float64) Couples {
	var c Couples
	scale := complex(torque, 0)
	for k := range d.shafts {
		straight, _ := d.chainTurns[k].torque()
		c.Torques = append(c.Torques, straight.times(scale).wave())
	}
	for k := range d.joints {
		c.Joints = append(c.Joints, JointCouple{
			Driving: d.load(k, d.drivingCouple(k).times(scale)),
			Driven:  d.load(k+1, d.drivenCouple(k).times(scale)),
		})
	}
	return c
}

// drivingCouple returns the couple of joint k across its driving shaft for a torque of
// 1 on the first shaft.
func (d *Driveline) drivingCouple(k int) harmonic {
	ears := d.chainTurns[k].then(d.phaseTurns[k])
	return d.rules[k].couple(d.bends[k], ears).times(-1)
}

// drivenCouple is drivingCouple across the driven shaft.
func (d *Driveline) drivenCouple(k int) harmonic {
	return d.rules[k].couple(d.bends[k], d.chainTurns[k+1])
}

// torque returns the torque T of the shaft whose ears t carries, and T·e^{2jα} with
// α their azimuth, for a torque of 1 on the first shaft.
func (t turn) torque() (straight, turned harmonic) {
	a, b := t.a, t.b
	conjA, conjB := cmplx.Conj(a), cmplx.Conj(b)
	inv := complex(1/t.det, 0)
	straight = harmonic{a*conjA + b*conjB, a * conjB, conjA * b}
	turned = harmonic{2 * a * b, a * a, b * b}
	return straight.times(inv), turned.times(inv)
}

// crossCouple is the couple of one cross across its driven shaft, whose ears t
// carries; across the driving shaft, with the ears there, it is the negative.
func crossCouple(b bend, t turn) harmonic {
	straight, turned := t.torque()
	tan := complex(0, b.sin/b.cos/2)
	return straight.times(tan * b.azimuth).plus(turned.times(tan * cmplx.Conj(b.azimuth)))
}

// steadyCouple is crossCouple of a joint that passes torque on evenly.
func steadyCouple(b bend, t turn) harmonic {
	straight, _ := t.torque()
	return straight.times(complex(0, b.sin/(1+b.cos)) * b.azimuth)
}
