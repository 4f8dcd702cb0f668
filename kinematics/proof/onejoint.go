package proof

import (
	"math"

	"halfturn/kinematics"
)

// oneJoint holds the quantities of a single joint. Positions are counted in
// degrees from the place where the driven shaft is fastest.
var oneJoint = map[string]recipe{
	"speed": {
		title: "Speed",
		what:  "{rpm} rpm",
		exact: func(r row) float64 { return r.in.number("rpm") * kinematics.RPM },
	},
	"speed_ratio": {
		title: "Speed ratio past the fastest place",
		what:  "{beta_deg}°, {from_fastest_deg}° past",
		exact: func(r row) float64 { return r.joint().At(r.angle("from_fastest_deg")).Ratio },
	},
	"min_speed": {
		title: "Lowest speed behind one joint",
		what:  "{beta_deg}° at {rpm} rpm",
		exact: func(r row) float64 { return r.joint().MinRatio() * r.speed() },
	},
	"max_speed": {
		title: "Highest speed behind one joint",
		what:  "{beta_deg}° at {rpm} rpm",
		exact: func(r row) float64 { return r.joint().MaxRatio() * r.speed() },
	},
	"nonuniformity": {
		title: "Non-uniformity",
		what:  "{beta_deg}°",
		exact: func(r row) float64 { return r.joint().Nonuniformity() },
	},
	"peak_accel_ratio": {
		title: "Peak acceleration over speed squared",
		what:  "{beta_deg}°",
		exact: func(r row) float64 { return r.joint().PeakAccel() },
	},
	"peak_accel": {
		title: "Peak acceleration behind one joint",
		what:  "{beta_deg}° at {rpm} rpm",
		exact: func(r row) float64 { return peakAccel(r.in.number("rpm"), r.in.number("beta_deg")) },
		asPrinted: func(r row) float64 {
			speed := r.in.number("rounded_rad_s")
			return speed * speed * r.joint().PeakAccel()
		},
	},
	"peak_accel_position": {
		title: "Place of peak acceleration",
		what:  "{beta_deg}°, place {occurrence}",
		exact: func(r row) float64 {
			joint := r.joint()
			return r.place(func(low, high float64) float64 {
				return peak(low, high, func(theta float64) float64 { return math.Abs(joint.At(theta).Accel) })
			})
		},
		// cos 2t = 2 sin²β/(2 − sin²β), the usual approximation.
		asPrinted: func(r row) float64 {
			s := math.Pow(math.Sin(r.angle("beta_deg")), 2)
			t := math.Acos(2*s/(2-s)) / 2 / kinematics.Degree
			return mirrored(t, r.in.number("occurrence"))
		},
	},
	"unit_ratio_position": {
		title: "Place where both shafts are equally fast",
		what:  "{beta_deg}°, place {occurrence}",
		exact: func(r row) float64 {
			joint := r.joint()
			return r.place(func(low, high float64) float64 {
				return root(low, high, func(theta float64) float64 { return joint.At(theta).Ratio - 1 })
			})
		},
		asPrinted: func(r row) float64 {
			return mirrored(math.Atan(r.in.number("rounded_tan"))/kinematics.Degree, r.in.number("occurrence"))
		},
	},
	"peak_lead_position": {
		title: "Place of greatest lead",
		what:  "{beta_deg}°",
		exact: func(r row) float64 { return peakLeadPlace(r.in.number("beta_deg")) },
		// The limit for small angles.
		asPrinted: func(row) float64 { return peakLeadPlace(1e-3) },
	},
	"inertia_torque": {
		title: "Greatest torque of inertia",
		what:  "{beta_deg}° at {rpm} rpm",
		exact: func(r row) float64 {
			return r.in.number("inertia") * peakAccel(r.in.number("rpm"), r.in.number("beta_deg"))
		},
	},
	// What drives the load and speeds up the driven shaft's inertia, seen from
	// the driving side: the joint passes on power.
	"driving_torque": {
		title: "Driving torque past the fastest place",
		what:  "{beta_deg}°, {from_fastest_deg}° past, {rpm} rpm",
		exact: func(r row) float64 {
			state, speed := r.joint().At(r.angle("from_fastest_deg")), r.in.number("rpm")*kinematics.RPM
			return (r.in.number("load") + r.in.number("inertia")*state.Accel*speed*speed) * state.Ratio
		},
	},
}

// joint returns the motion behind a joint of the row's angle, fastest at θ = 0.
func (r row) joint() kinematics.Motion { return joint(r.in.number("beta_deg")) }

// angle returns an input in degrees as radians.
func (r row) angle(name string) float64 { return r.in.number(name) * kinematics.Degree }

// speed returns the driving speed in the unit of the row.
func (r row) speed() float64 {
	if r.unit == "rpm" {
		return r.in.number("rpm")
	}
	return r.in.number("rpm") * kinematics.RPM
}

// place returns what find finds in the quarter turn of the row's occurrence, in
// degrees.
func (r row) place(find func(low, high float64) float64) float64 {
	high := r.in.number("occurrence") * math.Pi / 2
	return find(high-math.Pi/2, high) / kinematics.Degree
}

// mirrored returns the place in a later quarter turn of which first is the one in
// the first, in degrees.
func mirrored(first, occurrence float64) float64 {
	return []float64{first, 180 - first, 180 + first, 360 - first}[int(occurrence)-1]
}

// peakAccel returns the peak acceleration behind a joint of an angle in degrees,
// rad/s².
func peakAccel(rpm, beta float64) float64 {
	speed := rpm * kinematics.RPM
	return joint(beta).PeakAccel() * speed * speed
}

func peakLeadPlace(beta float64) float64 {
	m := joint(beta)
	return peak(0, math.Pi/2, func(theta float64) float64 { return m.At(theta).Lead }) / kinematics.Degree
}
