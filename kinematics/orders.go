package kinematics

import (
	"fmt"
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

// Order is one harmonic of a shaft's motion: the part that repeats Number times
// in a turn of the driving shaft.
type Order struct {
	Number int
	Lead   float64 // amplitude, rad
	Speed  float64 // amplitude over the driving speed
	Accel  float64 // amplitude over the driving speed squared
	// Phase places the lead's harmonic, Lead·cos(Number·θ − Phase), in radians
	// within [−π, π]. The speed runs π/2 ahead of it and the acceleration π:
	// their phases are Phase − π/2 and Phase − π. It is zero where Lead is
	// below NoiseFloor, where nothing but rounding would set it.
	Phase float64
}

// NoiseFloor is the amplitude, in radians of lead or as a ratio, below which a
// fluctuation cannot be told from rounding.
const NoiseFloor = 1e-15

// Orders returns orders 2, 4, … up to highest (at least 2, less than half the
// number of positions) of shaft k, by the discrete Fourier transform of its
// sampled lead, ratio and acceleration. Cardan joints make even orders only.
func (r *Revolution) Orders(k, highest int) ([]Order, error) {
	n := len(r.Theta)
	if highest < 2 || highest >= n/2 {
		return nil, &RangeError{"highest order", float64(highest), "", "at least 2 and less than half the positions"}
	}
	t, fft := r.Shafts[k], fourier.NewFFT(n)
	if t.Lead == nil {
		return nil, fmt.Errorf("orders of shaft %d: its lead was left out", k+1)
	}
	lead := fft.Coefficients(nil, t.Lead)
	speed := fft.Coefficients(nil, t.Ratio)
	accel := fft.Coefficients(nil, t.Accel)
	amplitude := func(c complex128) float64 { return 2 * cmplx.Abs(c) / float64(n) }
	var orders []Order
	for m := 2; m <= highest; m += 2 {
		o := Order{
			Number: m,
			Lead:   amplitude(lead[m]),
			Speed:  amplitude(speed[m]),
			Accel:  amplitude(accel[m]),
		}
		if o.Lead >= NoiseFloor {
			o.Phase = math.Remainder(-cmplx.Phase(lead[m]), 2*math.Pi)
		}
		orders = append(orders, o)
	}
	return orders, nil
}
