package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Wave is a number that has a steady part and swings twice in a turn:
//
//	Steady + Cos·cos 2θ + Sin·sin 2θ
//
// θ is the rotation of the first shaft, zero when its ears lie level.
type Wave struct{ Steady, Cos, Sin float64 }

// At returns the value at the position theta, in radians.
func (w Wave) At(theta float64) float64 {
	sin, cos := math.Sincos(2 * theta)
	return w.Steady + w.Cos*cos + w.Sin*sin
}

// Swing returns by how much the value goes above and below its steady part.
func (w Wave) Swing() float64 { return math.Hypot(w.Cos, w.Sin) }

// Min returns the least value of the turn.
func (w Wave) Min() float64 { return w.Steady - w.Swing() }

// Max returns the greatest value of the turn.
func (w Wave) Max() float64 { return w.Steady + w.Swing() }

// Load is a force or a couple that has a steady part and swings twice in a turn,
// as Wave does, by its vectors in the driveline frame.
type Load struct{ Steady, Cos, Sin r3.Vec }

// At returns the vector at the position theta, in radians.
func (l Load) At(theta float64) r3.Vec {
	sin, cos := math.Sincos(2 * theta)
	return r3.Add(l.Steady, r3.Add(r3.Scale(cos, l.Cos), r3.Scale(sin, l.Sin)))
}

// Right returns the part to the right.
func (l Load) Right() Wave { return l.part(r3.Vec{Y: -1}) }

// Down returns the part downward.
func (l Load) Down() Wave { return l.part(r3.Vec{Z: -1}) }

// part returns the part along a unit vector.
func (l Load) part(u r3.Vec) Wave {
	return Wave{r3.Dot(l.Steady, u), r3.Dot(l.Cos, u), r3.Dot(l.Sin, u)}
}

// Swing returns how far the vector goes from its steady part: the longer half-axis
// of the ellipse that its tip runs round.
func (l Load) Swing() float64 {
	cos2, sin2, both := r3.Norm2(l.Cos), r3.Norm2(l.Sin), r3.Dot(l.Cos, l.Sin)
	return math.Sqrt((cos2 + sin2 + math.Hypot(cos2-sin2, 2*both)) / 2)
}

// Peak returns the greatest length of the vector in the turn.
func (l Load) Peak() float64 {
	// The square of the length is a trigonometric polynomial of degree 2 in 2θ, so
	// these positions tell its two maxima apart.
	const positions = 24
	const step = math.Pi / positions
	slope := func(theta float64) float64 {
		sin, cos := math.Sincos(2 * theta)
		return r3.Dot(l.At(theta), r3.Sub(r3.Scale(cos, l.Sin), r3.Scale(sin, l.Cos)))
	}
	peak := r3.Norm(l.At(0)) // where the turn closes, rounding can hide one
	for i := range positions {
		low, high := float64(i)*step, float64(i+1)*step
		if slope(low) < 0 || slope(high) > 0 {
			continue
		}
		for range 50 { // down to rounding
			if middle := (low + high) / 2; slope(middle) > 0 {
				low = middle
			} else {
				high = middle
			}
		}
		peak = max(peak, r3.Norm(l.At(low)))
	}
	return peak
}

// combine returns the load whose three vectors are f of those of l and m.
func (l Load) combine(m Load, f func(l, m r3.Vec) r3.Vec) Load {
	return Load{f(l.Steady, m.Steady), f(l.Cos, m.Cos), f(l.Sin, m.Sin)}
}

// harmonic is a load across a shaft, or along it if it is real, in the frame of
// the shaft: s + p·z² + m·z̄² with z = e^{jθ}.
type harmonic struct{ s, p, m complex128 }

func (h harmonic) times(c complex128) harmonic { return harmonic{c * h.s, c * h.p, c * h.m} }

func (h harmonic) plus(o harmonic) harmonic {
	return harmonic{h.s + o.s, h.p + o.p, h.m + o.m}
}

// wave returns a real harmonic.
func (h harmonic) wave() Wave { return Wave{real(h.s), real(h.p + h.m), imag(h.m - h.p)} }

// load returns a harmonic across shaft k as vectors.
func (d *Driveline) load(k int, h harmonic) Load {
	e := d.frames[k]
	side := r3.Cross(r3.Unit(d.shafts[k].Axis), e)
	vector := func(c complex128) r3.Vec { return r3.Add(r3.Scale(real(c), e), r3.Scale(imag(c), side)) }
	return Load{vector(h.s), vector(h.p + h.m), vector(1i * (h.p - h.m))}
}
