package page

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/plot/vg"
)

// What is left of a line keeps its ends, runs through points of it in their order, and no
// point of it is farther away than can be seen.
func TestThinned(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	wave, noise, folded := make([]vg.Point, 361), make([]vg.Point, 200), make([]vg.Point, 50)
	for i := range wave {
		wave[i] = vg.Point{X: vg.Length(i) * 1.5, Y: vg.Length(90 * math.Sin(float64(i)*math.Pi/90))}
	}
	for i := range noise {
		noise[i] = vg.Point{X: vg.Length(i), Y: vg.Length(0.05 * rnd.Float64())}
	}
	for i := range folded { // to and fro on one line
		folded[i] = vg.Point{X: vg.Length(i * (50 - i))}
	}
	for _, test := range []struct {
		name string
		line []vg.Point
		most int // points left
	}{
		{"nothing", nil, 0},
		{"one point", wave[:1], 1},
		{"a wave", wave, 320},
		{"noise", noise, 200},
		{"to and fro", folded, 4},
		{"straight", []vg.Point{{X: 0}, {X: 1, Y: 0.004}, {X: 2}}, 2},
		{"a corner", []vg.Point{{X: 0}, {X: 1, Y: 0.02}, {X: 2}}, 3},
		{"closed", []vg.Point{{X: 0}, {X: 5, Y: 5}, {X: 0}}, 3},
	} {
		t.Run(test.name, func(t *testing.T) {
			got := thinned(test.line)
			if len(got) > test.most {
				t.Errorf("%d of %d points left, want at most %d", len(got), len(test.line), test.most)
			}
			if len(test.line) == 0 {
				return
			}
			k := 0 // of the point of got that comes last
			for i, p := range test.line {
				if k+1 < len(got) && p == got[k+1] {
					k++
				}
				if i > 0 && k == 0 && len(got) < 2 {
					t.Fatalf("point %d is beyond what is left", i)
				}
				d := fromSegment(p, got[k], got[min(k+1, len(got)-1)])
				if d > unseen {
					t.Errorf("point %d is %v from what is left, want at most %v", i, d, unseen)
				}
			}
			if k != len(got)-1 {
				t.Errorf("%d points of what is left are in the line in their order, want all %d", k+1, len(got))
			}
		})
	}
}
