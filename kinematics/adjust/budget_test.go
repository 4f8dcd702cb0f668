package adjust

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

// What a search may cost leaves room for both what it tries and what it judges.
func TestCosts(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name              string
		joints            int64
		exact             bool
		judgements, total int64
	}{
		{"two joints", 2, false, judgeable/4000 - 1, combinable},
		{"the longest driveline", 63, false, judgeable/126_000 - 1, combinable},
		{"in the most poses", 63 * 101, false, 1, combinable / 4},
		{"in the most poses, measured without error", 63 * 101, true, judgeable/(63*101) - 1, combinable},
	} {
		c := newCosts(test.joints, test.exact, 0)
		if c.judgements != test.judgements || c.total != test.total {
			t.Errorf("%s: got %d judgements and %d steps, want %d and %d", test.name, c.judgements, c.total, test.judgements, test.total)
		}
		// As long as there is something left, it may be used.
		for range 100 {
			if err := c.spend(c.bound(2)); err != nil {
				t.Fatal(err)
			}
		}
		if spent := c.spent.Load(); spent > c.total || c.total-spent > 10 {
			t.Errorf("%s: spent %d steps, want %d", test.name, spent, c.total)
		}
		if c.judge(1); c.bound(2) > 10 {
			t.Errorf("%s: a judgement adds %d steps to what may be tried", test.name, c.bound(2))
		}
	}
}

// A search that may judge only once more makes the best plan and tells of the others.
func TestFewJudgements(t *testing.T) {
	t.Parallel()
	s := onePiece(7, 9, 1)
	s.RPM, s.ReadingErrorDeg = 4000, 0.1
	s.Limits = only(map[string]float64{survey.LimitCompanionDifference: 0.4, survey.LimitResidualAccel: 300})
	s.Adjust = append(wedges(-4, 4), survey.Change{Change: survey.ChangeMount, On: s.Shafts[0].Name, From: 0, To: 20, Step: 1})
	free := search(t, s, Options{})
	if len(free.Plans) < 2 {
		t.Fatalf("got %d plans, want a driveline with several", len(free.Plans))
	}
	q := searcherOf(t, s, 1)
	q.most, q.judged = 2, newMeter(nil, "pose")
	q.judgements = 1
	r := &Result{Before: free.Before}
	if err := r.find(t.Context(), s, q); err != nil {
		t.Fatal(err)
	}
	if len(r.Plans) != 1 || q.judgements != 0 {
		t.Errorf("got %d plans and %d judgements left, want the best plan only", len(r.Plans), q.judgements)
	}
	left := strings.Join(q.leftOut, "\n")
	for _, want := range []string{"to reckon anew", "plans found"} {
		if !strings.Contains(left, want) {
			t.Errorf("left out\n%s\nwant that it tells %q", left, want)
		}
	}
}

// A budget ends a search at the same step everywhere, or changes nothing.
func TestBudget(t *testing.T) {
	t.Parallel()
	s := onePiece(7, 9, 1)
	s.Adjust = wedges(-4, 4)
	if r, err := Search(t.Context(), s, Options{Budget: 10}); r != nil || !errors.Is(err, ErrBudget) {
		t.Errorf("got %v and error %v, want %v", r, err, ErrBudget)
	}
	if got, want := search(t, s, Options{Budget: 1 << 40}), search(t, s, Options{}); !reflect.DeepEqual(got.Plans, want.Plans) {
		t.Errorf("got %+v with a large budget, want %+v as without", got.Plans, want.Plans)
	}
}

// What NewTravel has judged need not be judged again.
func TestBeforeIsTaken(t *testing.T) {
	t.Parallel()
	s := onePiece(7, 9, 1)
	s.Adjust = wedges(-4, 4)
	s.Poses = []survey.Pose{{Name: "droop", Shafts: []survey.PoseShaft{{Name: s.Shafts[1].Name, Slope: survey.Down(12)}}}}
	travel, err := NewTravel(t.Context(), s, nil)
	if err != nil {
		t.Fatal(err)
	}
	judged := 0
	count := func(_, _ int64, thing string) {
		if thing == "pose" {
			judged++
		}
	}
	for _, all := range []bool{false, true} {
		fresh := search(t, s, Options{AllPoses: all, Progress: count})
		most := judged
		judged = 0
		given := search(t, s, Options{AllPoses: all, Before: travel.States, Progress: count})
		if !reflect.DeepEqual(given, fresh) {
			t.Errorf("all poses %v: got another result than without the states", all)
		}
		if judged >= most {
			t.Errorf("all poses %v: judged %d times, want fewer than %d", all, judged, most)
		}
		judged = 0
	}
}
