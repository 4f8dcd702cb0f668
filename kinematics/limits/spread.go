package limits

import (
	"cmp"
	"context"
	"math"
	"math/cmplx"
	"slices"
	"sync"
)

// spread is what the errors of the measurement make of one quantity.
type spread struct {
	value float64 // of the driveline as measured
	// low and high are the ends of the coverage interval. Of a quantity that cannot
	// be below 0 the readings near it say how large it may be at most, which is the
	// upper of the points below; but whether it is there at all, only the vector can
	// tell that it is the length of. The lower end is therefore the distance of 0 from
	// the region that holds Coverage of the vectors.
	low, high float64
	// below and above are the points with as few draws below and above as
	// (1 − Coverage)/2.
	below, above float64
}

// propagate returns the spread of every judged quantity of g (JCGM 101:2008).
func (t *trial) propagate(ctx context.Context, g *Gauge) ([]spread, error) {
	if err := t.measure(g, exactly); err != nil {
		return nil, err
	}
	lengths := make([]spread, g.judged)
	for p, v := range g.vector {
		lengths[p] = spread{cmplx.Abs(v), cmplx.Abs(v), cmplx.Abs(v), cmplx.Abs(v), cmplx.Abs(v)}
	}
	if len(t.inputs) > 0 {
		samples, err := t.sample(ctx, g)
		if err != nil {
			return nil, err
		}
		var r region
		for p, sample := range samples {
			lengths[p] = r.spread(sample)
		}
		if err := t.measure(g, exactly); err != nil {
			return nil, err
		}
		for p := range lengths {
			t.determine(g, g.parts[p], &lengths[p])
		}
		g.straighten(lengths)
	}
	spreads := make([]spread, len(g.Judged))
	for q, j := range g.Judged {
		l := lengths[j.column]
		scale := func(length float64) float64 { return j.scale(length, g.RPM) }
		spreads[q] = spread{scale(l.value), scale(l.low), scale(l.high), scale(l.below), scale(l.above)}
	}
	return spreads, nil
}

// workers draw side by side.
const workers = 4

// sample returns the vectors of every part in every draw; the first is that of the
// driveline as measured.
func (t *trial) sample(ctx context.Context, g *Gauge) ([][]complex128, error) {
	samples := make([][]complex128, g.judged)
	for p := range samples {
		samples[p] = make([]complex128, draws)
	}
	errs := make([]error, workers)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			own, err := newTrial(t.measured, g.Roles)
			g := g.Clone()
			for i := w; err == nil && i < draws; i += workers {
				err = cmp.Or(ctx.Err(), own.measure(g, func(k int) float64 { return own.inputs[k].drawn(i) }))
				if err != nil {
					break
				}
				for p := range samples {
					samples[p][i] = g.vector[p]
				}
			}
			errs[w] = err
		})
	}
	wg.Wait()
	return samples, cmp.Or(errs...)
}

// exactly is no error.
func exactly(int) float64 { return 0 }

// determine puts right the spread of a part that depends on a phase which nobody
// entered. Its vectors lie on a circle, which is no region about one of them.
func (t *trial) determine(g *Gauge, p part, l *spread) {
	if p.of == bend || !slices.ContainsFunc(t.inputs, Input.unknown) {
		return
	}
	l.low = l.below
	if p.of == matching && t.phaseUnknown(g.Roles.Companions[p.number]) {
		least, greatest := g.state.whatever(g.Roles.Companions[p.number])
		l.low, l.below = min(l.low, least), min(l.below, least)
		l.high, l.above = max(l.high, greatest), max(l.above, greatest)
	}
}

// straighten puts right the upper end of a pair of which one joint may be straight.
// Misread, a straight joint always bends, never the other way, and so takes from what
// the other one leaves: that alone is what they may leave at most.
func (g *Gauge) straighten(lengths []spread) {
	for p, l := range lengths {
		if g.parts[p].of != matching || len(g.Roles.Companions[g.parts[p].number]) != 2 {
			continue
		}
		pair := g.Roles.Companions[g.parts[p].number]
		for n, k := range pair {
			if joint := lengths[g.column(part{bend, k})]; joint.low == 0 && joint.high > 0 {
				other := lengths[g.column(part{bend, pair[1-n]})]
				l.high, l.above = max(l.high, other.high), max(l.above, other.above)
			}
		}
		lengths[p] = l
	}
}

// phaseUnknown reports whether a phase between companions is one that nobody entered.
func (t *trial) phaseUnknown(companions []int) bool {
	for i := companions[0] + 1; i <= companions[len(companions)-1]; i++ {
		name := phaseOf(t.survey.Shafts[i])
		if slices.ContainsFunc(t.inputs, func(in Input) bool { return in.unknown() && in.Name == name }) {
			return true
		}
	}
	return false
}

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

// contributions returns, for every judged quantity, what each input contributes, in
// the unit of the quantity: the root mean square change when the input moves by its
// standard uncertainty either way (after JCGM 100:2008, 5.1.3 note 2, from memory).
func (t *trial) contributions(g *Gauge) ([][]float64, error) {
	values := func(off func(int) float64) ([]float64, error) {
		if err := t.measure(g, off); err != nil {
			return nil, err
		}
		list := make([]float64, len(g.Judged))
		for q, j := range g.Judged {
			list[q] = g.value(j.measured)
		}
		return list, nil
	}
	nominal, err := values(exactly)
	if err != nil {
		return nil, err
	}
	shares := make([][]float64, len(nominal))
	for i := range t.inputs {
		var moved [2][]float64
		for side, by := range []float64{-1, 1} {
			moved[side], err = values(func(k int) float64 {
				if k != i {
					return 0
				}
				return by * t.inputs[i].StandardUncertainty
			})
			if err != nil {
				return nil, err
			}
		}
		for q, v := range nominal {
			shares[q] = append(shares[q], math.Hypot(moved[0][q]-v, moved[1][q]-v)/math.Sqrt2)
		}
	}
	return shares, nil
}
