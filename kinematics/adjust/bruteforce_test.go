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

// trial is one combination, judged in full.
type trial struct {
	values    []float64 // of the changes; 0: not made
	parts     int
	change    float64
	judgement *limits.Judgement
}

// rest returns the worst outcome and the least margin of the verdicts that are not
// set aside, and how far the others are beyond their limits.
func (c trial) rest(aside []bool) (outcome limits.Outcome, margin, excess float64) {
	outcome, margin = limits.Within, math.Inf(1)
	for k, v := range c.judgement.Verdicts {
		switch {
		case aside[k]:
			excess += max(0, -v.Margin())
			continue
		case v.Outcome != limits.Within:
			outcome = v.Outcome
		}
		margin = min(margin, v.Margin())
	}
	return outcome, margin, excess
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
		all[i].judgement = j
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

// bestOf ranks the trials by the verdicts that are not set aside; nil: none is
// better than the driveline as measured.
func bestOf(all []trial, aside []bool) *trial {
	best := slices.MinFunc(all, func(a, b trial) int {
		outcomeA, marginA, excessA := a.rest(aside)
		outcomeB, marginB, excessB := b.rest(aside)
		effort := cmp.Or(cmp.Compare(a.parts, b.parts), compareNearly(a.change, b.change))
		lessExcess := cmp.Compare(math.Round(100*excessA), math.Round(100*excessB))
		switch {
		case outcomeA == limits.Within && outcomeB == limits.Within:
			return cmp.Or(effort, cmp.Compare(marginB, marginA), lessExcess)
		case outcomeA == limits.Within:
			return -1
		case outcomeB == limits.Within:
			return 1
		default:
			return cmp.Or(cmp.Compare(math.Round(100*marginB), math.Round(100*marginA)), effort, lessExcess)
		}
	})
	if best.parts == 0 {
		return nil
	}
	return &best
}

// bestAfterAll is bestOf with as little set aside as need be.
func bestAfterAll(all []trial) (best *trial, aside []bool) {
	present := all[slices.IndexFunc(all, func(c trial) bool { return c.parts == 0 })]
	verdicts := present.judgement.Verdicts
	none, hopeless, untouched := make([]bool, len(verdicts)), make([]bool, len(verdicts)), make([]bool, len(verdicts))
	for k, v := range verdicts {
		most := math.Inf(-1)
		for _, c := range all {
			most = max(most, c.judgement.Verdicts[k].Margin())
		}
		hopeless[k] = most < 0
		untouched[k] = hopeless[k] && most < v.Margin()+0.01
	}
	for _, aside := range [][]bool{hopeless, untouched, none} {
		if outcome, _, _ := present.rest(aside); outcome != limits.Within {
			if best := bestOf(all, aside); best != nil {
				return best, aside
			}
		}
	}
	return nil, hopeless
}

// TestSearchAgainstBruteForce ranks every combination of random drivelines,
// measured without error, by the letter.
func TestSearchAgainstBruteForce(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(1, 1))
	corrected, restCorrected, nearest := 0, 0, 0
	for n := range 40 {
		s := random(src)
		if n%2 == 0 { // too tight for a mount or a bearing to help much
			s.Limits.Values = map[string]float64{survey.LimitOddJointMax: 0.1 + 0.4*src.Float64()}
		}
		best, aside := bestAfterAll(everything(t, s))
		r := search(t, s, Options{})
		if want := slices.Contains(aside, true); want != (len(r.SetAside) > 0) {
			t.Errorf("set aside: got %v, want %v", r.SetAside, aside)
		}
		if best == nil {
			if len(r.Plans) > 0 {
				t.Errorf("got the plan %+v, want none: nothing is better than as measured", r.Plans[0].Steps)
			}
			continue
		}
		outcome, margin, _ := best.rest(aside)
		switch {
		case best.judgement.Outcome == limits.Within:
			corrected++
		case outcome == limits.Within:
			restCorrected++
		default:
			nearest++
		}
		if len(r.Plans) == 0 {
			t.Errorf("got no plan, want %v", best.values)
			continue
		}
		p := &r.Plans[0]
		if got := madeBy(p, s.Adjust); !slices.Equal(got, best.values) || p.Outcome != best.judgement.Outcome || (p.Rest == limits.Within) != (outcome == limits.Within) {
			t.Errorf("got %v %s, the rest %s with a margin of %v, want %v %s, the rest %s with %v",
				got, p.Outcome, p.Rest, p.Tightest.Margin, best.values, best.judgement.Outcome, outcome, margin)
		}
	}
	if min(corrected, restCorrected, nearest) < 4 {
		t.Errorf("%d cases that can be corrected, %d but for what is set aside and %d that cannot: want 4 of each to show anything",
			corrected, restCorrected, nearest)
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
			if c.judgement.Outcome == limits.Within && (c.parts < len(best.Steps) || c.parts == len(best.Steps) && c.change < change-1e-9) {
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
