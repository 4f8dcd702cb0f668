package limits

import (
	"math"
	"slices"
)

// quantile returns what stat.Quantile of gonum does for p from 0 to 1 by
// stat.LinInterp, bit by bit, but of a sample that need not be sorted: only as much
// of it is put in order as p asks for. It reorders x, which must not be empty.
func quantile(p float64, x []float64) float64 {
	place := p * float64(len(x))
	k := max(0, int(math.Ceil(place))-1)
	order(x, k)
	if k == 0 {
		return x[0]
	}
	t := float64(k+1) - place
	return t*slices.Max(x[:k]) + (1-t)*x[k]
}

// order moves the elements of x until none before x[k] is larger than it, and none
// behind it smaller (FIND of C. A. R. Hoare, 1961, from memory).
func order(x []float64, k int) {
	for low, high := 0, len(x)-1; low < high; {
		pivot, i, j := x[k], low, high
		for i <= j {
			for x[i] < pivot {
				i++
			}
			for x[j] > pivot {
				j--
			}
			if i <= j {
				x[i], x[j] = x[j], x[i]
				i++
				j--
			}
		}
		if j < k {
			low = i
		}
		if i > k {
			high = j
		}
	}
}
