package adjust

import (
	"context"
	"fmt"
	"runtime"
	"slices"

	"halfturn/kinematics/survey"
)

// Sweep is some quantities of a driveline while one or two others are varied.
type Sweep struct {
	Variables []Variable
	Axes      [][]float64 // values of each variable
	Present   []float64   // value of each variable as measured; 0 for a change
	// Series have their value where the variables have values i and j at index
	// i·len(Axes[1]) + j, or at i where there is one variable only.
	Series []Series
}

// What a sweep may hold and take: values are points times quantities, steps are points
// times joints, each of which takes about a microsecond.
const (
	MaxValues = 1 << 22
	MaxSteps  = 1 << 24
)

// NewSweep varies one or two quantities of a valid survey, each through all its
// values, and reads others, which ParseQuantities returns; everything else is as
// measured. Changes move the geometry as it is with the other variables set. It
// fails where a length is missing that a change needs, where it would hold more
// than MaxValues or take more than MaxSteps, and with the error of ctx when that ends.
// Progress, which may be nil, is told of the points.
func NewSweep(ctx context.Context, s *survey.Survey, quantities []Quantity, variables []Variable, progress Progress) (*Sweep, error) {
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
	if n := points * len(quantities); n > MaxValues {
		return nil, fmt.Errorf("%d points of %d quantities: want at most %d values: give larger steps or show fewer quantities", points, len(quantities), MaxValues)
	}
	if joints := len(s.Joints); points*joints > MaxSteps {
		return nil, fmt.Errorf("%d points of %d joints: want at most %d points: give larger steps", points, joints, MaxSteps/joints)
	}
	bounds := points
	if len(variables) > 1 && !w.varies(&speed) {
		bounds = 0 // one, see close
	}
	w.Series = newSeries(quantities, points, bounds)
	return w, w.fill(ctx, s, quantities, progress)
}

func (w *Sweep) varies(f *field) bool {
	return slices.ContainsFunc(w.Variables, func(v Variable) bool { return v.field == f })
}

// fill reads every quantity at every point.
func (w *Sweep) fill(ctx context.Context, s *survey.Survey, quantities []Quantity, progress Progress) error {
	probes := make([]*probe, runtime.GOMAXPROCS(0))
	for i := range probes {
		var err error
		if probes[i], err = newProbe(s, quantities, w.Variables); err != nil {
			return err
		}
	}
	points := len(w.Series[0].Values)
	counted := newMeter(progress, "point")
	counted.add(0, int64(points))
	err := parallel(ctx, len(probes), (points+blockPoints-1)/blockPoints, func(worker, block int) error {
		from, to := block*blockPoints, min((block+1)*blockPoints, points)
		for i := from; i < to; i++ {
			if err := probes[worker].read(w.at(i), w.Series, i); err != nil {
				return err
			}
		}
		counted.add(int64(to-from), 0)
		return nil
	})
	if err != nil {
		return err
	}
	here, err := newProbe(s, quantities, nil)
	if err != nil {
		return err
	}
	present := newSeries(quantities, 1, 1)
	if err := here.read([2]float64{}, present, 0); err != nil {
		return err
	}
	for i := range w.Series {
		series := &w.Series[i]
		series.close(present[i].Values[0])
		if len(series.AtMost) == 0 {
			series.AtMost, series.AtLeast = present[i].AtMost, present[i].AtLeast
		}
	}
	return nil
}

// blockPoints are read by one goroutine one after the other: so few that a sweep ends at
// once with its context.
const blockPoints = 256

// at returns the values of the variables at a point.
func (w *Sweep) at(point int) [2]float64 {
	if len(w.Axes) == 1 {
		return [2]float64{w.Axes[0][point]}
	}
	inner := len(w.Axes[1])
	return [2]float64{w.Axes[0][point/inner], w.Axes[1][point%inner]}
}
