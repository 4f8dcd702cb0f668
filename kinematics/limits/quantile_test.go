package limits

import (
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
)

func TestQuantile(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(1, 1))
	for _, n := range []int{1, 2, 3, 40, 41, 5000} {
		x := make([]float64, n)
		for range 20 {
			distinct := 1 + src.IntN(2*n) // few: many are equal
			for i := range x {
				x[i] = float64(src.IntN(distinct)) / 7
			}
			sorted := slices.Sorted(slices.Values(x))
			for _, p := range []float64{0, (1 - Coverage) / 2, src.Float64(), (1 + Coverage) / 2, 1} {
				if got, want := quantile(p, x), stat.Quantile(p, stat.LinInterp, sorted, nil); got != want {
					t.Errorf("%v of %d: got %v, want %v", p, n, got, want)
				}
			}
			slices.Sort(x)
			if !slices.Equal(x, sorted) {
				t.Fatal("the sample has changed")
			}
		}
	}
}
