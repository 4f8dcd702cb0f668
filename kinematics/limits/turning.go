package limits

import (
	"cmp"
	"math"
	"slices"

	"halfturn/kinematics/survey"
)

// Turning is how fast everything turns at one speed.
type Turning struct {
	RPM           float64 // of the shafts
	KMH, MPH      float64 // on the road; 0: no gearing known
	WheelHz       float64 // first order of the wheels; 0: no gearing known
	ShaftHz       float64 // first order of the shafts
	SecondOrderHz float64 // of the shafts: what joint angles make
}

// TurningAt returns how fast everything turns with the shafts at rpm. The gearing
// may be nil, not known.
func TurningAt(rpm float64, g *survey.Gearing) Turning {
	t := Turning{RPM: rpm, ShaftHz: rpm / 60, SecondOrderHz: rpm / 30}
	if g != nil {
		t.KMH = g.KMH(rpm)
		t.MPH = t.KMH / survey.MilesPerHour
		t.WheelHz = t.ShaftHz / g.FinalDrive
	}
	return t
}

// Turnings returns how fast everything turns at the speeds of interest of a
// driveline, in rising order: its own, if it has one, and every 20 km/h up to
// 140, every 10 mph up to 80 where the file speaks in miles or inches, or every
// 500 rpm up to 4000 where it has no road; none at which the shafts would turn
// faster than survey.MaxRPM.
func Turnings(s *survey.Survey) []Turning {
	g := s.Gearing()
	step, count := 500.0, 8
	switch {
	case g == nil:
	case s.Road.SpeedMPH > 0 || s.Road.SpeedKMH == 0 && s.Units == survey.Inch:
		step = g.RPM(10 * survey.MilesPerHour)
	default:
		step, count = g.RPM(20), 7
	}
	var list []Turning
	for i := range count {
		if rpm := step * float64(i+1); rpm <= survey.MaxRPM {
			list = append(list, TurningAt(rpm, g))
		}
	}
	if own := s.ShaftRPM(); own > 0 {
		list = append(list, TurningAt(own, g))
	}
	slices.SortFunc(list, func(a, b Turning) int { return cmp.Compare(a.RPM, b.RPM) })
	return slices.CompactFunc(list, func(a, b Turning) bool { return math.Abs(b.RPM-a.RPM) < 1e-9*b.RPM })
}
