package survey_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"

	"halfturn/kinematics/survey"
)

func TestSpeedFromTheRoad(t *testing.T) {
	t.Parallel()
	// A wheel that rolls 2 m in a turn, in each of the ways to say so.
	const radius = 1000 / math.Pi
	for _, test := range []struct {
		name  string
		units survey.Unit
		rpm   float64
		road  *survey.Road
		want  float64
	}{
		{"no speed", "", 0, nil, 0},
		{"rpm", "", 1234, nil, 1234},
		{"rpm beside a road without a speed", "", 1234, &survey.Road{RollingRadius: radius, FinalDrive: 4}, 1234},
		{"road without a speed", "", 0, &survey.Road{RollingRadius: radius, FinalDrive: 4}, 0},
		// 72 km/h are 20 m/s, 10 turns of the wheel and 40 of the shaft a second.
		{"rolling radius", "", 0, &survey.Road{SpeedKMH: 72, RollingRadius: radius, FinalDrive: 4}, 2400},
		{"diameter", "", 0, &survey.Road{SpeedKMH: 72, TyreDiameter: 2 * radius / 0.97, FinalDrive: 4}, 2400},
		{"inches", survey.Inch, 0, &survey.Road{SpeedKMH: 72, RollingRadius: radius / 25.4, FinalDrive: 4}, 2400},
		{"miles", "", 0, &survey.Road{SpeedMPH: 72 / 1.609344, RollingRadius: radius, FinalDrive: 4}, 2400},
		// 16·25.4 + 2·0.6·235 = 688.4 mm.
		{"size", "", 0, &survey.Road{SpeedKMH: 72, Tyre: "P235/60R16", FinalDrive: 1}, 60 * 20 / (math.Pi * 0.6884 * 0.97)},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := &survey.Survey{Shafts: level(2)}
			s.Units, s.RPM, s.Road = test.units, test.rpm, test.road
			if got := s.ShaftRPM(); !scalar.EqualWithinRel(got, test.want, 1e-9) {
				t.Errorf("%v rpm, want %v", got, test.want)
			}
		})
	}
}

func TestGearingThereAndBack(t *testing.T) {
	t.Parallel()
	g := &survey.Gearing{Radius: 0.33, FinalDrive: 3.73}
	for _, kmh := range []float64{1, 50, 130} {
		if back := g.KMH(g.RPM(kmh)); !scalar.EqualWithinRel(back, kmh, 1e-12) {
			t.Errorf("%v km/h there and back is %v", kmh, back)
		}
	}
}
