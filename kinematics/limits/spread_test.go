package limits

import (
	"errors"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// spreads propagates the errors of a driveline.
func spreads(t testing.TB, s *survey.Survey) ([]Judged, []spread) {
	t.Helper()
	g, err := NewGauge(s)
	if err != nil {
		t.Fatal(err)
	}
	trial, err := newTrial(s.Complete(), g.Roles)
	if err != nil {
		t.Fatal(err)
	}
	list, err := trial.propagate(t.Context(), g)
	if err != nil {
		t.Fatal(err)
	}
	return g.Judged, list
}

// JCGM 101:2008, 9.2.3 (from memory): the sum of four rectangular inputs of
// standard uncertainty 1 lies within ±3.88 with 95 % coverage, narrower than the
// ±3.92 of the linearised method. Four slopes make such a sum: the difference of
// the first and the last of three working angles in a plane, whose joint between
// is a constant-velocity one and so adds no quarter turn.
func TestSumOfFourRectangles(t *testing.T) {
	t.Parallel()
	const u = 0.1
	s := driveline(t, `{"shafts": [{"down": 0}, {"down": 10, "phase": 0}, {"down": 0, "phase": 0}, {"down": 20}],
		"joints": [{}, {"kind": "constant-velocity"}, {}]}`)
	s.ReadingErrorDeg = u * math.Sqrt(3)
	s.Limits = alone(survey.LimitCompanionDifference, 1)
	_, list := spreads(t, s)
	// The lattice places the ends to a few hundredths of u.
	if got := list[0]; !near(got.value, 10, 1e-9) || !near(got.below, 10-3.88*u, 0.06*u) || !near(got.above, 10+3.88*u, 0.06*u) {
		t.Errorf("%v from %v to %v, want 10 from %v to %v", got.value, got.below, got.above, 10-3.88*u, 10+3.88*u)
	}
}

// The lattice is as good as the ends of intervals that are known in closed form, for
// inputs near each other and far apart. For two readings the difference is triangular:
// it exceeds x with the probability (1 − x/2a)²/2.
func TestLatticeOfTwoReadings(t *testing.T) {
	t.Parallel()
	const a = 0.1
	want := 2 * a * (1 - math.Sqrt(2*0.025))
	for _, shafts := range []int{2, 5, 9, 17} {
		s := inPlane(make([]float64, shafts)...)
		for i := range s.Shafts {
			s.Shafts[i].Slope = survey.Down(float64(i%2) * 5)
		}
		s.ReadingErrorDeg = a
		s.Limits = alone(survey.LimitWorkingAngleMax, 9)
		judged, list := spreads(t, s)
		for q, got := range list {
			if !near(got.above-5, want, 0.002) || !near(5-got.below, want, 0.002) || !near(got.low, got.below, 1e-3) {
				t.Errorf("%s of %d: 5 deg −%v +%v, want ±%v", judged[q].Subject, shafts-1, 5-got.below, got.above-5, want)
			}
		}
	}
}

// Where companions match, the interval begins at 0 and ends at what they may differ by
// at most: with both ends read to ±a, by more than x with the probability (1 − x/2a)².
func TestSpreadAtZero(t *testing.T) {
	t.Parallel()
	s := inPlane(3, 9, 3)
	s.ReadingErrorDeg = 0.1
	s.Limits = alone(survey.LimitCompanionDifference, 1)
	_, list := spreads(t, s)
	if got := list[0]; got.low != 0 || !near(got.high, 0.2*(1-math.Sqrt(0.025)), 0.003) {
		t.Errorf("from %v to %v, want from 0 to %v", got.low, got.high, 0.2*(1-math.Sqrt(0.025)))
	}
}

// Of a pair with a joint that may be straight as much may be left as the other one alone
// leaves, for the interval and for the verdict.
func TestSpreadBesideAStraightJoint(t *testing.T) {
	t.Parallel()
	s := driveline(t, `{"rpm": 2800, "reading_error_deg": 0.1, "shafts": [{"down": 3, "right": 0}, {"down": 3, "right": 0}, {"down": 5, "right": 0}]}`)
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitCompanionDifference: 1, survey.LimitWorkingAngleMax: 3})
	judged, list := spreads(t, s)
	of := func(limit, subject string) spread {
		return list[slices.IndexFunc(judged, func(j Judged) bool { return j.Limit.Name == limit && j.Subject == subject })]
	}
	pair, bent := of(survey.LimitCompanionDifference, "joint 1 and joint 2"), of(survey.LimitWorkingAngleMax, "joint 2")
	if !(bent.high > 2) || pair.high != bent.high || pair.above != bent.above {
		t.Errorf("the pair leaves up to %v (%v), want as joint 2 alone up to %v (%v)", pair.high, pair.above, bent.high, bent.above)
	}
}

// Of many measurements of one driveline, about 95 % of the coverage intervals
// hold the true value: of ordinary lines, of matched ones and of such as cancel in
// space. Of a vector the lower end is that of a region, so that the interval may hold
// it more often, never noticeably less.
func TestCoverage(t *testing.T) {
	t.Parallel()
	limited := survey.OnlyLimits(map[string]float64{
		survey.LimitResidualAccel: 300, survey.LimitCompanionDifference: 1, survey.LimitWorkingAngleMax: 3, survey.LimitOddJointMax: 1,
	})
	for _, test := range []struct{ name, text string }{
		{"ordinary", threeJoints},
		{"matched", `{"rpm": 2800, "reading_error_deg": 0.2, "shafts": [{"down": 3}, {"down": 5}, {"down": 3}]}`},
		{"cancelled in space", `{"rpm": 2800, "reading_error_deg": 0.2, "phase_error_deg": 2,
			"shafts": [{"down": 3, "right": 0}, {"down": 6, "right": 2, "phase": 0}, {"down": 3, "right": 0}]}`},
		{"companion straight", `{"rpm": 2800, "reading_error_deg": 0.1, "shafts": [{"down": 3, "right": 0}, {"down": 3, "right": 0}, {"down": 5, "right": 0}]}`},
		{"odd joint straight", `{"rpm": 2800, "reading_error_deg": 0.1, "shafts": [{"down": 3, "right": 0}, {"down": 3, "right": 0}, {"down": 5, "right": 0}, {"down": 3, "right": 0}]}`},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			truth := driveline(t, test.text)
			truth.Limits = limited
			g, d := gauged(t, truth)
			want := g.Measure(d, nil)
			const runs = 150
			held := make([]int, len(want))
			rng := rand.New(rand.NewPCG(1, 1))
			for range runs {
				_, list := spreads(t, misread(truth, rng))
				for q, sp := range list {
					if sp.low <= want[q]*(1+1e-9) && want[q] <= sp.high*(1+1e-9) {
						held[q]++
					}
				}
			}
			// 150 runs scatter by 1.8 %; three times that.
			for q, n := range held {
				if got := float64(n) / runs; got < Coverage-0.054 {
					t.Errorf("%s of %s: %.3f of the intervals hold the true value, want %v or more", g.Judged[q].Limit.Name, g.Judged[q].Subject, got, Coverage)
				}
			}
		})
	}
}

// misread returns the driveline as someone might measure it, each value as often as
// before.
func misread(truth *survey.Survey, rng *rand.Rand) *survey.Survey {
	s := truth.Complete()
	zero := s.GaugeErrorDeg * (2*rng.Float64() - 1)
	off := func(r survey.Readings, halfWidth, zero float64) survey.Readings {
		var read survey.Readings
		for _, v := range r {
			read = append(read, v+zero+halfWidth*(2*rng.Float64()-1))
		}
		return read
	}
	for i := range s.Shafts {
		sh := &s.Shafts[i]
		zero := zero
		if sh.Slope.By == survey.ByTurned {
			zero = 0
		}
		sh.Slope.Deg = off(sh.Slope.Deg, s.ReadingErrorDeg, zero)
		sh.Heading.Values = off(sh.Heading.Values, s.ReadingErrorDeg, 0)
		sh.PhaseDeg = off(sh.PhaseDeg, s.PhaseErrorDeg, 0)
	}
	return s
}

// A driveline whose true value lies on the limit is rarely called within it or
// over it.
func TestOnTheLimitIsTooCloseToCall(t *testing.T) {
	t.Parallel()
	truth := inPlane(0, 4, 1)
	truth.ReadingErrorDeg = 0.2
	truth.Limits = alone(survey.LimitCompanionDifference, 1)
	rng := rand.New(rand.NewPCG(1, 1))
	const runs = 400
	called := make(map[Outcome]int)
	for range runs {
		judged, list := spreads(t, misread(truth, rng))
		called[judged[0].Limit.outcome(list[0])]++
	}
	// 2.5 % each, 10 of 400, with a scatter of 3.
	for _, o := range []Outcome{Within, Over} {
		if called[o] > 20 {
			t.Errorf("%d of %d measurements are called %s, want some 10", called[o], runs, o)
		}
	}
}

// What does not matter changes no verdict: the name of a part, an error of next to
// nothing, a mirror.
func TestVerdictsHangOnWhatMatters(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(5, 5))
	outcomes := func(s *survey.Survey) (list []Outcome) {
		judged, spreads := spreads(t, s)
		for q, j := range judged {
			list = append(list, j.Limit.outcome(spreads[q]))
		}
		return list
	}
	close := 0
	for range 40 {
		s := inPlane(0, 0, 0, 0)
		s.RPM, s.ReadingErrorDeg, s.PhaseErrorDeg = 3000, 0.2, 2
		for i := range s.Shafts {
			s.Shafts[i].Slope = survey.Down(4 * rng.Float64())
			s.Shafts[i].Heading = survey.Right(rng.Float64() - 0.5)
		}
		s.Shafts[2].PhaseDeg = survey.Readings{8 * rng.Float64()}
		want := outcomes(s)
		for _, o := range want {
			if o == TooClose {
				close++
			}
		}
		for _, change := range []struct {
			name string
			make func(*survey.Survey)
		}{
			{"an error of next to nothing", func(s *survey.Survey) { s.GaugeErrorDeg, s.TapeError = 1e-12, 1e-12 }},
			{"other names", func(s *survey.Survey) { s.Shafts[1].Name, s.Joints[0].Name = "a", "z" }},
			{"mirrored left to right", func(s *survey.Survey) {
				for i := range s.Shafts {
					sh := &s.Shafts[i]
					sh.Heading, sh.PhaseDeg = sh.Heading.Shifted(-2*sh.Heading.Mean()), mirrored(sh.PhaseDeg)
				}
			}},
			{"mirrored top to bottom", func(s *survey.Survey) {
				for i := range s.Shafts {
					sh := &s.Shafts[i]
					sh.Slope, sh.PhaseDeg = sh.Slope.Shifted(-2*sh.Slope.Mean()), mirrored(sh.PhaseDeg)
				}
			}},
		} {
			changed := s.Complete()
			change.make(changed)
			if got := outcomes(changed); !slices.Equal(got, want) {
				t.Errorf("%s: %v, want %v", change.name, got, want)
			}
		}
	}
	if close < 40 {
		t.Errorf("%d verdicts too close to call: want 40 to show anything", close)
	}
}

func mirrored(r survey.Readings) survey.Readings {
	var m survey.Readings
	for _, v := range r {
		m = append(m, -v)
	}
	return m
}

func TestDistanceFromAnEllipse(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		point complex128
		a, b  float64
		want  float64
	}{
		{"within", 0.5 + 0.2i, 1, 0.5, 0},
		{"on the long axis", 3, 1, 0.5, 2},
		{"on the short axis", 2i, 1, 0.5, 1.5},
		{"from a circle", 3 + 4i, 2, 2, 3},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			for _, turn := range []complex128{1, -1} {
				if got := fromEllipse(turn*test.point, test.a, test.b); !near(got, test.want, 1e-9) {
					t.Errorf("%v from the ellipse of %v and %v, want %v", got, test.a, test.b, test.want)
				}
				if got := fromEllipse(cmplx.Conj(turn*test.point), test.a, test.b); !near(got, test.want, 1e-9) {
					t.Errorf("mirrored: %v from the ellipse of %v and %v, want %v", got, test.a, test.b, test.want)
				}
			}
		})
	}
	// By walking round it.
	rng := rand.New(rand.NewPCG(1, 1))
	for range 50 {
		a := 0.2 + rng.Float64()
		b := a * rng.Float64()
		point := complex(1.5+rng.Float64(), 2*rng.Float64())
		want := math.Inf(1)
		for i := range 20000 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 20000)
			want = min(want, cmplx.Abs(point-complex(a*cos, b*sin)))
		}
		if got := fromEllipse(point, a, b); !near(got, want, 1e-6) {
			t.Errorf("%v from the ellipse of %v and %v, want %v", got, a, b, want)
		}
	}
}

func TestSelected(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 1))
	for _, n := range []int{1, 2, 7, 100, 2003} {
		values := make([]float64, n)
		for i := range values {
			values[i] = math.Round(50 * rng.Float64()) // with equal ones
		}
		sorted := slices.Sorted(slices.Values(values))
		for _, k := range []int{0, n / 40, n / 2, n - 1} {
			if got := selected(values, k); got != sorted[k] {
				t.Errorf("place %d of %d: %v, want %v", k, n, got, sorted[k])
			}
		}
	}
}

func TestErrorsTooLargeToJudge(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name, text, want string
	}{
		{"slope near the vertical", `{"reading_error_deg": 1, "shafts": [{"down": 60}, {"down": 89.5}]}`,
			"shafts[1].down: 89.5 deg with a standard uncertainty of 0.58 deg: want an angle that its error leaves within 90 deg"},
		{"working angle near 90", `{"reading_error_deg": 5, "shafts": [{"down": -44}, {"down": 44}]}`,
			"within the errors of the measurement: joints[0] working angle"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			_, err := Judge(t.Context(), driveline(t, test.text))
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want %q", err, test.want)
			}
		})
	}
	_, err := Judge(t.Context(), driveline(t, `{"reading_error_deg": 5, "shafts": [{"down": -44}, {"down": 44}]}`))
	if _, ok := errors.AsType[*kinematics.RangeError](err); !ok {
		t.Errorf("error %v, want a RangeError beneath", err)
	}
}
