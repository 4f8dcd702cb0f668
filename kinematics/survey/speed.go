package survey

import (
	"math"

	"halfturn/kinematics"
)

// RollingFactor is the effective radius of a rolling tyre over half its nominal
// diameter. A loaded tyre turns as if it were 2 to 4 % smaller than it is made:
// workshop texts print turns that belong to factors of 0.966, 0.970 and 0.975
// (rows S5-11 and S5-15 to S5-17 of testdata/published.csv: GM service manual,
// Cadillac Seville 2003, and Ford 2001 Escort workshop text).
const RollingFactor = 0.97

// RollingSpread is how far RollingFactor may be off either way.
const RollingSpread = 0.01

// MilesPerHour is one mile an hour in km/h, exact by definition.
const MilesPerHour = 1.609344

// kmh is one kilometre an hour in m/s.
const kmh = 1 / 3.6

// Gearing ties the speed of the shafts to the road.
type Gearing struct {
	Radius     float64 // effective radius of the rolling tyre, m
	FinalDrive float64 // turns of the last shaft for one turn of the wheels
	// Spread is the relative half-width within which Radius is known: that of
	// RollingFactor, 0 for a rolling radius given as such.
	Spread float64
}

// Gearing returns the gearing of a valid driveline, nil where it has no road.
func (s *Survey) Gearing() *Gearing {
	r := s.Road
	if r == nil {
		return nil
	}
	g := &Gearing{FinalDrive: r.FinalDrive, Spread: RollingSpread / RollingFactor}
	switch {
	case r.RollingRadius > 0:
		g.Radius, g.Spread = s.Units.Millimetres(r.RollingRadius)/1000, 0
	case r.TyreDiameter > 0:
		g.Radius = RollingFactor / 2 * s.Units.Millimetres(r.TyreDiameter) / 1000
	default:
		diameter, _ := TyreDiameter(r.Tyre) // known: the file is valid
		g.Radius = RollingFactor / 2 * diameter / 1000
	}
	return g
}

// WheelHz returns the turns a second of the wheels at a road speed in km/h.
func (g *Gearing) WheelHz(speedKMH float64) float64 {
	return speedKMH * kmh / (2 * math.Pi * g.Radius)
}

// RPM returns the mean speed of the shafts, which all joints pass on unchanged,
// at a road speed in km/h.
func (g *Gearing) RPM(speedKMH float64) float64 {
	return 60 * g.FinalDrive * g.WheelHz(speedKMH)
}

// KMH returns the road speed in km/h at which the shafts turn at rpm.
func (g *Gearing) KMH(rpm float64) float64 {
	return rpm * kinematics.RPM / g.FinalDrive * g.Radius / kmh
}

// ShaftRPM returns the speed of the first shaft in rpm: as given or from the road
// speed; 0 where the driveline has neither.
func (s *Survey) ShaftRPM() float64 {
	if s.RPM > 0 {
		return s.RPM
	}
	g := s.Gearing()
	if g == nil {
		return 0
	}
	return g.RPM(s.Road.SpeedKMH + MilesPerHour*s.Road.SpeedMPH) // one of them is 0
}

// SetRPM gives the driveline this speed, in rpm, instead of its own and of that of
// its road.
func (s *Survey) SetRPM(rpm float64) {
	s.RPM = rpm
	if s.Road != nil {
		road := *s.Road // others may share it
		road.SpeedKMH, road.SpeedMPH = 0, 0
		s.Road = &road
	}
}
