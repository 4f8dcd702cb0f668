package adjust

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// random returns a two-piece driveline, measured without error, with three changes.
func random(src *rand.Rand) *survey.Survey {
	s := twoPiece()
	s.ReadingErrorDeg, s.PhaseErrorDeg = 0, 0
	for k := range s.Shafts {
		s.Shafts[k].Slope = survey.Down(3 + 3*src.Float64())
		s.Shafts[k].Heading = survey.Right(2*src.Float64() - 1)
	}
	s.Adjust = []survey.Change{
		{Change: survey.ChangeWedge, On: "axle pinion", From: -3, To: 3, Step: 1},
		{Change: survey.ChangeBearingHeight, On: "centre joint", From: -6, To: 12, Step: 3},
		{Change: survey.ChangeMount, On: "gearbox output", From: 0, To: 12, Step: 6},
	}
	return s
}

// trial is one combination, measured by way of the corrected survey.
type trial struct {
	values       []float64 // of the changes; 0: not made
	parts        int
	change, nose float64
	margins      []float64 // of what is judged
	nothing      []float64 // how much less margin is nothing: 2 % or 0.02°
	left, accel  float64   // in deg, and in parts of its limit
	swing        float64   // at the centre bearing, N for each 100 N·m
	mirrored     bool
	broken       [4]int // angles, left, match, straight
}

func measured(t *testing.T, g *limits.Gauge, s *survey.Survey) (c trial) {
	t.Helper()
	d, err := s.Driveline()
	if err != nil {
		t.Fatal(err)
	}
	for k, v := range g.Measure(d, nil) {
		limit := g.Judged[k].Limit
		c.margins = append(c.margins, limit.Margin(v))
		nothing := 0.02
		if limit.Unit == "deg" {
			nothing = max(nothing, 0.02/limit.Value)
		}
		c.nothing = append(c.nothing, nothing)
		if limit.Name == survey.LimitResidualAccel {
			c.accel = v / limit.Value
		}
		if limit.Margin(v) < -1e-6 { // the corrected survey is rounded
			switch limit.Name {
			case survey.LimitWorkingAngleMax, survey.LimitSpeedAngle:
				c.broken[0]++
			case survey.LimitCompanionDifference, survey.LimitOddJointMax:
				c.broken[2]++
			case survey.LimitWorkingAngleMin:
				c.broken[3]++
			default:
				c.broken[1]++
			}
		}
	}
	c.left = math.Round(100*d.SecondOrder().Exact/kinematics.Degree) / 100
	supports, _ := s.Supports()
	forces, err := d.Forces(100, supports)
	if err != nil {
		t.Fatal(err)
	}
	c.swing = math.Round(10*forces.Bearings[0].Force.Swing()) / 10
	u := s.Axes()
	first, second := r3.Sub(r3.Unit(u[2]), r3.Unit(u[1])), r3.Sub(r3.Unit(u[3]), r3.Unit(u[2]))
	c.mirrored = r3.Dot(first, second) > 0
	return c
}

// everything measures every combination of the changes of s, the present state
// first.
func everything(t *testing.T, s *survey.Survey) []trial {
	t.Helper()
	g, err := limits.NewGauge(s)
	if err != nil {
		t.Fatal(err)
	}
	all := []trial{{}}
	for _, c := range s.Adjust {
		var longer []trial
		for _, have := range all {
			for value := c.From; value <= c.To; value += c.Step { // exact in binary
				with := have
				with.values = append(slices.Clone(have.values), value)
				longer = append(longer, with)
			}
		}
		all = longer
	}
	for i := range all {
		made, values := make(map[survey.Change]float64), all[i].values
		parts, change := 0, 0.0
		for k, value := range values {
			if value != 0 {
				made[s.Adjust[k]] = value
				parts++
				change += math.Abs(value) / map[string]float64{"wedge": 4, "bearing-height": 30, "mount": 30}[s.Adjust[k].Change]
			}
		}
		all[i] = measured(t, g, corrected(s, settingsOf(t, s, made)))
		all[i].values, all[i].parts, all[i].change, all[i].nose = values, parts, change, values[0]
	}
	now := slices.IndexFunc(all, func(c trial) bool { return c.parts == 0 })
	all[0], all[now] = all[now], all[0]
	return all
}

// least keeps those for which the value is least, but for a tolerance.
func least(some []trial, value func(trial) float64, about func(least float64) float64) []trial {
	best := math.Inf(1)
	for _, c := range some {
		best = min(best, value(c))
	}
	return slices.DeleteFunc(slices.Clone(some), func(c trial) bool { return value(c) > about(best)+1e-9 })
}

func exactly(v float64) float64 { return v }

// bestOf ranks every combination by the letter of what is asked; nil: leave it.
func bestOf(all []trial) *trial {
	now := all[0]
	some := slices.DeleteFunc(slices.Clone(all), func(c trial) bool {
		for k, m := range c.margins {
			if m < -1e-6 && (now.margins[k] >= 0 || m < now.margins[k]-c.nothing[k]) {
				return true
			}
		}
		return c.parts == 0 || !ofUse(c, now)
	})
	for rank := range now.broken {
		some = least(some, func(c trial) float64 { return float64(c.broken[rank]) }, exactly)
	}
	var best *trial
	for parts := 1; parts <= 3; parts++ {
		same := slices.DeleteFunc(slices.Clone(some), func(c trial) bool { return c.parts != parts })
		if len(same) == 0 {
			continue
		}
		if parallel := slices.DeleteFunc(slices.Clone(same), func(c trial) bool { return c.mirrored }); len(parallel) > 0 {
			same = parallel
		}
		same = least(same, func(c trial) float64 { return c.left }, func(v float64) float64 {
			if some[0].broken[1]+some[0].broken[2] > 0 {
				return v
			}
			return max(1.1*v, v+0.1)
		})
		same = least(same, func(c trial) float64 { return c.swing }, func(v float64) float64 { return max(1.1*v, v+0.2) })
		same = least(same, func(c trial) float64 { return c.change }, exactly)
		same = least(same, func(c trial) float64 { return c.nose }, exactly)
		c := least(same, func(c trial) float64 { return c.left }, exactly)[0]
		if best == nil || best.accel > 0.25 && c.left <= best.left*math.Pow(0.5, float64(parts-best.parts)) {
			best = &c
		}
	}
	return best
}

// ofUse reports whether a trial that makes nothing worse mends a limit or leaves so
// much less that it is worth its parts.
func ofUse(c, now trial) bool {
	switch halved := now.left * math.Pow(0.5, float64(c.parts)); {
	case c.broken != now.broken:
		return true
	case now.accel <= 0.25:
		return false
	case now.broken[1]+now.broken[2] == 0:
		return c.left <= halved
	default:
		return max(1.1*c.left, c.left+0.1) < now.left && c.left <= 2*halved
	}
}

// TestSearchAgainstBruteForce ranks every combination of random drivelines by the
// letter of the objective.
func TestSearchAgainstBruteForce(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(1, 1))
	var none, several, mended, mirrored int
	for n := range 50 {
		s := random(src)
		switch {
		case n%2 == 0:
			s.Limits.Values = map[string]float64{survey.LimitOddJointMax: 0.4 + src.Float64()}
		case n%5 == 0: // the pinion steeper than the shaft before it
			s.Shafts[3].Slope.Deg[0] = s.Shafts[2].Slope.Deg[0] + 2*src.Float64()
		}
		best := bestOf(everything(t, s))
		r := search(t, s, Options{})
		if r.Fine {
			continue
		}
		if best == nil {
			none++
			if len(r.Plans) > 0 {
				t.Errorf("case %d: got the plan %+v, want none", n, r.Plans[0].Steps)
			}
			continue
		}
		if len(r.Plans) == 0 {
			t.Errorf("case %d: got no plan, want %v", n, best.values)
			continue
		}
		if best.parts > 1 {
			several++
		}
		if best.broken == [4]int{} {
			mended++
		}
		if best.mirrored {
			mirrored++
		}
		p := &r.Plans[0]
		if got := madeBy(p, s.Adjust); !slices.Equal(got, best.values) || p.Mirrored != best.mirrored {
			t.Errorf("case %d: got %v, leaving %.3f deg, want %v, leaving %.3f deg and %v broken", n, got, p.After[0].ExactEquivalentDeg, best.values, best.left, best.broken)
		}
	}
	if min(none, several, mended, mirrored) < 4 {
		t.Errorf("%d without a plan, %d of several parts, %d that mend all, %d mirrored: want 4 of each to show anything", none, several, mended, mirrored)
	}
}

// madeBy returns the values of the plan's changes, 0 for those it does not make.
func madeBy(p *Plan, changes []survey.Change) []float64 {
	values := make([]float64, len(changes))
	for _, step := range p.Steps {
		values[slices.IndexFunc(changes, func(c survey.Change) bool { return c.Change == step.Change && c.On == step.On })] = step.Value
	}
	return values
}
