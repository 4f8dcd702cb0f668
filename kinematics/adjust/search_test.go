package adjust

import (
	"bytes"
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

func search(t *testing.T, s *survey.Survey, opts Options) *Result {
	t.Helper()
	r, err := Search(t.Context(), s, opts)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// only returns the limits of the given values, and no others.
func only(values map[string]float64) survey.Limits { return survey.OnlyLimits(values) }

// wedges lets the axle of onePiece and twoPiece be turned in half degrees.
func wedges(from, to float64) []survey.Change {
	return []survey.Change{{Change: survey.ChangeWedge, On: "axle pinion", From: from, To: to, Step: 0.5}}
}

// TestWrittenPlanIsConfirmed writes the corrected file of every plan, reads it
// back and judges it anew.
func TestWrittenPlanIsConfirmed(t *testing.T) {
	t.Parallel()
	for _, s := range []*survey.Survey{onePiece(3, 6, 1), positioned()} {
		s.Limits.Values = map[string]float64{survey.LimitCompanionDifference: 0.3}
		s.Shafts[len(s.Shafts)-1].Slope.Deg[0]--
		r := search(t, s, Options{})
		if r.Fine || len(r.Plans) == 0 {
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
			j, err := limits.Judge(t.Context(), read)
			if err != nil {
				t.Fatal(err)
			}
			if j.Outcome != p.Outcome {
				t.Errorf("%s: the file is %s, want %s", p.Kind(), j.Outcome, p.Outcome)
			}
			for _, step := range p.Steps {
				if !strings.Contains(read.Note, "Reckoned, not measured: "+step.Instruction) {
					t.Errorf("%s: note %q, want it to tell %q", p.Kind(), read.Note, step.Instruction)
				}
			}
		}
	}
}

// TestBeyondReach has a shaft that a wedge of 6° would make parallel, of which 4°
// there are: less is left with it, and it is said what it would take.
func TestBeyondReach(t *testing.T) {
	t.Parallel()
	s := onePiece(7, 9, 1)
	s.RPM = 4000
	s.Limits = only(map[string]float64{survey.LimitCompanionDifference: 0.4, survey.LimitResidualAccel: 300})
	s.Adjust = wedges(-4, 4)
	r := search(t, s, Options{})
	if len(r.Plans) != 1 || len(r.SetAside) == 0 {
		t.Fatalf("got %d plans and %v set aside, want 1 plan, and that nothing mends the pair", len(r.Plans), r.SetAside)
	}
	p := r.Plans[0]
	if p.Steps[0].Value != 4 || p.Steps[0].Beyond || p.Outcome != limits.Over {
		t.Errorf("got %+v, %s; want 4 deg, over", p.Steps[0], p.Outcome)
	}
	if n := r.Needed; n == nil || n.Steps[0].Value != 6 || !n.Steps[0].Beyond || !strings.HasSuffix(n.Steps[0].Instruction, "(not possible with these parts: at most 4° down or 4° up)") {
		t.Errorf("needed: got %+v, want a wedge of 6 deg, marked as not possible", r.Needed)
	}
	s.Shafts[0].Slope.Deg[0] = 20 // beyond three times 4°
	if r = search(t, s, Options{}); r.Needed != nil {
		t.Errorf("needed: got %+v, want none within reach", r.Needed)
	}
}

// Nothing is made worse for the sake of something else: a wedge that made the ends
// parallel would bend a joint further that is beyond its limit already.
func TestNothingGetsWorse(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 5.5)
	s.Limits = only(map[string]float64{survey.LimitWorkingAngleMax: 2.8, survey.LimitEquivalentAngle: 1})
	s.Adjust = wedges(-4, 0)
	if r := search(t, s, Options{}); len(r.Plans) > 0 || len(r.SetAside) != 2 {
		t.Errorf("got %+v, and %d set aside: want no plan, and both limits", r.Plans, len(r.SetAside))
	}
	s.Limits.Values[survey.LimitWorkingAngleMax] = 4
	if r := search(t, s, Options{}); len(r.Plans) != 1 || r.Plans[0].Steps[0].Value != -2.5 {
		t.Errorf("got %+v, want a wedge of -2.5 deg where the joint may be bent", r.Plans)
	}
}

func TestNothingHelps(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 3)
	s.Limits = only(map[string]float64{survey.LimitWorkingAngleMax: 2})
	s.Adjust = []survey.Change{{Change: survey.ChangeClocking, On: "shaft", From: -90, To: 90}}
	if r := search(t, s, Options{}); r.Fine || len(r.Plans) > 0 || r.Needed != nil || len(r.SetAside) != 2 {
		t.Errorf("got %+v, want no plan: clocking does not change working angles", r)
	}
}

// A limit that nothing mends is set aside, and does not hide what a wedge does for
// the rest.
func TestSetAside(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 8, 1)
	s.Limits = only(map[string]float64{survey.LimitCompanionDifference: 0.3, survey.LimitWorkingAngleMax: 1})
	s.Adjust = wedges(-4, 4)
	r := search(t, s, Options{})
	if len(r.SetAside) != 2 || r.SetAside[0].LimitName != survey.LimitWorkingAngleMax {
		t.Fatalf("set aside: got %+v, want both working angles", r.SetAside)
	}
	if len(r.Plans) != 1 || r.Plans[0].Steps[0].Value != 2 || r.Plans[0].Outcome != limits.Over || r.Plans[0].Rest != limits.Within {
		t.Errorf("got %+v, want a wedge of 2 deg, the rest within", r.Plans)
	}
	if p := r.Plans[0]; p.Tightest.Quantity != "mismatch" {
		t.Errorf("least room: got %+v, want it of what is not set aside", p.Tightest)
	}
}

func TestSearchAllPoses(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 1)
	// Laden, the axle has risen and, on its links, turned: by half a degree more
	// than the limit allows together with what suits it unladen.
	s.Poses = []survey.Pose{{Name: "laden", Kind: survey.Cruise, Shafts: []survey.PoseShaft{
		{Name: "shaft", Slope: survey.Down(3.5)}, {Name: "axle pinion", Slope: survey.Down(1.9)}}}}
	s.Limits = only(map[string]float64{survey.LimitCompanionDifference: 0.55})
	s.Adjust = wedges(-4, 4)
	// As measured, wedges from 1.5 to 2.5 deg make 2 deg within 0.55, laden, from
	// 1 to 1.5 make 1.1: both, only 1.5.
	r := search(t, s, Options{})
	if len(r.Plans) == 0 || r.Plans[0].Steps[0].Value != 1.5 || r.Plans[0].Outcome != limits.Within {
		t.Fatalf("got %+v, want a wedge of 1.5 deg", r.Plans)
	}
	if after := r.Plans[0].After; len(r.Before) != 2 || len(after) != 2 || after[1].Pose != "laden" {
		t.Errorf("got states %+v, want as measured and laden", after)
	}
	if text := r.Answer(); strings.Contains(text, "ride height") || strings.Contains(text, "pose") {
		t.Errorf("got %q, want no word of poses: there are no others", text)
	}
	s.Poses[0].Kind = survey.Load
	s.Poses[0].Limits = s.Limits
	if r = search(t, s, Options{AllPoses: true}); r.Plans[0].Steps[0].Value != 1.5 {
		t.Errorf("in all poses: got %+v, want a wedge of 1.5 deg", r.Plans)
	}
	r = search(t, s, Options{})
	if p := r.Plans[0]; p.Steps[0].Value != 2 || p.Outcome != limits.Within || r.OtherPoses != 1 {
		t.Errorf("as measured only: got %+v, want a wedge of 2 deg", r.Plans)
	}
	for _, want := range []string{"within every limit at ride height,", `In the pose "laden" the mismatch at joint 1 and joint 2 is then 0.669° (now 1.10°), against 0.55°.`} {
		if text := r.Answer() + strings.Join(r.Notes(&r.Plans[0]), " "); !strings.Contains(text, want) {
			t.Errorf("got %q, want %q in it", text, want)
		}
	}
}

// truck is a one-piece shaft that has a second ride height, and a droop in which its
// first joint is bent too far whatever is done.
func truck() *survey.Survey {
	s := onePiece(4, 8, 5.5)
	s.RPM, s.ReadingErrorDeg, s.Limits.Set = 1500, 0.1, survey.SetHeavyRoad
	for k, length := range []float64{1000, 1700, 420} {
		s.Shafts[k].Length = length
	}
	at := func(name string, kind survey.PoseKind, shaft, pinion float64) survey.Pose {
		return survey.Pose{Name: name, Kind: kind, Shafts: []survey.PoseShaft{
			{Name: "shaft", Slope: survey.Down(shaft)}, {Name: "axle pinion", Slope: survey.Down(pinion)}}}
	}
	s.Poses = []survey.Pose{at("laden", survey.Cruise, 7, 4.4), at("full droop", survey.Travel, 13, 8)}
	return s
}

// What nothing mends in a pose that the vehicle only passes through does not block the
// cure of both ride heights; both numbers are told.
func TestBrokenAnyway(t *testing.T) {
	t.Parallel()
	for _, all := range []bool{false, true} {
		r := search(t, truck(), Options{AllPoses: all})
		if len(r.Plans) == 0 || r.Plans[0].Steps[0].Change != survey.ChangeWedge || r.Plans[0].Steps[0].Value != -1 {
			t.Fatalf("all poses %v: got %+v, want a wedge of -1 deg", all, r.Plans)
		}
		for i, after := range r.Plans[0].After[:2] {
			if after.Judgement.Outcome != limits.Within {
				t.Errorf("all poses %v: ride height %d is %s, want within", all, i+1, after.Judgement.Outcome)
			}
		}
		want := `In the pose "full droop" the working angle at joint 1 is then 9.25° (now 9.00°), against 5°.`
		if text := r.Answer(); !strings.Contains(text, want) {
			t.Errorf("all poses %v: got %q, want %q in it", all, text, want)
		}
		if all && (len(r.SetAside) != 1 || r.SetAside[0].Pose != "full droop" || r.Plans[0].Rest != limits.Within) {
			t.Errorf("set aside: got %v and the rest %s, want the droop only, and the rest within", r.SetAside, r.Plans[0].Rest)
		}
	}
	s := truck()
	s.Poses[1].Kind = survey.Cruise // where it is driven for hours nothing gets worse
	for _, p := range search(t, s, Options{}).Plans {
		if now := p.After[2].WorkingAngleDeg[0]; now > 9.02 {
			t.Errorf("%+v bends joint 1 by %v deg, want no more than 9", p.Steps, now)
		}
	}
}

// The mount is lowered by the usual ranges where nothing else mends everything.
func TestMountIsLoweredLast(t *testing.T) {
	t.Parallel()
	s := onePiece(2.5, 6.5, 2)
	s.ReadingErrorDeg = 0.1
	s.Limits = only(map[string]float64{survey.LimitCompanionDifference: 1, survey.LimitWorkingAngleMax: 3})
	lowers := func(p Plan) bool {
		return slices.ContainsFunc(p.Steps, func(st Step) bool { return st.Change == survey.ChangeMount && st.Value < 0 })
	}
	r := search(t, s, Options{})
	if len(r.Plans) == 0 || !lowers(r.Plans[0]) || r.Plans[0].Outcome != limits.Within {
		t.Errorf("got %+v, want a lower mount, within", r.Plans)
	}
	// A plan that leaves more says what for.
	for _, p := range r.Plans {
		notes := strings.Join(r.Notes(&p), " ")
		if p.After[0].ExactEquivalentDeg > r.Before[0].ExactEquivalentDeg+0.1 && !strings.Contains(notes, "That mends that the working angle at joint 2, 4.50°, is over 3°") {
			t.Errorf("%+v: got notes %q, want what it mends", p.Steps, notes)
		}
	}
	s.Limits = only(map[string]float64{survey.LimitCompanionDifference: 0.4}) // a wedge does
	if r := search(t, s, Options{}); slices.ContainsFunc(r.Plans, lowers) {
		t.Errorf("got %+v, want the mount left where it is", r.Plans)
	}
}

// Where nothing is broken nothing is urged; where one change would halve what can
// be felt, it is named.
func TestFine(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 1.4)
	s.RPM, s.Adjust = 3600, wedges(-4, 4)
	s.Limits = only(map[string]float64{survey.LimitCompanionDifference: 2, survey.LimitResidualAccel: 800})
	r := search(t, s, Options{})
	if !r.Fine || len(r.Plans) != 1 || r.Plans[0].Steps[0].Value != 1.5 {
		t.Errorf("got fine %v and %+v, want fine, and a wedge of 1.5 deg", r.Fine, r.Plans)
	}
	s.RPM = 1000 // what is left is far below a quarter of the limit
	if r = search(t, s, Options{}); !r.Fine || len(r.Plans) > 0 {
		t.Errorf("at 1000 rev/min: got fine %v and %+v, want fine", r.Fine, r.Plans)
	}
	if r = search(t, s, Options{Only: []string{survey.ChangeBearingHeight}}); !r.Fine {
		t.Errorf("without changes: got %+v, want fine", r)
	}
}

// A doubt about what a plan touches is taken away where the readings can; one that
// no reading can take away is left as it is.
func TestDoubt(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 2.25)
	s.ReadingErrorDeg = 0.1 // the difference is uncertain by some 0.28°
	s.Limits = only(map[string]float64{survey.LimitCompanionDifference: 0.6})
	s.Adjust = wedges(-4, 4)
	r := search(t, s, Options{})
	if !r.Fine || r.Before[0].Judgement.Outcome != limits.TooClose || len(r.Plans) != 1 || r.Plans[0].Steps[0].Value != 0.5 {
		t.Errorf("got fine %v and %+v, want fine, and a wedge of 0.5 deg against the doubt", r.Fine, r.Plans)
	}
	s.ReadingErrorDeg = 0.3
	if r = search(t, s, Options{}); !r.Fine || len(r.Plans) > 0 {
		t.Errorf("readings to 0.3 deg: got fine %v and %+v, want fine and no plan: nothing could prove it", r.Fine, r.Plans)
	}
}

func TestNothingJudged(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 1)
	s.Limits = only(nil)
	if _, err := Search(t.Context(), s, Options{}); err == nil || !strings.Contains(err.Error(), "nothing is judged") {
		t.Errorf("got error %v, want that nothing is judged", err)
	}
}

func TestSearchRefuses(t *testing.T) {
	t.Parallel()
	for name, s := range map[string]*survey.Survey{
		"no shafts": {}, "a slope that is no number": onePiece(3, math.NaN(), 1),
	} {
		if r, err := Search(t.Context(), s, Options{}); err == nil {
			t.Errorf("%s: got %+v, want an error", name, r)
		}
	}
}

// A search comes to the same on any number of goroutines.
func TestSameResultOnAnyWorkers(t *testing.T) {
	t.Parallel()
	s := random(rand.New(rand.NewPCG(5, 5)))
	s.Limits = only(map[string]float64{survey.LimitResidualAccel: 0.5, survey.LimitCompanionDifference: 0.1})
	s.Adjust[0].Step, s.Adjust[1].Step = 0.03125, 0.25 // some 13000 of the two, several jobs
	var first []*candidate
	for _, workers := range []int{1, 2, 5} {
		q := searcherOf(t, s, workers)
		all, err := q.search(t.Context(), 2)
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = all
		}
		same := func(a, b *candidate) bool {
			return a.standing == b.standing && a.outcome == b.outcome && a.swing == b.swing && a.compareCost(b) == 0
		}
		if !slices.EqualFunc(all, first, same) {
			t.Errorf("%d workers: got another result than with one", workers)
		}
	}
}

// searcherOf returns a searcher of a survey measured without error, with its changes to
// combine.
func searcherOf(t *testing.T, s *survey.Survey, workers int) *searcher {
	t.Helper()
	poses := inPoses(s, nil)
	before, err := states(t.Context(), poses, newMeter(nil, "pose"))
	if err != nil {
		t.Fatal(err)
	}
	_, changes, err := choose(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	q, err := newSearcher(poses, changes, true, Options{})
	if err != nil {
		t.Fatal(err)
	}
	q.changes, q.evaluators = q.all, nil
	for range workers {
		e, err := newEvaluator(poses)
		if err != nil {
			t.Fatal(err)
		}
		q.evaluators = append(q.evaluators, e)
	}
	q.objective = newObjective(q.evaluators[0], before)
	return q
}

// TestThinnedSearch has too little to try all combinations of two changes, and yet
// finds what leaves about the least.
func TestThinnedSearch(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(2, 2))
	for range 5 {
		s := random(src)
		s.Limits = only(map[string]float64{survey.LimitEquivalentAngle: 0.005})
		s.Adjust = []survey.Change{
			{Change: survey.ChangeWedge, On: "axle pinion", From: -2, To: 2, Step: 0.05},
			{Change: survey.ChangeBearingHeight, On: "centre joint", From: -10, To: 10, Step: 0.25},
		}
		best := func(afford int64) *candidate {
			q := searcherOf(t, s, 1)
			q.costs.total = 4 * afford
			all, err := q.ofSize(t.Context(), 2)
			if err != nil {
				t.Fatal(err)
			}
			if thinned := len(q.leftOut) > 0; thinned != (afford < affordable) {
				t.Errorf("left out %q of what may cost %d", q.leftOut, afford)
			}
			return q.objective.choose(all)
		}
		some, all := best(500*3), best(affordable) // of 6400 combinations
		if some.standing != all.standing || some.left > about(all.left, aboutDeg) {
			t.Errorf("thinned: %v leaves %v, want about %v as %v does", some.settings, some.left, all.left, all.settings)
		}
	}
}

// A search that began does not outlast its context, and what it may cost is
// bounded, however many parts there are.
func TestLongDriveline(t *testing.T) {
	t.Parallel()
	s := &survey.Survey{RPM: 1000, Limits: only(map[string]float64{survey.LimitEquivalentAngle: 0.001})}
	for k := range 64 {
		s.Shafts = append(s.Shafts, survey.Shaft{Slope: survey.Down(float64(7 * k * k % 5)), Length: 500})
	}
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	var tried, most int64
	r, err := Search(ctx, s, Options{Progress: func(now, of int64, thing string) {
		if thing != "combination" {
			return
		}
		if now < tried {
			t.Errorf("progress: got %d after %d, want it to rise", now, tried)
		}
		if tried, most = now, of; tried > 10_000 {
			cancel()
		}
	}})
	if r != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("got %v and error %v, want %v", r, err, context.Canceled)
	}
	// Each worker may be at a job when it is told. 63 joints each.
	if tried > 100_000 || most > affordable/63+2000 {
		t.Errorf("tried %d of %d, want it to end soon after 10000 of at most 65000", tried, most)
	}
}

// Of two limits on the other side the tighter one counts.
func TestOtherSide(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	g, err := limits.NewGauge(s)
	if err != nil {
		t.Fatal(err)
	}
	for want, name := range map[string]string{
		survey.LimitOddJointMax: survey.LimitOddJointMin, survey.LimitOddJointMin: survey.LimitOddJointMax, survey.LimitWorkingAngleMax: survey.LimitWorkingAngleMin,
	} {
		k := slices.IndexFunc(g.Judged, func(j limits.Judged) bool { return j.Limit.Name == name })
		if other := otherSide(g.Judged, k); other < 0 || g.Judged[other].Limit.Name != want || g.Judged[other].Subject != g.Judged[k].Subject {
			t.Errorf("on the other side of %s: got %d, want %s", name, other, want)
		}
	}
}
