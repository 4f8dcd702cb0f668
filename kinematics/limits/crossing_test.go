package limits

import (
	"testing"

	"halfturn/kinematics/survey"
)

// A little slower than at the crossing a limit is kept, a little faster broken.
func TestCrossingsAreWhereLimitsBreak(t *testing.T) {
	t.Parallel()
	for _, set := range survey.SetNames {
		t.Run(set, func(t *testing.T) {
			t.Parallel()
			s := driveline(t, threeJoints)
			s.Limits.Set, s.ReadingErrorDeg, s.PhaseErrorDeg = set, 0, 0
			s.Limits.Values = map[string]float64{survey.LimitCompanionDifference: 3}
			list, err := Crossings(s)
			if err != nil {
				t.Fatal(err)
			}
			if len(list) < 5 {
				t.Fatalf("%d crossings, want those of all accelerations and angles", len(list))
			}
			for i, c := range list {
				if i > 0 && c.RPM < list[i-1].RPM {
					t.Errorf("crossing at %v rpm after one at %v", c.RPM, list[i-1].RPM)
				}
				for _, side := range []struct {
					factor float64
					kept   bool
				}{{0.9999, true}, {1.0001, false}} {
					s.RPM = c.RPM * side.factor
					if v, ok := find(judge(t, s).Verdicts, c); ok && (v.Outcome == Within) != side.kept {
						t.Errorf("%s at %s reaches its limit at %v rpm; at %v rpm it is %s", c.Quantity, c.Subject, c.RPM, s.RPM, v.Outcome)
					}
				}
			}
		})
	}
}

// find returns the verdict that a crossing is about. A working angle has two.
func find(verdicts []Verdict, c Crossing) (Verdict, bool) {
	for _, v := range verdicts {
		if v.Subject == c.Subject && v.Quantity == c.Quantity && v.Sense == AtMost && v.LimitName != survey.LimitOddJointMax {
			return v, true
		}
	}
	return Verdict{}, false
}

func TestCrossings(t *testing.T) {
	t.Parallel()
	road := &survey.Road{RollingRadius: 300, FinalDrive: 4}
	for _, test := range []struct {
		name   string
		rpm    float64
		slopes []float64
		limits survey.Limits
		want   []float64 // rpm
	}{
		// ω²·β² is 300 rad/s² at 992.4 rpm behind 9.55 deg, to first order.
		{"acceleration, no speed given", 0, []float64{0, 9.55}, alone(survey.LimitResidualAccel, 300), []float64{992.4}},
		{"acceleration, from another speed", 2000, []float64{0, 9.55}, alone(survey.LimitResidualAccel, 300), []float64{992.4}},
		{"speed times angle", 0, []float64{0, 5}, alone(survey.LimitSpeedAngle, 17000), []float64{3400}},
		{"nothing left", 0, []float64{3, 9, 3}, alone(survey.LimitResidualAccel, 300), nil},
		{"straight", 0, []float64{3, 3}, alone(survey.LimitSpeedAngle, 17000), nil},
		{"no limit depends on speed", 0, []float64{0, 5}, alone(survey.LimitWorkingAngleMax, 3), nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := inPlane(test.slopes...)
			s.RPM, s.Limits, s.Road = test.rpm, test.limits, road
			list, err := Crossings(s)
			if err != nil {
				t.Fatal(err)
			}
			if len(list) != len(test.want) {
				t.Fatalf("%+v, want crossings at %v", list, test.want)
			}
			for i, c := range list {
				// The exact peak differs from the first-order one by some β²/2, 1.4 %.
				if !near(c.RPM, test.want[i], 0.01*test.want[i]) {
					t.Errorf("crossing at %v rpm, want %v", c.RPM, test.want[i])
				}
				if want := s.Gearing().KMH(c.RPM); c.KMH != want || c.KMH <= 0 {
					t.Errorf("crossing at %v km/h, want %v", c.KMH, want)
				}
			}
		})
	}
}
