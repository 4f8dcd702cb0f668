package adjust

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// TestFrontier compares with every pair of candidates, in many orders.
func TestFrontier(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(1, 1))
	for range 50 {
		var all []candidate
		for i := range 60 {
			// Few values, so that many are equal.
			c := candidate{index: int64(i), change: float64(src.IntN(8)), room: room{guarded: float64(src.IntN(8))}}
			if src.IntN(10) == 0 {
				c.room = impossible
			}
			all = append(all, c)
		}
		var want []int64
		for _, c := range all {
			if !math.IsInf(c.guarded, -1) && !slices.ContainsFunc(all, func(other candidate) bool { return overshadows(other, c) }) {
				want = append(want, c.index)
			}
		}
		for range 5 {
			src.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
			var f frontier
			for _, c := range all {
				f.insert(c)
			}
			var got []int64
			for i, c := range f {
				got = append(got, c.index)
				if i > 0 && !(f[i-1].change < c.change && f[i-1].guarded < c.guarded) {
					t.Fatalf("candidates %d and %d: want change and room to rise, got %v", i-1, i, f)
				}
			}
			slices.Sort(got)
			slices.Sort(want)
			if !slices.Equal(got, want) {
				t.Fatalf("got candidates %v, want %v", got, want)
			}
		}
	}
}

// overshadows is what a frontier is about, for two candidates.
func overshadows(a, b candidate) bool {
	if a.change > b.change || a.guarded < b.guarded {
		return false
	}
	return a.change < b.change || a.guarded > b.guarded || a.index < b.index
}

func TestFrontierExcludes(t *testing.T) {
	t.Parallel()
	f := frontier{{change: 1, room: room{guarded: 0.2}}, {change: 2, room: room{guarded: 0.5}}}
	tests := []struct {
		name            string
		change, guarded float64
		want            bool
	}{
		{"less change than any", 0.5, -1, false},
		{"more change, no more room", 1.5, 0.2, true},
		{"more change, more room", 1.5, 0.3, false},
		{"more than all", 3, 0.6, false},
		{"beaten by the last", 3, 0.4, true},
	}
	for _, tt := range tests {
		if got := f.excludes(tt.change, tt.guarded); got != tt.want {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
}
