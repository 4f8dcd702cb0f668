package adjust

import (
	"cmp"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// random returns a two-piece driveline with three changes.
func random(src *rand.Rand) *survey.Survey {
	s := twoPiece()
	s.ReadingErrorDeg, s.PhaseErrorDeg = 0, 0
	for k := range s.Shafts {
		s.Shafts[k].DownDeg = survey.Readings{3 + 3*src.Float64()}
		s.Shafts[k].RightDeg = survey.Readings{2*src.Float64() - 1}
	}
	s.Adjust = []survey.Change{
		{Change: survey.ChangeWedge, On: "axle pinion", From: -3, To: 3, Step: 1},
		{Change: survey.ChangeBearingHeight, On: "centre joint", From: -6, To: 12, Step: 3},
		{Change: survey.ChangeMount, On: "gearbox output", From: 0, To: 12, Step: 6},
	}
	return s
}

// trial is one combination, judged in full.
type trial struct {
	values  []float64 // of the changes; 0: not made
	parts   int
	change  float64
	outcome limits.Outcome
	margin  float64
}

// everything judges every combination of the changes of s by way of the
// corrected survey.
func everything(t *testing.T, s *survey.Survey) []trial {
	t.Helper()
	all := []trial{{}}
	for _, c := range s.Adjust {
		var longer []trial
		for _, have := range all {
			for value := c.From; value <= c.To; value += c.Step { // exact in binary
				with := have
				with.values = append(slices.Clone(have.values), value)
				if value != 0 {
					with.parts++
					with.change += math.Abs(value) / max(-c.From, c.To)
				}
				longer = append(longer, with)
			}
		}
		all = longer
	}
	for i := range all {
		made := make(map[survey.Change]float64)
		for k, value := range all[i].values {
			made[s.Adjust[k]] = value
		}
		j, err := limits.Judge(corrected(s, settingsOf(t, s, made)))
		if err != nil {
			t.Fatal(err)
		}
		all[i].outcome, all[i].margin = j.Outcome, math.Inf(1)
		for _, v := range j.Verdicts {
			all[i].margin = min(all[i].margin, v.Margin())
		}
	}
	return all
}

// madeBy returns the values of the plan's changes, 0 for those it does not make.
func madeBy(p *Plan, changes []survey.Change) []float64 {
	values := make([]float64, len(changes))
	for _, step := range p.Steps {
		values[slices.IndexFunc(changes, func(c survey.Change) bool { return c.Change == step.Change && c.On == step.On })] = step.Value
	}
	return values
}

// TestSearchAgainstBruteForce ranks every combination of random drivelines,
// measured without error, by the letter.
func TestSearchAgainstBruteForce(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(1, 1))
	corrected, hopeless := 0, 0
	for range 25 {
		s := random(src)
		best := slices.MinFunc(everything(t, s), func(a, b trial) int {
			within := func(c trial) bool { return c.outcome == limits.Within }
			effort := cmp.Or(cmp.Compare(a.parts, b.parts), compareNearly(a.change, b.change))
			switch {
			case within(a) && within(b):
				return cmp.Or(effort, cmp.Compare(b.margin, a.margin))
			case within(a):
				return -1
			case within(b):
				return 1
			default:
				return cmp.Or(cmp.Compare(math.Round(100*b.margin), math.Round(100*a.margin)), effort)
			}
		})
		r := search(t, s, Options{})
		switch {
		case best.parts == 0:
			if !r.Fine && len(r.Plans) > 0 {
				t.Errorf("got the plan %+v, want none: nothing is better than as measured", r.Plans[0].Steps)
			}
			continue
		case best.outcome == limits.Within:
			corrected++
		default:
			hopeless++
		}
		if len(r.Plans) == 0 {
			t.Errorf("got no plan, want %v", best.values)
			continue
		}
		if got := madeBy(&r.Plans[0], s.Adjust); !slices.Equal(got, best.values) || r.Plans[0].Outcome != best.outcome {
			t.Errorf("got %v %s with a margin of %v, want %v %s with %v",
				got, r.Plans[0].Outcome, r.Plans[0].Tightest.Margin, best.values, best.outcome, best.margin)
		}
	}
	if corrected < 4 || hopeless < 4 {
		t.Errorf("%d cases that can be corrected and %d that cannot: want 4 of each to show anything", corrected, hopeless)
	}
}

// compareNearly takes sums of the same parts in another order for equal.
func compareNearly(a, b float64) int {
	if math.Abs(a-b) < 1e-9 {
		return 0
	}
	return cmp.Compare(a, b)
}

// TestSearchUnderUncertainty holds that nothing which touches fewer parts, or as
// many with less change, is within by the full verdict.
func TestSearchUnderUncertainty(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(3, 3))
	corrected := 0
	for range 4 {
		s := random(src)
		s.ReadingErrorDeg = 0.1
		s.Adjust[0].From, s.Adjust[0].To, s.Adjust[0].Step = -1.5, 1.5, 0.5
		s.Adjust[1].From, s.Adjust[1].To = 0, 9
		s.Adjust[2].To, s.Adjust[2].Step = 3, 3
		r := search(t, s, Options{})
		if r.Fine || len(r.Plans) == 0 || r.Plans[0].Outcome != limits.Within {
			continue
		}
		corrected++
		best := &r.Plans[0]
		change := 0.0
		for k, value := range madeBy(best, s.Adjust) {
			change += math.Abs(value) / max(-s.Adjust[k].From, s.Adjust[k].To)
		}
		for _, c := range everything(t, s) {
			if c.outcome == limits.Within && (c.parts < len(best.Steps) || c.parts == len(best.Steps) && c.change < change-1e-9) {
				t.Errorf("got %v, want %v or less", best.Steps, c.values)
			}
		}
	}
	if corrected < 2 {
		t.Errorf("%d cases can be corrected: want 2 to show anything", corrected)
	}
}

// TestNothingLeftOutWins releases the clocking beside every wedge, also those
// that the search leaves out by their bends alone.
func TestNothingLeftOutWins(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(7, 7))
	leftOut := 0
	for range 20 {
		s := random(src)
		s.Adjust = []survey.Change{
			{Change: survey.ChangeWedge, On: "axle pinion", From: -3, To: 3, Step: 0.0625},
			{Change: survey.ChangeClocking, On: "rear shaft", From: -90, To: 90},
		}
		s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitCompanionDifference: 0.5, survey.LimitEquivalentAngle: 0.2})
		q := &quest{survey: s, stands: []*stand{standOf(t, s)}, workers: 1, progress: func(int64) {}}
		g := groups(changesOf(t, s), 2)[0]
		got, err := q.explore(t.Context(), []*group{g})
		if err != nil {
			t.Fatal(err)
		}
		b, err := newBench(q.stands)
		if err != nil {
			t.Fatal(err)
		}
		var want frontier
		for i := range g.combinations() {
			settings := g.combination(nil, i)
			if want.excludes(extent(settings), b.try(settings).bends) {
				leftOut++
			}
			r := b.release(settings, g.free)
			if !slices.ContainsFunc(settings, setting.untouched) {
				want.insert(candidate{settings, i, extent(settings), r})
			}
		}
		if !reflect.DeepEqual(got[0], want) {
			t.Errorf("got %d candidates, want %d: %v, %v", len(got[0]), len(want), got[0], want)
		}
	}
	if leftOut < 20 {
		t.Errorf("%d combinations left out, want 20 to show anything", leftOut)
	}
}
