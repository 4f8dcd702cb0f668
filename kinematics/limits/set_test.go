package limits

import (
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

func TestSetsAreComplete(t *testing.T) {
	t.Parallel()
	var names []string
	for _, set := range Sets {
		names = append(names, set.Name)
		if set.For == "" {
			t.Errorf("%s: nothing says what it is for", set.Name)
		}
		for _, c := range set.choices {
			if c.bound == nil || c.source == "" || !slices.Contains(survey.LimitNames, c.name) {
				t.Errorf("%s: a choice without a limit: %+v", set.Name, c)
			}
			if c.why == "" {
				t.Errorf("%s: nothing says why %s has its value", set.Name, c.name)
			}
		}
	}
	if !slices.Equal(names, survey.SetNames) {
		t.Errorf("sets %q, want %q", names, survey.SetNames)
	}
	for _, name := range survey.LimitNames {
		if _, ok := kinds[name]; !ok {
			t.Errorf("nothing says what %s is about", name)
		}
	}
}

func TestSetLimits(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name   string
		limits survey.Limits
		rpm    float64
		limit  string
		want   float64 // 0: no such limit
		basis  string
	}{
		{"the first set is used where none is named", survey.Limits{}, 2000,
			survey.LimitCompanionDifference, 0.5, NoSource},
		{"named set", survey.Limits{Set: survey.SetMachinery}, 2000,
			survey.LimitCompanionDifference, 1.5, gwb38},
		{"a table holds where it is tighter", survey.Limits{Set: survey.SetMachinery}, 3000,
			survey.LimitWorkingAngleMax, 5, navy},
		{"an acceleration holds where it is tighter", survey.Limits{Set: survey.SetMachinery}, 600,
			survey.LimitWorkingAngleMax, 11.5, chelsea},
		{"a table says nothing beyond its end", survey.Limits{Set: survey.SetMachinery}, 3501,
			survey.LimitWorkingAngleMax, 4.94, chelsea}, // √1000/(3501·π/30) to first order
		{"no speed, what holds at every speed", survey.Limits{Set: survey.SetMachinery}, 0,
			survey.LimitWorkingAngleMax, 11.5, chelsea},
		{"no speed, no acceleration", survey.Limits{}, 0,
			survey.LimitResidualAccel, 0, ""},
		{"the file overrides", survey.Limits{Values: map[string]float64{survey.LimitWorkingAngleMax: 7}}, 6000,
			survey.LimitWorkingAngleMax, 7, SetByFile},
		{"the file adds what the set has not", survey.Limits{Values: map[string]float64{survey.LimitNonuniformity: 0.01}}, 0,
			survey.LimitNonuniformity, 0.01, SetByFile},
		{"the file switches off", survey.Limits{Off: []string{survey.LimitOddJointMax}}, 2000,
			survey.LimitOddJointMax, 0, ""},
		{"without a source it says so", survey.Limits{}, 2000,
			survey.LimitInertiaCoastAccel, 1000, NoSource},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			set, err := Of(&survey.Survey{Limits: test.limits})
			if err != nil {
				t.Fatal(err)
			}
			var got Limit
			for _, l := range set.Limits(test.rpm) {
				if l.Name == test.limit {
					got = l
				}
			}
			// One case is given by the small-angle formula, to three digits.
			if !near(got.Value, test.want, 0.006*test.want) || !strings.HasPrefix(got.Basis, test.basis) {
				t.Errorf("%v by %q, want %v by %q", got.Value, got.Basis, test.want, test.basis)
			}
		})
	}
}

func TestUnknownSet(t *testing.T) {
	t.Parallel()
	_, err := setNamed("lenient")
	if err == nil || !strings.Contains(err.Error(), `limits.set: "lenient": want one of`) {
		t.Errorf("error %v, want one that names the field and the sets", err)
	}
}

func TestLimitKept(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		sense Sense
		value float64
		want  bool
	}{
		{"below a most", AtMost, 0.9, true},
		{"on a most", AtMost, 1, true},
		{"on a most but for rounding", AtMost, 4.1 - 3.1 + 4e-16, true},
		{"above a most", AtMost, 1.0001, false},
		{"above a least", AtLeast, 1.1, true},
		{"on a least", AtLeast, 1, true},
		{"on a least but for rounding", AtLeast, 1 - 4e-16, true},
		{"below a least", AtLeast, 0.9999, false},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			l := Limit{Value: 1, Sense: test.sense}
			if got := l.Kept(test.value); got != test.want {
				t.Errorf("%s 1, %v is kept: %v, want %v", test.sense, test.value, got, test.want)
			}
			if margin := l.Margin(test.value); margin < -1e-9 == test.want {
				t.Errorf("%s 1, %v has a margin of %v", test.sense, test.value, margin)
			}
		})
	}
}

// The speed that a bound gives for an angle is where the bound allows just that
// angle.
func TestBoundsAreReached(t *testing.T) {
	t.Parallel()
	chelsea, navy := library["S3-07"].bound, library["S3-08"].bound
	for _, test := range []struct {
		name  string
		bound bound
		angle float64
		want  float64 // rpm; 0: at every speed
	}{
		// √(1000 rad/s²/β²) in rpm; the exact peak is within 0.1 % of ω²β² here.
		{"acceleration", chelsea, 5, 3460.3},
		{"beyond the cap", chelsea, 11.6, 0},
		{"on a row", navy, 7, 2500},
		{"between two rows", navy, 7.5, 2000},
		{"beyond the first row", navy, 12.5, 0},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			got, ok := test.bound.reached(test.angle)
			if !ok || !near(got, test.want, 0.003*test.want) {
				t.Fatalf("%v deg is reached at %v rpm (%v), want %v", test.angle, got, ok, test.want)
			}
			if test.want == 0 {
				return
			}
			if v, ok := test.bound.at(got * 0.9999); !ok || v < test.angle {
				t.Errorf("a little slower %v deg is allowed, want at least %v", v, test.angle)
			}
			if v, ok := test.bound.at(got * 1.0001); !ok || v >= test.angle {
				t.Errorf("a little faster %v deg is allowed, want less than %v", v, test.angle)
			}
		})
	}
	if _, ok := navy.reached(4); ok {
		t.Error("the table forbids 4 deg at some speed, want at none that it prints")
	}
	if _, ok := chelsea.reached(0); ok {
		t.Error("a straight joint reaches an acceleration, want at no speed")
	}
	if rpm, ok := fixed(3).reached(4); !ok || rpm != 0 {
		t.Errorf("a fixed 3 deg forbids 4 deg above %v rpm (%v), want at every speed", rpm, ok)
	}
	if _, ok := fixed(3).reached(3); ok {
		t.Error("a fixed 3 deg forbids as much at some speed, want at none")
	}
}
