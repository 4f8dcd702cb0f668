package kinematics

import (
	"fmt"
	"math"
)

// Revolution is one turn of the driving shaft, sampled at equal steps. Make it
// with NewRevolution and fill it with Sample, as often as wanted: the buffers
// are used again.
type Revolution struct {
	Theta  []float64 // positions, rad, 0 ≤ θ < 2π
	Shafts []Track   // one for each motion sampled

	// Sine and cosine of Theta, exact at the quarter turns, over one period: half a
	// turn, if there is a position there.
	sin, cos []float64
}

// Track is the motion of one shaft at the positions of a Revolution; State
// tells the units. Who needs no lead may set Lead to nil once it is there: Sample
// then leaves it out, which saves two thirds of the time.
type Track struct {
	Lead, Ratio, Accel []float64
}

// mostSteps is the largest number of positions in a turn.
const mostSteps = 1 << 20

// NewRevolution returns a revolution of n positions from θ = 0, 1 ≤ n ≤ 2²⁰.
func NewRevolution(n int) (*Revolution, error) {
	if n < 1 || n > mostSteps {
		return nil, &RangeError{"positions", float64(n), "", fmt.Sprintf("1 to %d in a turn", mostSteps)}
	}
	period := n
	if n%2 == 0 {
		period = n / 2
	}
	r := &Revolution{
		Theta: make([]float64, n),
		sin:   make([]float64, period),
		cos:   make([]float64, period),
	}
	for i := range n {
		r.Theta[i] = 2 * math.Pi * float64(i) / float64(n)
	}
	for i := range period {
		r.sin[i], r.cos[i] = sincosTurn(i, n)
	}
	return r, nil
}

// Sample fills r.Shafts with the given motions. It allocates only when there
// are more motions than the last time.
func (r *Revolution) Sample(motions []Motion) {
	for len(r.Shafts) < len(motions) {
		n := len(r.Theta)
		r.Shafts = append(r.Shafts, Track{
			Lead:  make([]float64, n),
			Ratio: make([]float64, n),
			Accel: make([]float64, n),
		})
	}
	r.Shafts = r.Shafts[:len(motions)]
	for k, m := range motions {
		r.fill(r.Shafts[k], m)
	}
}

// fill is Motion.At at every position, without a sine in the loop. Whatever a
// joint does repeats after half a turn.
func (r *Revolution) fill(t Track, m Motion) {
	joint := m.joint()
	sinMu, cosMu := math.Sincos(m.Azimuth())
	for i, s := range r.sin {
		c := r.cos[i]
		sin, cos := s*cosMu-c*sinMu, c*cosMu+s*sinMu
		t.Ratio[i], t.Accel[i] = joint.speed(sin, cos)
		if t.Lead != nil {
			t.Lead[i] = joint.tanLead(sin, cos)
		}
	}
	period := len(r.sin)
	copy(t.Ratio[period:], t.Ratio)
	copy(t.Accel[period:], t.Accel)
	if t.Lead == nil {
		return
	}
	// In a loop of its own, since a call costs the other its registers.
	for i, tan := range t.Lead[:period] {
		t.Lead[i] = math.Atan(tan)
	}
	copy(t.Lead[period:], t.Lead)
}

// sincosTurn returns sine and cosine of i/n of a turn, 0 ≤ i < n, with all the
// symmetry of the circle: exact zeros and ones at the quarter turns.
func sincosTurn(i, n int) (sin, cos float64) {
	quarter, rest := 4*i/n, 4*i%n // angle = (quarter + rest/n)·90°
	if 2*rest <= n {
		sin, cos = math.Sincos(math.Pi / 2 * float64(rest) / float64(n))
	} else {
		cos, sin = math.Sincos(math.Pi / 2 * float64(n-rest) / float64(n))
	}
	for range quarter {
		sin, cos = cos, -sin
	}
	return sin + 0, cos + 0 // no minus zero
}
