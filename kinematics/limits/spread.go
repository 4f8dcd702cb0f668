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
