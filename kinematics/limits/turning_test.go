package limits

import (
	"testing"

	"halfturn/kinematics/survey"
)

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
		{"faster than shafts turn", survey.Survey{Road: &survey.Road{RollingRadius: 10, FinalDrive: 10}}, func(t Turning) float64 { return t.KMH },
			[]float64{20}},
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
