package limits

import (
	"math"
	"testing"

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
			s := inPlane(0, 1)
			s.Units, s.RPM, s.Road = test.units, test.rpm, test.road
			if got := RPM(s.Complete()); !near(got, test.want, 1e-9*test.want) {
				t.Errorf("%v rpm, want %v", got, test.want)
			}
		})
	}
}

func TestGearingThereAndBack(t *testing.T) {
	t.Parallel()
	g := &Gearing{Radius: 0.33, FinalDrive: 3.73}
	for _, kmh := range []float64{1, 50, 130} {
		if back := g.KMH(g.RPM(kmh)); !near(back, kmh, 1e-12*kmh) {
			t.Errorf("%v km/h there and back is %v", kmh, back)
		}
	}
}

func TestTurnings(t *testing.T) {
	t.Parallel()
	road := func(r survey.Road) *survey.Road {
		r.RollingRadius, r.FinalDrive = 300, 4
		return &r
	}
	for _, test := range []struct {
		name  string
		s     survey.Survey
		speed func(Turning) float64
		want  []float64
	}{
		{"no road", survey.Survey{RPM: 1700}, func(t Turning) float64 { return t.RPM },
			[]float64{500, 1000, 1500, 1700, 2000, 2500, 3000, 3500, 4000}},
		{"own speed is one of them", survey.Survey{RPM: 1500}, func(t Turning) float64 { return t.RPM },
			[]float64{500, 1000, 1500, 2000, 2500, 3000, 3500, 4000}},
		{"kilometres", survey.Survey{Road: road(survey.Road{SpeedKMH: 90})}, func(t Turning) float64 { return t.KMH },
			[]float64{20, 40, 60, 80, 90, 100, 120, 140}},
		{"miles", survey.Survey{Road: road(survey.Road{SpeedMPH: 55})}, func(t Turning) float64 { return t.MPH },
			[]float64{10, 20, 30, 40, 50, 55, 60, 70, 80}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			list := Turnings(&test.s)
			if len(list) != len(test.want) {
				t.Fatalf("%d speeds, want %v", len(list), test.want)
			}
			for i, turning := range list {
				if got := test.speed(turning); !near(got, test.want[i], 1e-9) {
					t.Errorf("speed %d is %v, want %v", i, got, test.want[i])
				}
				if turning.SecondOrderHz != 2*turning.ShaftHz {
					t.Errorf("second order %v Hz at %v Hz, want twice as much", turning.SecondOrderHz, turning.ShaftHz)
				}
			}
		})
	}
}
