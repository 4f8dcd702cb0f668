package adjust

import (
	"context"
	"fmt"
	"runtime"

	"halfturn/kinematics/survey"
)

// Sweep is every quantity of a driveline while one or two others are varied.
type Sweep struct {
	Variables []Variable
	Axes      [][]float64 // values of each variable
	Present   []float64   // value of each variable as measured; 0 for a change
	// Series have their value where the variables have values i and j at index
	// i·len(Axes[1]) + j, or at i where there is one variable only.
	Series []Series
}

// MaxPoints of a sweep.
const MaxPoints = 4_000_000

// NewSweep varies one or two quantities of a valid survey, each through all its
// values; everything else is as measured. Changes move the geometry as it is
// with the other variables set. It fails where a length is missing that a change
// needs, and with the error of ctx when that ends.
func NewSweep(ctx context.Context, s *survey.Survey, variables ...Variable) (*Sweep, error) {
	s = s.Complete()
	if len(variables) < 1 || len(variables) > 2 {
		return nil, fmt.Errorf("%d variables: want one or two", len(variables))
	}
	w := &Sweep{Variables: variables}
	points := 1
	for i, v := range variables {
		if err := v.check(); err != nil {
			return nil, err
		}
		for _, other := range variables[:i] {
			if v.Quantity == other.Quantity {
				return nil, fmt.Errorf("%s is varied twice: want two different quantities", v.Quantity)
			}
		}
		w.Axes = append(w.Axes, v.Values())
		w.Present = append(w.Present, v.Present(s))
		points *= len(w.Axes[i])
	}
	if points > MaxPoints {
		return nil, fmt.Errorf("%d points: want at most %d: give larger steps", points, MaxPoints)
	}
	return w, w.fill(ctx, s, points)
}

// fill reads every quantity at every point.
func (w *Sweep) fill(ctx context.Context, s *survey.Survey, points int) error {
	meters := meters(s)
	w.Series = newSeries(meters, points)
	present, err := still(meters, s)
	if err != nil {
		return err
	}
	probes := make([]*probe, runtime.GOMAXPROCS(0))
	for i := range probes {
		if probes[i], err = newProbe(s, meters, w.Variables); err != nil {
			return err
		}
	}
	row := points / len(w.Axes[0])
	err = parallel(ctx, len(probes), len(w.Axes[0]), func(worker, i int) error {
		at := []float64{w.Axes[0][i], 0}
		for j := range row {
			if len(w.Axes) > 1 {
				at[1] = w.Axes[1][j]
			}
			if err := probes[worker].read(at, w.Series, i*row+j); err != nil {
				return err
			}
		}
		return nil
	})
	for i := range w.Series {
		w.Series[i].close(present[i].Present)
	}
	return err
}
