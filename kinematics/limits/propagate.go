package limits

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"sync"

	"gonum.org/v1/gonum/stat"

	"halfturn/kinematics/survey"
)

// spread is what the errors of the measurement make of one quantity.
type spread struct {
	Value float64 // of the driveline as measured
	// Low and High are the ends of the coverage interval: Coverage of the values
	// lie between them and as many below as above. It need not be centred on
	// Value: the size of a remainder near zero can only be larger.
	Low, High float64
	// Linear is the standard uncertainty by linearised propagation, beside the
	// Monte Carlo interval.
	Linear float64
	// Shares are as in Verdict.
	Shares []float64
}

// Coverage is the probability that the coverage intervals are made for.
const Coverage = 0.95

// draws of the Monte Carlo method. They place the ends of a normal interval to
// within about 4 % of a standard uncertainty.
const draws = 5000

// blocks of draws, each with a source of its own, are made side by side; their
// number is part of what makes the result the same on every machine.
const blocks = 4

// propagate returns the uncertain inputs of a complete driveline and the spread
// of every quantity of g.
func propagate(ctx context.Context, s *survey.Survey, g *Gauge) ([]Input, []spread, error) {
	t, err := newTrial(s)
	if err != nil {
		return nil, nil, err
	}
	spreads, err := t.linear(g)
	if err != nil || len(t.inputs) == 0 {
		return nil, spreads, err
	}
	samples, err := monteCarlo(ctx, s, g)
	if err != nil {
		return nil, nil, err
	}
	var wg sync.WaitGroup
	for q, sample := range samples {
		wg.Go(func() {
			slices.Sort(sample)
			spreads[q].Low = stat.Quantile((1-Coverage)/2, stat.LinInterp, sample, nil)
			spreads[q].High = stat.Quantile((1+Coverage)/2, stat.LinInterp, sample, nil)
		})
	}
	wg.Wait()
	return t.inputs, spreads, nil
}

// linear moves one input at a time by its standard uncertainty u up and down
// (JCGM 100:2008, 5.1.3 note 2, from memory):
//
//	change of the quantity = (f(x + u) − f(x − u))/2
//
// The root of the sum of their squares is the linearised standard uncertainty.
func (t *trial) linear(g *Gauge) ([]spread, error) {
	nominal, err := t.measure(g, nil)
	if err != nil {
		return nil, err
	}
	spreads := make([]spread, len(nominal))
	for q, v := range nominal {
		spreads[q] = spread{Value: v, Low: v, High: v, Shares: make([]float64, len(t.inputs))}
	}
	var below, above []float64
	for i, in := range t.inputs {
		u := in.StandardUncertainty()
		*t.places[i] = in.Value - u
		if below, err = t.measure(g, below); err != nil {
			return nil, err
		}
		*t.places[i] = in.Value + u
		if above, err = t.measure(g, above); err != nil {
			return nil, err
		}
		*t.places[i] = in.Value
		for q := range spreads {
			s := &spreads[q]
			s.Linear = math.Hypot(s.Linear, (above[q]-below[q])/2)
			s.Shares[i] = math.Hypot(above[q]-s.Value, below[q]-s.Value) / math.Sqrt2
		}
	}
	return spreads, nil
}

// monteCarlo returns a sample of every quantity by drawing all inputs at once
// (JCGM 101:2008). The draws are the same every time.
func monteCarlo(ctx context.Context, s *survey.Survey, g *Gauge) ([][]float64, error) {
	samples := make([][]float64, len(g.Judged))
	for q := range samples {
		samples[q] = make([]float64, draws)
	}
	errs := make([]error, blocks)
	var wg sync.WaitGroup
	for b := range blocks {
		wg.Go(func() {
			t, err := newTrial(s)
			if err == nil {
				err = t.draw(ctx, g.Clone(), b, samples)
			}
			errs[b] = err
		})
	}
	wg.Wait()
	return samples, cmp.Or(errs...)
}

// draw fills its block of the samples.
func (t *trial) draw(ctx context.Context, g *Gauge, block int, samples [][]float64) error {
	src := rand.NewPCG(1, uint64(block))
	var values []float64
	var err error
	for n := block * draws / blocks; n < (block+1)*draws/blocks; n++ {
		if err := ctx.Err(); err != nil {
			return err
		}
		for i, in := range t.inputs {
			*t.places[i] = in.draw(src)
		}
		if values, err = t.measure(g, values); err != nil {
			return err
		}
		for q, v := range values {
			samples[q][n] = v
		}
	}
	return nil
}
