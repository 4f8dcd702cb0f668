package proof

import (
	"fmt"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// onTheRoad holds how fast wheels and shafts turn at a road speed. The sources
// measured wheels that roll on less than their free diameter.
var onTheRoad = map[string]recipe{
	"tyre_rpm": {
		title:     "Speed of a wheel",
		what:      "{diameter_in} in at {mph} mph",
		exact:     func(r row) float64 { return r.wheelRPM(1) },
		asPrinted: func(r row) float64 { return r.wheelRPM(r.in.number("rolling_factor")) },
	},
	"tyre_hz": {
		title:     "Turns of a wheel",
		what:      "at {mph} mph",
		exact:     func(r row) float64 { return r.wheelRPM(1) / 60 },
		asPrinted: func(r row) float64 { return r.wheelRPM(r.in.number("rolling_factor")) / 60 },
	},
	"order_hz": {
		title: "Orders of a wheel",
		what:  "order {order} at {mph} mph",
		exact: func(r row) float64 { return r.in.number("order") * r.wheelRPM(1) / 60 },
	},
	"driveshaft_hz": {
		title: "Orders of a shaft",
		what:  "order {order}, wheel at {tyre_hz} Hz",
		exact: func(r row) float64 {
			gearing := &survey.Gearing{Radius: 1, FinalDrive: r.in.number("axle_ratio")}
			kmh := r.in.number("tyre_hz") / gearing.WheelHz(1)
			turning := limits.TurningAt(gearing.RPM(kmh), gearing)
			return []float64{turning.ShaftHz, turning.SecondOrderHz}[int(r.in.number("order"))-1]
		},
		asPrinted: func(r row) float64 { return r.in.number("order") * r.in.number("rounded_hz") },
	},
}

// wheelRPM returns the speed of the row's wheel at its road speed, rolling on a
// part of its free diameter.
func (r row) wheelRPM(rolling float64) float64 {
	return wheelRPM(r.in.number("mph"), rolling*r.diameter())
}

// diameter returns the free diameter of the row's tyre in m, or that which a
// measured speed stands for.
func (r row) diameter() float64 {
	switch {
	case r.in.has("rpm_at_10_mph"):
		return wheelRPM(10, 1) / r.in.number("rpm_at_10_mph")
	case r.in.has("hz_at_5_mph"):
		return wheelRPM(5, 1) / (60 * r.in.number("hz_at_5_mph"))
	case r.in.has("diameter_in"):
		return survey.Inch.Millimetres(r.in.number("diameter_in")) / 1000
	}
	size := fmt.Sprintf("%s/%sR%s", r.in["width_mm"], r.in["aspect_percent"], r.in["rim_in"])
	mm, ok := survey.TyreDiameter(size)
	if !ok {
		panic("testdata: tyre size " + size)
	}
	return mm / 1000
}

// wheelRPM returns the speed of a wheel that rolls on a diameter in m.
func wheelRPM(mph, diameter float64) float64 {
	gearing := &survey.Gearing{Radius: diameter / 2, FinalDrive: 1}
	return must(limits.Speed{Value: mph, Unit: "mph"}.RPM(gearing))
}
