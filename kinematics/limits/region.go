package limits

import (
	"math"
	"math/cmplx"
)

// region reduces samples of vectors. It holds buffers only.
type region struct{ lengths, far []float64 }

// spread returns what a sample makes of the length of a vector.
func (r *region) spread(sample []complex128) spread {
	value := cmplx.Abs(sample[0])
	r.lengths = r.lengths[:0]
	for _, v := range sample {
		r.lengths = append(r.lengths, real(v)*real(v)+imag(v)*imag(v))
	}
	below := math.Sqrt(selected(r.lengths, tail))
	above := math.Sqrt(selected(r.lengths, draws-1-tail))
	if above-below <= rounding*(value+1e-5) { // no error matters; 1e-5 for lengths that are 0
		return spread{value, value, value, value, value}
	}
	return spread{value: value, low: min(below, r.nearest(sample)), high: above, below: below, above: above}
}

// nearest returns the distance of 0 from the ellipse about the vector as measured,
// shaped by the moments of the sample, that holds Coverage of it.
func (r *region) nearest(sample []complex128) float64 {
	centre := sample[0]
	var xx, xy, yy float64
	for _, v := range sample {
		x, y := real(v-centre), imag(v-centre)
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
	}
	// Principal axes: the sample turned by the angle of the longer one.
	mean, half := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	long, short := mean+half, max(0, mean-half)
	if long == 0 {
		return cmplx.Abs(centre)
	}
	// All but a line is taken as a hundredth as wide as it is long, so that an error
	// that hardly matters does not make it longer, as that of a plane is.
	short = max(short, 1e-4*long)
	turn := cmplx.Rect(1, -math.Atan2(2*xy, xx-yy)/2)
	r.far = r.far[:0]
	for _, v := range sample {
		w := (v - centre) * turn
		r.far = append(r.far, real(w)*real(w)/long+imag(w)*imag(w)/short)
	}
	size := selected(r.far, draws-1-2*tail)
	return fromEllipse(-centre*turn, math.Sqrt(size*long), math.Sqrt(size*short))
}

// fromEllipse returns the distance of a point from the ellipse of half-axes a ≥ b > 0
// along the axes, 0 inside it. The nearest point of the ellipse is
//
//	(a²x/(t + a²), b²y/(t + b²))
//
// with the t ≥ 0 that puts it on the ellipse, which is found by halving.
func fromEllipse(point complex128, a, b float64) float64 {
	x, y := math.Abs(real(point)), math.Abs(imag(point))
	near := func(t float64) (u, v float64) { return a * a * x / (t + a*a), b * b * y / (t + b*b) }
	outside := func(t float64) bool {
		u, v := near(t)
		return math.Hypot(u/a, v/b) > 1
	}
	low, high := 0.0, a*x+b*y+a*a
	if outside(0) {
		for outside(high) {
			high *= 2
		}
		for range 60 {
			if middle := (low + high) / 2; outside(middle) {
				low = middle
			} else {
				high = middle
			}
		}
	}
	u, v := near(low)
	distance := math.Hypot(x-u, y-v)
	if distance < rounding*math.Hypot(x, y) {
		return 0
	}
	return distance
}

// selected returns the value that would stand at place k if the values were sorted,
// and reorders them (Hoare's selection).
func selected(values []float64, k int) float64 {
	low, high := 0, len(values)-1
	for low < high {
		pivot := values[(low+high)/2]
		i, j := low, high
		for i <= j {
			for values[i] < pivot {
				i++
			}
			for values[j] > pivot {
				j--
			}
			if i <= j {
				values[i], values[j] = values[j], values[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			high = j
		case k >= i:
			low = i
		default:
			return values[k]
		}
	}
	return values[k]
}
