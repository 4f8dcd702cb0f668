package adjust

import (
	"bytes"
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

func search(t *testing.T, s *survey.Survey, opts Options) *Result {
	t.Helper()
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	r, err := Search(t.Context(), s, opts)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestWrittenPlanIsConfirmed writes the corrected file of every plan, reads it
// back and judges it anew.
func TestWrittenPlanIsConfirmed(t *testing.T) {
	t.Parallel()
	for _, s := range []*survey.Survey{twoPiece(), onePiece(3, 6, 1), positioned()} {
		r := search(t, s, Options{})
		if len(r.Plans) == 0 {
			t.Fatal("got no plans")
		}
		for _, p := range r.Plans {
			var file bytes.Buffer
			if err := p.Survey.Write(&file); err != nil {
				t.Fatal(err)
			}
			read, err := survey.Read("corrected.json", &file)
			if err != nil {
				t.Fatal(err)
			}
			j, err := limits.Judge(read)
			if err != nil {
				t.Fatal(err)
			}
			if j.Outcome != p.Outcome {
				t.Errorf("%s: the file is %s, want %s", p.Kind(), j.Outcome, p.Outcome)
			}
			least := math.Inf(1)
			for _, v := range j.Verdicts {
				least = min(least, v.Margin())
			}
			// Readings rounded to 1e-6° against limits from 0.5° up, some of
			// them on the square of an angle.
			if math.Abs(least-p.Tightest.Margin) > 1e-5 {
				t.Errorf("%s: the file has a margin of %v, want %v", p.Kind(), least, p.Tightest.Margin)
			}
			for _, step := range p.Steps {
				if !strings.Contains(read.Note, step.Instruction) {
					t.Errorf("%s: note %q, want it to tell %q", p.Kind(), read.Note, step.Instruction)
				}
			}
		}
	}
}

// TestCannotBeCorrected says which limit stays broken and what would be needed.
func TestCannotBeCorrected(t *testing.T) {
	t.Parallel()
	s := onePiece(7, 9, 1) // parallel with a wedge of 6°
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitCompanionDifference: 0.4})
	s.Adjust = []survey.Change{{Change: survey.ChangeWedge, On: "axle pinion", From: -4, To: 4, Step: 0.5}}
	r := search(t, s, Options{})
	if len(r.Plans) != 1 {
		t.Fatalf("got %d plans, want 1", len(r.Plans))
	}
	p := r.Plans[0]
	if p.Steps[0].Value != 4 || p.Outcome != limits.Over {
		t.Errorf("got %v deg, %s; want 4 deg, over", p.Steps[0].Value, p.Outcome)
	}
	if len(p.Breaks) != 1 || p.Breaks[0].Name != survey.LimitCompanionDifference || math.Abs(p.Breaks[0].Value-2) > 2e-6 {
		t.Errorf("still broken: got %+v, want a working angle difference of 2 deg", p.Breaks)
	}
	if r.Needed == nil || r.Needed.Steps[0].Value != 6 {
		t.Errorf("needed: got %+v, want a wedge of 6 deg", r.Needed)
	}

	s.Limits.Values[survey.LimitCompanionDifference] = 0.4
	s.Shafts[0].Slope.Deg[0] = 20 // beyond three times 4°
	if r = search(t, s, Options{}); r.Needed != nil {
		t.Errorf("needed: got %+v, want none within reach", r.Needed)
	}
}

func TestNothingHelps(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 3)
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitWorkingAngleMax: 2})
	s.Adjust = []survey.Change{{Change: survey.ChangeClocking, On: "shaft", From: -90, To: 90}}
	if r := search(t, s, Options{}); r.Fine || len(r.Plans) > 0 || r.Needed != nil {
		t.Errorf("got %+v, want no plan: clocking does not change working angles", r)
	}
}

func TestSearchAllPoses(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 1)
	// Laden, the axle has risen and, on its links, turned: by half a degree more
	// than the limit allows together with what suits it unladen.
	s.Poses = []survey.Pose{{Name: "laden", Shafts: []survey.PoseShaft{
		{Name: "shaft", Slope: survey.Down(3.5)}, {Name: "axle pinion", Slope: survey.Down(1.9)}}}}
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitCompanionDifference: 0.55})
	s.Adjust = []survey.Change{{Change: survey.ChangeWedge, On: "axle pinion", From: -4, To: 4, Step: 0.5}}
	// As measured, wedges from 1.5 to 2.5 deg make 2 deg within 0.55, laden, from
	// 1 to 1.5 make 1.1: both, only 1.5. The smallest as measured is 1.5 too.
	r := search(t, s, Options{AllPoses: true})
	if len(r.Plans) != 1 || r.Plans[0].Steps[0].Value != 1.5 || r.Plans[0].Outcome != limits.Within {
		t.Fatalf("got %+v, want a wedge of 1.5 deg", r.Plans)
	}
	if after := r.Plans[0].After; len(r.Before) != 2 || len(after) != 2 || after[1].Pose != "laden" {
		t.Errorf("got states %+v, want as measured and laden", after)
	}
	s.Poses[0].Shafts[1].Slope.Deg[0] = 2.9
	if r = search(t, s, Options{AllPoses: true}); len(r.Plans) == 0 || r.Plans[0].Outcome == limits.Within {
		t.Errorf("got %+v, want nothing that suits both poses", r.Plans)
	}
	if r = search(t, s, Options{}); r.Plans[0].Steps[0].Value != 1.5 || r.Plans[0].Outcome != limits.Within {
		t.Errorf("as measured only: got %+v, want a wedge of 1.5 deg", r.Plans)
	}
}

func TestTooManyGroups(t *testing.T) {
	t.Parallel()
	var changes []*change
	for range 20 {
		changes = append(changes, &change{values: []float64{1}})
	}
	if _, err := countCombinations(changes, 20); err == nil || !strings.Contains(err.Error(), "groups of 20 changes: want at most 50000") {
		t.Errorf("got error %v, want too many groups", err)
	}
	n, err := countCombinations(changes, 3)
	if want := int64(20 + 190 + 1140); n != want || err != nil { // binomial coefficients
		t.Errorf("got %d combinations and error %v, want %d", n, err, want)
	}
}

// Nobody chose the changes that are usual, so their number must not stop a search.
func TestDefaultsOfALongDriveline(t *testing.T) {
	t.Parallel()
	s := &survey.Survey{RPM: 1000, Limits: survey.OnlyLimits(map[string]float64{survey.LimitWorkingAngleMax: 1})}
	for k := range 5 {
		s.Shafts = append(s.Shafts, survey.Shaft{Slope: survey.Down(float64(7 * k * k % 5)), Length: 500})
	}
	r := search(t, s, Options{})
	remark := "No plan combines more than 4 changes: more at once would be too many to try."
	if !slices.Contains(r.Remarks, remark) || len(r.Changes) < 9 {
		t.Errorf("got remarks %q for %d changes, want one that says %q", r.Remarks, len(r.Changes), remark)
	}
	if _, err := Search(t.Context(), s, Options{MostParts: 6}); err == nil {
		t.Error("six changes at once, as asked: got no error, want too many combinations")
	}
}

// More changes can be usual than a search takes: then it is said what to do, and
// that does it.
func TestTooManyUsualChanges(t *testing.T) {
	t.Parallel()
	s := &survey.Survey{RPM: 1000, Limits: survey.OnlyLimits(map[string]float64{survey.LimitEquivalentAngle: 0.1})}
	for k := range 40 {
		s.Shafts = append(s.Shafts, survey.Shaft{Slope: survey.Down(float64(k % 2)), Length: 500})
	}
	_, err := Search(t.Context(), s, Options{})
	if want := "114 changes are usual on a driveline of 40 shafts: want at most 100"; !errors.Is(err, ErrTooMany) || !strings.Contains(err.Error(), want) {
		t.Errorf("got error %v, want %q", err, want)
	}
	r := search(t, s, Options{Only: []string{survey.ChangeWedge, survey.ChangeMount}})
	if len(r.Changes) != 2 {
		t.Errorf("got %v, want the wedge and the mount", r.Changes)
	}
	s.Adjust = []survey.Change{{Change: survey.ChangeMount, On: s.Complete().Shafts[0].Name, From: 0, To: 9, Step: 3}}
	if r = search(t, s, Options{}); len(r.Changes) != 1 {
		t.Errorf("got %v, want the one change listed", r.Changes)
	}
}

func TestFineNeedsNoChange(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 3)
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitCompanionDifference: 1})
	if r := search(t, s, Options{Only: []string{survey.ChangeBearingHeight}}); !r.Fine {
		t.Errorf("got %+v, want fine", r)
	}
}

func TestNothingJudged(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 1)
	s.Limits = survey.OnlyLimits(nil)
	if _, err := Search(t.Context(), s, Options{}); err == nil || !strings.Contains(err.Error(), "nothing is judged") {
		t.Errorf("got error %v, want that nothing is judged", err)
	}
}

// TestSameResultOnAnyWorkers covers steps, free changes and their pruning.
func TestSameResultOnAnyWorkers(t *testing.T) {
	t.Parallel()
	s := random(rand.New(rand.NewPCG(5, 5)))
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitResidualAccel: 0.5, survey.LimitCompanionDifference: 0.1})
	s.Adjust = append(s.Adjust, survey.Change{Change: survey.ChangeClocking, On: "rear shaft", From: -90, To: 90})
	one := search(t, s, Options{Workers: 1})
	for _, workers := range []int{2, 5} {
		if many := search(t, s, Options{Workers: workers}); !reflect.DeepEqual(many, one) {
			t.Errorf("%d workers: got another result than with one", workers)
		}
	}
}

func TestSearchEndsWithItsContext(t *testing.T) {
	t.Parallel()
	s := random(rand.New(rand.NewPCG(5, 5)))
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitResidualAccel: 1e-6})
	for i := range s.Adjust {
		s.Adjust[i].Step = s.Adjust[i].To / 400 // some 4e8 combinations, minutes
	}
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	var tried, most int64
	r, err := Search(ctx, s, Options{Progress: func(now, of int64) {
		if now < tried {
			t.Errorf("progress: got %d after %d, want it to rise", now, tried)
		}
		if tried, most = now, of; tried > 100_000 {
			cancel()
		}
	}})
	if r != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("got %v and error %v, want %v", r, err, context.Canceled)
	}
	// Each worker may be at a job when it is told, and one be dealt.
	if tried > 1_000_000 || most < 100_000_000 {
		t.Errorf("tried %d of %d, want it to end soon after 100000 of some 4e8", tried, most)
	}
}
