package limits

import (
	"math"
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
			s.Limits.Values = map[string]float64{survey.LimitCompanionDifference: 2}
			list, err := Crossings(s)
			if err != nil {
				t.Fatal(err)
			}
			if len(list) < 8 {
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
		if v.Subject == c.Subject && v.Quantity == c.Quantity && v.Sense == AtMost {
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

func TestAngleFigure(t *testing.T) {
	t.Parallel()
	s := driveline(t, threeJoints)
	s.Limits.Set = survey.SetMachinery
	f, err := NewAngleFigure(s, 6000)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Joints) != 3 || f.RPM != 2800 {
		t.Fatalf("%d joints at %v rpm, want 3 at 2800", len(f.Joints), f.RPM)
	}
	for _, joint := range f.Joints {
		if !(joint.Low < joint.Value && joint.Value < joint.High) {
			t.Errorf("%+v, want the value between the ends", joint)
		}
	}
	set, err := Of(s)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Allowed.RPM) != figurePoints || len(f.Printed) != 3 {
		t.Fatalf("%d points and %d printed limits, want %d and 3", len(f.Allowed.RPM), len(f.Printed), figurePoints)
	}
	for i, rpm := range f.Allowed.RPM {
		want, _ := set.limit(survey.LimitWorkingAngleMax, rpm)
		if f.Allowed.Value[i] != want.Value {
			t.Errorf("allowed %v deg at %v rpm, want %v", f.Allowed.Value[i], rpm, want.Value)
		}
	}
	for _, c := range f.Printed {
		for i, rpm := range c.RPM {
			if allowed, _ := set.limit(survey.LimitWorkingAngleMax, rpm); c.Value[i] < allowed.Value {
				t.Errorf("%s prints %v deg at %v rpm, less than the %v allowed", c.Basis, c.Value[i], rpm, allowed.Value)
			}
		}
	}
}

func TestFiguresRefuseATopSpeed(t *testing.T) {
	t.Parallel()
	s := driveline(t, threeJoints)
	for _, top := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if f, err := NewAngleFigure(s, top); err == nil {
			t.Errorf("angles up to %v rpm: got %v, want an error", top, f)
		}
		if f, err := NewResidualFigure(s, top); err == nil {
			t.Errorf("residual up to %v rpm: got %v, want an error", top, f)
		}
	}
}

func TestAngleFigureWithoutLimit(t *testing.T) {
	t.Parallel()
	s := driveline(t, threeJoints)
	s.Limits.Off = []string{survey.LimitWorkingAngleMax}
	f, err := NewAngleFigure(s, 6000)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Allowed.RPM) != 0 || len(f.Joints) != 3 {
		t.Errorf("%d allowed angles and %d joints, want none and 3", len(f.Allowed.RPM), len(f.Joints))
	}
}

func TestResidualFigure(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		rpm   float64
		limit survey.Limits
	}{
		{"at a speed", 2800, survey.Limits{}},
		{"no speed", 0, survey.Limits{}},
		{"no limit", 2800, survey.Limits{Off: []string{survey.LimitResidualAccel}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := driveline(t, threeJoints)
			s.RPM, s.Limits = test.rpm, test.limit
			f, err := NewResidualFigure(s, 6000)
			if err != nil {
				t.Fatal(err)
			}
			last := len(f.Accel.RPM) - 1
			for i, rpm := range f.Accel.RPM {
				growth := (rpm / 6000) * (rpm / 6000)
				if !near(f.Accel.Value[i], growth*f.Accel.Value[last], 1e-9) {
					t.Errorf("%v rad/s² at %v rpm, want %v", f.Accel.Value[i], rpm, growth*f.Accel.Value[last])
				}
				if f.Low.Value[i] > f.Accel.Value[i] || f.Accel.Value[i] > f.High.Value[i] {
					t.Errorf("%v rad/s² at %v rpm is outside its interval", f.Accel.Value[i], rpm)
				}
			}
			s.RPM = 6000
			s.Limits = alone(survey.LimitResidualAccel, 300)
			v := judge(t, s).Verdicts[0]
			if !near(f.Accel.Value[last], v.Value, 1e-9*v.Value) || !near(f.High.Value[last], v.High, 1e-9*v.High) {
				t.Errorf("%v up to %v rad/s² at 6000 rpm, want %v up to %v", f.Accel.Value[last], f.High.Value[last], v.Value, v.High)
			}
			if given := f.Now.Subject != ""; given != (test.rpm > 0) {
				t.Errorf("now is %+v at %v rpm", f.Now, test.rpm)
			}
			if crosses := f.CrossingRPM > 0; crosses != (test.limit.Off == nil) {
				t.Errorf("crossing at %v rpm with the limit %v", f.CrossingRPM, f.Limit.Value)
			}
		})
	}
}
