package proof

import (
	"fmt"
	"math"
	"slices"

	"halfturn/kinematics"
)

// highPrecision checks the hard corners against many digits.
func highPrecision() []Check {
	const mpmath = "60-digit arithmetic: testdata/highprecision"
	chains := preciseChains()
	return slices.Concat(
		worst("One joint of 1e-7° to 89.99° in many digits, worst difference", mpmath, compareJoints()),
		worst("Chains of 1 to 12 joints in many digits, worst difference", mpmath,
			slices.Concat(compareOrders(chains), compareMotion(chains))))
}

// compareJoints compares single joints. A handful of roundings is all that
// separates leads and accelerations in proportion to the greatest, even where that
// is 1e-18, and ratios in proportion to themselves, even where one is 2e-4; a lead
// near a right angle has the rounding of its own and no more.
func compareJoints() []comparison {
	const bound = 4 * epsilon
	var list []comparison
	for _, r := range read("highprecision/single.csv") {
		m := must(kinematics.SingleJoint(r.number("beta_rad"), 0))
		state, ratio := m.At(r.number("phi_rad")), r.number("ratio")
		add := func(what string, ours, want, tolerance float64) {
			where := fmt.Sprintf("joint of %s rad at %s rad", r["beta_rad"], r["phi_rad"])
			list = append(list, comparison{what, where, ours, want, tolerance})
		}
		add("lead, rad", state.Lead, r.number("lead_rad"), min(4e-16, bound*m.MaxLead()))
		add("speed ratio", state.Ratio, ratio, bound*ratio)
		add("acceleration", state.Accel, r.number("accel_per_speed2"), bound*m.PeakAccel())
	}
	return list
}

// preciseChain is a chain of the high-precision files.
type preciseChain struct {
	*kinematics.Driveline
	driving []kinematics.Motion
	// bent is the sum of tan²(β/2) over the joints before each shaft: the second
	// order that they would leave if none worked against another, in rad.
	bent []float64
}

func preciseChains() map[string]preciseChain {
	shafts := map[string][]kinematics.Shaft{}
	for _, r := range read("highprecision/chains.csv") {
		phase := 0.0
		if r.has("phase_deg") {
			phase = r.number("phase_deg")
		}
		name := r["case"]
		shafts[name] = append(shafts[name], shaft(r.number("down_deg"), r.number("right_deg"), phase))
	}
	chains := map[string]preciseChain{}
	for name, s := range shafts {
		c := preciseChain{Driveline: chain(s...), bent: make([]float64, len(s))}
		c.driving = c.Driving(nil)
		for k := range s[1:] {
			c.bent[k+1] = c.bent[k] + c.ByItself(k).SecondOrder()
		}
		chains[name] = c
	}
	return chains
}

// compareOrders compares working angles and the two parts of order 2 of the lead.
// The equivalent angle would tell less: next to cancellation it is the square root
// of what is left, and so of the rounding.
func compareOrders(chains map[string]preciseChain) []comparison {
	var list []comparison
	for _, r := range read("highprecision/chains.csv") {
		k := int(r.number("shaft")) - 1
		if k == 0 {
			continue // turns evenly by definition
		}
		c := chains[r["case"]]
		add := func(what string, ours, want, tolerance float64) {
			list = append(list, comparison{what, fmt.Sprintf("%s, shaft %d", r["case"], k+1), ours, want, tolerance})
		}
		// Slopes of up to 1.4 rad are themselves rounded to 1e-16.
		add("working angle, rad", c.WorkingAngle(k-1), r.number("working_angle_rad"), 2*epsilon)
		// A rounded slope turns the plane of a joint by as many roundings as the
		// joint is bent less than the shafts slope.
		second := c.driving[k].SecondOrder()
		sin, cos := math.Sincos(2 * c.driving[k].Azimuth())
		add("cos 2θ part, rad", second*sin, r.number("order2_cos_rad"), 8*epsilon*c.bent[k])
		add("sin 2θ part, rad", -second*cos, r.number("order2_sin_rad"), 8*epsilon*c.bent[k])
	}
	return list
}

// compareMotion compares what the shafts do.
func compareMotion(chains map[string]preciseChain) []comparison {
	var list []comparison
	for _, r := range read("highprecision/motion.csv") {
		k := int(r.number("shaft")) - 1
		if k == 0 {
			continue // turns evenly by definition
		}
		c, theta := chains[r["case"]], r.number("theta_rad")
		m := c.driving[k]
		state := m.At(theta)
		add := func(what string, ours, want, tolerance float64) {
			where := fmt.Sprintf("%s, shaft %d at %v rad", r["case"], k+1, theta)
			list = append(list, comparison{what, where, ours, want, tolerance})
		}
		// An angle of order 1 is rounded by 1e-16, and behind a steep chain an
		// error of θ or of a plane grows with the ratio, up to 1/cos β.
		add("lead, rad", state.Lead, r.number("lead_rad"), epsilon*m.MaxRatio()*min(1, 8*c.bent[k]))
		// Each joint rounds its cosine and its place in the product.
		roundings := 2 * epsilon * float64(k+1)
		add("speed ratio", state.Ratio, r.number("ratio"), roundings*m.MaxRatio())
		add("acceleration", state.Accel, r.number("accel_per_speed2"), roundings*max(1, m.PeakAccel()))
	}
	return list
}
