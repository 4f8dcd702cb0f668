package adjust

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"halfturn/kinematics/survey"
)

func TestCombinations(t *testing.T) {
	t.Parallel()
	g := &group{changes: []*change{{values: []float64{1, 2, 3}}, {}, {values: []float64{-1, 1}}, {values: []float64{5, 6, 7, 8}}}}
	if n := g.combinations(); n != 24 {
		t.Fatalf("got %d combinations, want 3·2·4", n)
	}
	seen := make(map[[4]float64]bool)
	for i := range g.combinations() {
		settings := g.combination(nil, i)
		var values [4]float64
		for k, set := range settings {
			if values[k] = set.value; set.change != g.changes[k] {
				t.Fatalf("combination %d: setting %d is of another change", i, k)
			}
			if have := g.changes[k].values; have != nil && !slices.Contains(have, set.value) || have == nil && set.value != 0 {
				t.Errorf("combination %d: change %d at %v, want one of %v, or 0 where any value can be", i, k, set.value, have)
			}
		}
		seen[values] = true
	}
	if len(seen) != 24 {
		t.Errorf("got %d different combinations, want 24", len(seen))
	}
}

// TestFirstWithin lets the frontier be reckoned with far too small and far too
// large an uncertainty, so that the guess where to look first is wrong.
func TestFirstWithin(t *testing.T) {
	t.Parallel()
	for _, factor := range []float64{0, 0.5, 1, 2} {
		t.Run(fmt.Sprint(factor), func(t *testing.T) {
			t.Parallel()
			s := onePiece(3, 6, 1)
			s.ReadingErrorDeg = 0.15
			s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitCompanionDifference: 1})
			s.Adjust = []survey.Change{{Change: survey.ChangeWedge, On: "axle pinion", From: -4, To: 4, Step: 0.0625}}
			standing := standOf(t, s)
			for q := range standing.allowance {
				standing.allowance[q] *= factor
			}
			q := &quest{survey: s, stands: []*stand{standing}, workers: 1, progress: func(int64) {}}
			found, err := q.explore(t.Context(), groups(changesOf(t, s), 1))
			if err != nil {
				t.Fatal(err)
			}
			want := -1
			for i, c := range found[0] {
				if ok, err := q.isWithin(c); err != nil {
					t.Fatal(err)
				} else if ok {
					want = i
					break
				}
			}
			if want < 1 {
				t.Fatalf("the first within is %d of %d: the test shows nothing", want, len(found[0]))
			}
			if got, err := q.firstWithin(found[0]); got != want || err != nil {
				t.Errorf("got %d and error %v, want %d", got, err, want)
			}
		})
	}
}

func TestShortlist(t *testing.T) {
	t.Parallel()
	wedge, bearing, mount := &change{}, &change{}, &change{}
	of := func(changes ...*change) *group { return &group{changes: changes} }
	within := func(g *group, change, guarded float64) pick {
		return pick{g, candidate{change: change, room: room{margin: guarded + 0.1, guarded: guarded}}, true}
	}
	broken := func(g *group, change, guarded float64) pick {
		return pick{g, candidate{change: change, room: room{margin: guarded + 0.1, guarded: guarded}}, false}
	}
	present := room{guarded: -1}
	tests := []struct {
		name  string
		picks []pick
		most  int
		want  []int // indices of picks
	}{
		{"fewest parts, then least change", []pick{
			within(of(bearing, mount), 0.1, 0.4), within(of(wedge), 0.5, 0.1), within(of(mount), 0.3, 0.1)}, 6, []int{2, 1}},
		{"more room for the same change", []pick{within(of(wedge), 0.5, 0.1), within(of(mount), 0.5, 0.2)}, 6, []int{1, 0}},
		{"more parts only where fewer do not serve", []pick{
			within(of(wedge), 0.5, 0.1), within(of(wedge, bearing), 0.2, 0.5), within(of(bearing, mount), 0.2, 0.5)}, 6, []int{0, 2}},
		{"too close to call before broken", []pick{broken(of(wedge), 0.1, -0.2), broken(of(mount), 0.1, -0.05)}, 6, []int{1, 0}},
		{"a hair more room is not worth more parts", []pick{broken(of(wedge, mount), 0.1, -0.3), broken(of(wedge), 0.1, -0.302)}, 6, []int{1}},
		{"the best that is not within, and single changes", []pick{
			broken(of(wedge, mount), 0.1, -0.3), broken(of(wedge, bearing), 0.1, -0.4), broken(of(wedge), 0.1, -0.5)}, 6, []int{0, 2}},
		{"nothing that does not help", []pick{broken(of(wedge), 0.1, -0.995), broken(of(mount), 0.1, -2)}, 6, nil},
		{"no more than asked for", []pick{within(of(wedge), 0.1, 0), within(of(mount), 0.2, 0), within(of(bearing), 0.3, 0)}, 2, []int{0, 1}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			var got []int
			for _, p := range shortlist(slices.Clone(tt.picks), present, tt.most) {
				got = append(got, slices.IndexFunc(tt.picks, func(of pick) bool { return of.group == p.group }))
			}
			if !slices.Equal(got, tt.want) {
				t.Errorf("got %v, want %v", got, tt.want)
			}
		})
	}
}

// TestBestClocking looks in ranges of half a turn that begin anywhere.
func TestBestClocking(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(1, 1))
	for range 50 {
		s := random(src)
		s.Shafts[2].PhaseDeg = survey.Readings{360*src.Float64() - 180}
		from := 360*src.Float64() - 270
		asked := survey.Change{Change: survey.ChangeClocking, On: "rear shaft", From: from, To: from + 180}
		b, err := newBench([]*stand{standOf(t, s)})
		if err != nil {
			t.Fatal(err)
		}
		settings := settingsOf(t, s, map[survey.Change]float64{asked: 0})
		got, ok := b.bestClocking(settings, 0)
		if !ok || got < from || got > from+180 {
			t.Fatalf("from %v deg: got %v, %v; want one within half a turn", from, got, ok)
		}
		left := func(deg float64) float64 {
			settings[0].value = deg
			if err := b[0].set(settings); err != nil {
				t.Fatal(err)
			}
			return b[0].d.SecondOrder().Exact
		}
		least := left(got)
		for deg := from; deg <= from+180; deg += 0.5 {
			if left(deg) < least {
				t.Errorf("from %v deg: %v leaves %v rad, but %v only %v", from, got, least, deg, left(deg))
			}
		}
	}
}

// TestAlternativesOfMoreParts has a wedge that serves, and a bearing and a mount
// that serve together only: both are to be shown.
func TestAlternativesOfMoreParts(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	s.ReadingErrorDeg, s.PhaseErrorDeg = 0, 0
	for k, down := range []float64{3, 2, 4.25, 4} {
		s.Shafts[k].Slope, s.Shafts[k].Heading = survey.Down(down), survey.Heading{}
	}
	s.Limits = survey.OnlyLimits(map[string]float64{
		survey.LimitCompanionDifference: 0.5, survey.LimitWorkingAngleMax: 4, survey.LimitOddJointMax: 1.5})
	s.Adjust = []survey.Change{
		{Change: survey.ChangeWedge, On: "axle pinion", From: -4, To: 4, Step: 0.5},
		{Change: survey.ChangeBearingHeight, On: "centre joint", From: 0, To: 12, Step: 3},
		{Change: survey.ChangeMount, On: "gearbox output", From: 0, To: 12, Step: 3},
	}
	r := search(t, s, Options{})
	var kinds []string
	for _, p := range r.Plans {
		kinds = append(kinds, fmt.Sprintf("%s: %s", p.Kind(), p.Outcome))
	}
	want := []string{"wedge: within", "bearing-height and mount: within"}
	if len(kinds) < 2 || !slices.Equal(kinds[:2], want) {
		t.Errorf("got %q, want first %q", kinds, want)
	}
}
