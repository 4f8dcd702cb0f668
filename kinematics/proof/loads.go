package proof

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// loads holds what torque does: to the bearings of the housings of a one-piece
// driveline, two on the first shaft and two on the last, and to a single joint.
// Positions are counted in degrees from the place where the driving ears lie in the
// plane of the shafts.
var loads = map[string]recipe{
	"bearing_a_force": onHousing("A", func(h housing) r3.Vec { return h.a }),
	"bearing_b_force": onHousing("B", func(h housing) r3.Vec { return h.b }),
	"bearing_e_force": onHousing("E", func(h housing) r3.Vec { return h.e }),
	"bearing_f_force": onHousing("F", func(h housing) r3.Vec { return h.f }),
	"driven_torque": {
		title: "Torque behind one joint",
		what:  "{beta_deg}°, {from_fastest_deg}° past",
		exact: func(r row) float64 { return r.couples().Torques[1].At(r.turned()) },
	},
	"torque_before": {
		title: "Torque before one joint",
		what:  "{beta_deg}°, {from_fastest_deg}° past",
		exact: func(r row) float64 {
			behind := inPlane(0, r.in.number("beta_deg")).Couples(1).Torques[1].At(r.turned())
			return r.in.number("torque_behind") / behind
		},
	},
	"driving_bending": {
		title: "Couple that bends the driving shaft",
		what:  "{beta_deg}°, {from_fastest_deg}° past",
		exact: func(r row) float64 { return r3.Norm(r.couples().Joints[0].Driving.At(r.turned())) },
	},
	"driven_bending": {
		title: "Couple that bends the driven shaft",
		what:  "{beta_deg}°, {from_fastest_deg}° past",
		exact: func(r row) float64 { return r3.Norm(r.couples().Joints[0].Driven.At(r.turned())) },
	},
}

func onHousing(name string, bearing func(housing) r3.Vec) recipe {
	return recipe{
		title: "Force on a bearing beside a one-piece shaft",
		what:  name + ", 0 {middle_deg} {last_deg}°, {from_fastest_deg}° past",
		exact: func(r row) float64 { return r3.Norm(bearing(r.housing())) },
	}
}

// turned returns the row's position as rotation of the first shaft of a chain that
// falls, in radians: its ears lie square to the plane at 0.
func (r row) turned() float64 { return r.angle("from_fastest_deg") + math.Pi/2 }

// couples returns those of a single joint.
func (r row) couples() kinematics.Couples {
	return inPlane(0, r.in.number("beta_deg")).Couples(r.in.number("torque"))
}

// housing holds the forces of the bearings on the two shafts that they carry: A, then
// B the distance a on and b before the first joint; E the distance e behind the last
// joint, then F the distance f on.
type housing struct{ a, b, e, f r3.Vec }

func (r row) housing() housing {
	d := inPlane(0, r.in.number("middle_deg"), r.in.number("last_deg"))
	torque, theta := r.in.number("torque"), r.turned()
	supports := make([]kinematics.Support, 3)
	supports[1].Length = r.in.number("length")
	forces := must(d.Forces(torque, supports))
	couples := d.Couples(torque)

	// From the balance of the shaft about B, and about E.
	u, force := across(d, 0, forces.Joints[0].At(theta))
	moment := r3.Sub(r3.Cross(u, couples.Joints[0].Driving.At(theta)), r3.Scale(r.in.number("b"), force))
	a := r3.Scale(1/r.in.number("a"), moment)
	b := r3.Sub(force, a)

	u, force = across(d, 2, forces.Joints[1].At(theta))
	moment = r3.Add(r3.Cross(u, couples.Joints[1].Driven.At(theta)), r3.Scale(r.in.number("e"), force))
	f := r3.Scale(1/r.in.number("f"), moment)
	return housing{a, b, r3.Scale(-1, r3.Add(force, f)), f}
}

// across returns the axis of shaft k and the part of a vector across it.
func across(d *kinematics.Driveline, k int, v r3.Vec) (axis, part r3.Vec) {
	axis = r3.Unit(d.Shafts()[k].Axis)
	return axis, r3.Sub(v, r3.Scale(r3.Dot(v, axis), axis))
}
