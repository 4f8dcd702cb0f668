package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

func TestWave(t *testing.T) {
	t.Parallel()
	w := kinematics.Wave{Steady: -1, Cos: 3, Sin: 4}
	for _, test := range []struct {
		name      string
		got, want float64
	}{
		{"at the start", w.At(0), 2},
		{"an eighth of a turn on", w.At(math.Pi / 4), 3},
		{"a quarter turn on", w.At(math.Pi / 2), -4},
		{"swing", w.Swing(), 5},
		{"least", w.Min(), -6},
		{"greatest", w.Max(), 4},
	} {
		if math.Abs(test.got-test.want) > 1e-15*5 {
			t.Errorf("%s: got %v, want %v", test.name, test.got, test.want)
		}
	}
}

func TestPartsOfALoad(t *testing.T) {
	t.Parallel()
	l := kinematics.Load{Steady: r3.Vec{X: 1, Y: 2, Z: 3}, Cos: r3.Vec{X: 4, Y: 5, Z: 6}, Sin: r3.Vec{X: 7, Y: 8, Z: 9}}
	for _, test := range []struct {
		name      string
		got, want kinematics.Wave
	}{
		{"right", l.Right(), kinematics.Wave{Steady: -2, Cos: -5, Sin: -8}},
		{"down", l.Down(), kinematics.Wave{Steady: -3, Cos: -6, Sin: -9}},
	} {
		if test.got != test.want {
			t.Errorf("%s: got %v, want %v", test.name, test.got, test.want)
		}
	}
}

// Swing and peak beat every position of a fine grid and are reached by it.
func TestExtremesOfALoad(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	vector := func() r3.Vec { return r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()} }
	loads := []kinematics.Load{{}, {Steady: vector()}, {Cos: vector()}, {Cos: r3.Vec{X: 2}, Sin: r3.Vec{Y: 2}}}
	for range 100 {
		loads = append(loads, kinematics.Load{Steady: r3.Scale(rnd.Float64(), vector()), Cos: vector(), Sin: vector()})
	}
	const steps = 4000
	for _, l := range loads {
		swing, peak := 0.0, 0.0
		for i := range steps {
			v := l.At(math.Pi * float64(i) / steps)
			swing = max(swing, r3.Norm(r3.Sub(v, l.Steady)))
			peak = max(peak, r3.Norm(v))
		}
		for _, extreme := range []struct {
			name      string
			got, grid float64
		}{{"swing", l.Swing(), swing}, {"peak", l.Peak(), peak}} {
			// The grid misses a maximum by half a step at most, π/4000 of 2θ, and its
			// height by some squares of that.
			if extreme.got < extreme.grid-1e-15*(1+extreme.grid) || extreme.got > extreme.grid*(1+5e-6) {
				t.Errorf("%+v: %s %v, the grid has %v", l, extreme.name, extreme.got, extreme.grid)
			}
		}
	}
}
