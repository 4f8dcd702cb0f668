package limits

import (
	"math"
	"sync"
)

// The errors of a measurement are drawn from a lattice: draw i moves input d, whose
// error has the quantile function q, to
//
//	q(frac(i·generator^d/draws)),   i = 0 … draws−1
//
// so that every input by itself takes each of equally likely values once, and the
// combinations of any few inputs are spread evenly: what chance needs several times
// as many draws for. Draw 0 moves nothing, and draws − i is the mirror of draw i.
const (
	draws = 2003 // a prime, so that every input takes every value
	// generator was found by trying all: of the plane lattices of two inputs up to 16
	// places apart it has the least bad one, and of those like it the most even in
	// 8 dimensions (by the error of a periodic function, weights of one half).
	generator = 528
)

// Of the draws, in rising order of what they make of a quantity, those from tail to
// draws−1−tail are Coverage of them.
const tail = 50

// Coverage is the probability that the coverage intervals are made for.
const Coverage = 0.95

// multiplier returns generator^dimension modulo draws.
func multiplier(dimension int) int {
	m := 1
	for range dimension {
		m = m * generator % draws
	}
	return m
}

// place returns where draw i puts an input of that multiplier among its values, from
// −(draws−1)/2 to (draws−1)/2.
func place(i, multiplier int) int {
	n := i * multiplier % draws
	if n > draws/2 {
		n -= draws
	}
	return n
}

// rectangular returns the value of a rectangular distribution of standard deviation 1
// at a place.
func rectangular(place int) float64 { return math.Sqrt(3) * 2 * float64(place) / draws }

// normal returns the value of a normal distribution of standard deviation 1 at a
// place.
func normal(place int) float64 {
	v := normalValues()
	if place < 0 {
		return -v[-place]
	}
	return v[place]
}

var normalValues = sync.OnceValue(func() *[draws/2 + 1]float64 {
	var v [draws/2 + 1]float64
	for i := range v {
		v[i] = math.Sqrt2 * math.Erfinv(2*float64(i)/draws)
	}
	return &v
})
