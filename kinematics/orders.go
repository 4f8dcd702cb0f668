package kinematics

import "math"

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

// Orders returns orders 2, 4, … up to highest: Cardan joints make no others. The
// lead is −arg(1 + q·e^{2jφ}) with q = tan²(β/2), whose series is
//
//	Σ (−1)^n·(qⁿ/n)·sin 2nφ,  n = 1, 2, …
//
// so that order 2n has the amplitudes qⁿ/n of lead, 2qⁿ of speed and 4n·qⁿ of
// acceleration, at every working angle.
func (m Motion) Orders(highest int) []Order {
	var orders []Order
	q := m.SecondOrder()
	power, n := q, 1.0
	for number := 2; number <= highest; number += 2 {
		o := Order{Number: number, Lead: power / n, Speed: 2 * power, Accel: 4 * n * power}
		if o.Lead >= NoiseFloor {
			o.Phase = math.Remainder(2*n*m.Azimuth()+math.Pi/2+n*math.Pi, 2*math.Pi)
		}
		orders = append(orders, o)
		power, n = power*q, n+1
	}
	return orders
}
