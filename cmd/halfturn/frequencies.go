package main

import (
	"fmt"
	"io"

	"halfturn/kinematics/limits"
)

// writeFrequencies prints how often everything shakes at the speeds of interest.
func writeFrequencies(w io.Writer, turnings []limits.Turning) {
	t := table{{"km/h", "mph", "rev/min", "wheels Hz", "shafts Hz", "second order Hz"}}
	for _, x := range turnings {
		t = append(t, []string{
			fmt.Sprintf("%.0f", x.KMH), fmt.Sprintf("%.0f", x.MPH), fmt.Sprintf("%.0f", x.RPM),
			fmt.Sprintf("%.1f", x.WheelHz), fmt.Sprintf("%.1f", x.ShaftHz), fmt.Sprintf("%.1f", x.SecondOrderHz),
		})
	}
	fmt.Fprintln(w, "\nShakes a second on the road")
	t.write(w)
}

// frequencyDocument is how often everything shakes at one speed; what needs the
// gearing is null where that is not known.
type frequencyDocument struct {
	RPM           float64  `json:"rpm"`
	SpeedKMH      *float64 `json:"speed_kmh"`
	SpeedMPH      *float64 `json:"speed_mph"`
	WheelHz       *float64 `json:"wheel_hz"`
	ShaftHz       float64  `json:"shaft_hz"`
	SecondOrderHz float64  `json:"second_order_hz"`
}

func newFrequencyDocument(x limits.Turning) frequencyDocument {
	return frequencyDocument{
		RPM: x.RPM, SpeedKMH: known(x.KMH), SpeedMPH: known(x.MPH),
		WheelHz: known(x.WheelHz), ShaftHz: x.ShaftHz, SecondOrderHz: x.SecondOrderHz,
	}
}
