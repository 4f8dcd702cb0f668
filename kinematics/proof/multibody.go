package proof

import (
	"fmt"
	"math"
	"slices"

	"halfturn/kinematics"
)

// multibody checks the motion of chains in space against rigid bodies.
func multibody() []Check {
	const simbody = "Simbody, a rigid-body library: testdata/multibody"
	return slices.Concat(
		worst("Chains of rigid bodies, worst difference", simbody, solved.compare()),
		worst("Other chains of rigid bodies to 12 digits, worst difference", simbody, printed.compare()),
		worst("Loads of rigid bodies for a torque of 1, worst difference", simbody, compareLoads()))
}

// bodies is a file of what rigid bodies do.
type bodies struct {
	file string
	// bound is how far rotations may be off in rad, ratios and accelerations in
	// units of the greatest on their shaft, but at least 1.
	bound float64
	// digits of the accelerations, the column with the fewest.
	digits int
}

var (
	// Solver and formulas round each in its own way, some ten times.
	solved = bodies{"multibody/chains.csv", 1e-14, 17}
	// Rotations are printed to 1e-10 deg, half of which is 0.9e-12 rad.
	printed = bodies{"multibody/open.csv", 1e-12, 12}
)

func (b bodies) compare() []comparison {
	var list []comparison
	chains := map[string][]kinematics.Motion{}
	for _, r := range read(b.file) {
		name := r["case"]
		if chains[name] == nil {
			chains[name] = chainOf(r).Driving(nil)
		}
		m := chains[name][int(r.number("shaft"))-1]
		theta := r.number("theta_deg") * kinematics.Degree
		state, accel := m.At(theta), r.number("accel_per_speed2")
		add := func(what string, ours, want, tolerance float64) {
			where := fmt.Sprintf("%s, shaft %s at %s°", name, r["shaft"], r["theta_deg"])
			list = append(list, comparison{what, where, ours, want, tolerance})
		}
		// Bodies turn from where they are at θ = 0.
		add("rotation, rad", theta+state.Lead-m.At(0).Lead, r.number("rotation_deg")*kinematics.Degree, b.bound)
		add("speed ratio", state.Ratio, r.number("ratio"), b.bound*m.MaxRatio())
		add("acceleration", state.Accel, accel,
			max(b.bound*max(1, m.PeakAccel()), halfDigit(accel, b.digits)))
	}
	return list
}

// chainOf returns the chain of a record that lists its slopes, headings and, of
// the shafts between two joints, phases.
func chainOf(r record) *kinematics.Driveline {
	down, right := r.numbers("down_deg"), r.numbers("right_deg")
	phase := slices.Concat([]float64{0}, r.numbers("phase_deg"), []float64{0})
	shafts := make([]kinematics.Shaft, len(down))
	for k := range shafts {
		shafts[k] = shaft(down[k], right[k], phase[k])
	}
	return chain(shafts...)
}

// halfDigit returns half a unit of the last of the significant digits of v.
func halfDigit(v float64, digits int) float64 {
	return math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-float64(digits-1)) / 2
}
