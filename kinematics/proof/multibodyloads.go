package proof

import (
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// compareLoads compares the loads on chains of rigid bodies.
func compareLoads() []comparison {
	// Of a torque of 1 and shafts of about 1: solver and formulas round each in its own
	// way, some ten times.
	const bound = 1e-14
	var list []comparison
	for _, r := range read("multibody/loads.csv") {
		d, supports := chainOf(r), supportsOf(r)
		couples, forces := d.Couples(1), must(d.Forces(1, supports))
		theta, place := r.number("theta_deg")*kinematics.Degree, int(r.number("number"))
		add := func(what string, ours, want float64) {
			where := fmt.Sprintf("%s, %s %d at %s°", r["case"], r["place"], place, r["theta_deg"])
			list = append(list, comparison{what, where, ours, want, bound})
		}
		vector := func(what string, ours r3.Vec) {
			add(what, ours.X, r.number(what+"_x"))
			add(what, ours.Y, r.number(what+"_y"))
			add(what, ours.Z, r.number(what+"_z"))
		}
		if r["place"] == "bearing" {
			i := slices.IndexFunc(forces.Bearings, func(b kinematics.BearingForce) bool { return b.Shaft == place-1 })
			vector("force", forces.Bearings[i].Force.At(theta))
			continue
		}
		k := place - 1
		before, behind := couples.Torques[k].At(theta), couples.Torques[k+1].At(theta)
		add("torque", before, r.number("torque_before"))
		add("torque", behind, r.number("torque_after"))
		axis := func(k int) r3.Vec { return r3.Unit(d.Shafts()[k].Axis) }
		vector("couple", r3.Add(r3.Scale(before, axis(k)), couples.Joints[k].Driving.At(theta)))
		vector("couple", r3.Add(r3.Scale(behind, axis(k+1)), couples.Joints[k].Driven.At(theta)))
		vector("force", forces.Joints[k].At(theta))
	}
	return list
}

// supportsOf returns the supports of the chain of a record, which lists the lengths of
// the shafts between two joints and the places of their centre bearings, empty for
// the shaft without.
func supportsOf(r record) []kinematics.Support {
	lengths := r.numbers("length_m")
	supports := make([]kinematics.Support, len(lengths)+2)
	bearings := strings.Split(r["bearing_m"], ";")
	for i, length := range lengths {
		s := &supports[i+1]
		s.Length = length
		if len(lengths) > 1 && bearings[i] != "" {
			s.Held, s.Bearing = true, number(bearings[i])
		}
	}
	return supports
}
