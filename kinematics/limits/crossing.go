package limits

import (
	"cmp"
	"math"
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Crossing is the speed at which a driveline as it stands reaches one limit.
type Crossing struct {
	Subject, Quantity string
	Value             float64 // of the quantity there
	Unit              string
	RPM               float64 // of the shafts; above it the limit is broken
	KMH, MPH          float64 // on the road; 0: no gearing known
}

// Crossings returns the speed at which each limit that depends on speed is
// reached, lowest first, leaving out what is broken at every speed or at none that
// a shaft turns at. A speed need not be given: accelerations grow with its square,
// speed times angle with itself, and so from the value v at any speed n
//
//	crossing = n·(limit/v)^(1/power)
//
// while a largest working angle by speed is inverted.
func Crossings(s *survey.Survey) ([]Crossing, error) {
	s = s.Complete()
	g, err := newGauge(s, cmp.Or(s.ShaftRPM(), 1000), nil)
	if err != nil {
		return nil, err
	}
	d, err := s.Driveline()
	if err != nil {
		return nil, err
	}
	var list []Crossing
	gearing := s.Gearing()
	for q, v := range g.Measure(d, nil) {
		rpm, value, ok := g.crossing(g.Judged[q].Limit, v)
		if !ok || rpm > largest {
			continue
		}
		at := TurningAt(rpm, gearing)
		list = append(list, Crossing{
			Subject: g.Judged[q].Subject, Quantity: g.Judged[q].Limit.Quantity,
			Value: value, Unit: g.Judged[q].Limit.Unit,
			RPM: rpm, KMH: at.KMH, MPH: at.MPH,
		})
	}
	// Of equal speeds, the first as judged comes first, whatever the rounding.
	millionths := func(x Crossing) float64 { return math.Round(x.RPM * 1e6) }
	slices.SortStableFunc(list, func(a, b Crossing) int { return cmp.Compare(millionths(a), millionths(b)) })
	return list, nil
}

// crossing returns the speed at which a quantity, v at g.RPM, reaches its limit
// and the value there.
func (g *Gauge) crossing(limit Limit, v float64) (rpm, value float64, ok bool) {
	if limit.Name == survey.LimitWorkingAngleMax {
		rpm, ok = g.Set.reached(limit.Name, v)
		return rpm, v, ok
	}
	k := kindOf(limit.Name)
	if k.power == 0 || v <= k.scale(kinematics.NoiseFloor, g.RPM) {
		return 0, 0, false
	}
	return g.RPM * math.Pow(limit.Value/v, 1/float64(k.power)), limit.Value, true
}
