package main

import (
	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics/adjust"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// sweptByDefault is what a sweep draws where --show does not say.
const sweptByDefault = adjust.KeyEquivalent

// draw writes the figure of a sweep: curves along one variable, or a map of one
// quantity over two.
func (r *sweepRequest) draw(c *console, name string, sweep *adjust.Sweep) error {
	series := sweep.Series
	if len(r.show) == 0 {
		var err error
		if series, err = shown(series, []string{sweptByDefault}); err != nil {
			return err
		}
	}
	f, err := sweepFigure(name, sweep, series)
	if err != nil {
		return err
	}
	r.image.fit(f, false)
	return r.image.write(c, f)
}

func sweepFigure(name string, sweep *adjust.Sweep, series []adjust.Series) (*page.Figure, error) {
	first := series[0]
	if len(sweep.Axes) == 1 {
		w := plotting.Sweep{
			Name: name, Varied: variableLabel(sweep.Variables[0]), At: sweep.Axes[0],
			Unit: unitLabel(first.Unit), Floor: floor(first),
		}
		for _, s := range series {
			if s.Unit != first.Unit {
				return nil, usagef("--show names quantities in %s and in %s: want one unit in a figure", unitLabel(first.Unit), unitLabel(s.Unit))
			}
			w.Swept = append(w.Swept, plotting.Swept{
				Quantity: quantityLabel(s), Values: s.Values, AtMost: s.AtMost, AtLeast: s.AtLeast,
				Present: present(sweep, s), Best: best(sweep, s),
			})
		}
		return plotting.SweepCurve(w)
	}
	if len(series) > 1 {
		return nil, usagef("--show names %d quantities: want one for a map, such as --show %s", len(series), seriesColumn(first))
	}
	x, y := sweep.Axes[0], sweep.Axes[1]
	return plotting.SweepMap(plotting.SweepGrid{
		Name: name, Across: variableLabel(sweep.Variables[0]), Up: variableLabel(sweep.Variables[1]),
		Quantity: quantityLabel(first) + ", " + unitLabel(first.Unit),
		AtAcross: x, AtUp: y, Values: rows(first.Values, len(x), len(y)), Limit: oneLimit(first),
		Present: present(sweep, first), Best: best(sweep, first),
	})
}

// floor is the least range of a quantity that a curve shows, from zero, so that
// rounding does not fill the figure; 0 for what may be negative.
func floor(s adjust.Series) float64 {
	switch {
	case s.HighIsGood:
		return 0
	case s.Unit == "deg":
		return 0.1
	case s.Unit == "":
		return 0.001
	default: // rad/s²
		return 1
	}
}

// rows turns the values of a sweep of n times m points into one row for each
// value of the second variable.
func rows(values []float64, n, m int) [][]float64 {
	rows := make([][]float64, m)
	for j := range rows {
		for i := range n {
			rows[j] = append(rows[j], values[i*m+j])
		}
	}
	return rows
}

// oneLimit returns the limit that holds all over the sweep, 0 where there is none
// or where it changes from point to point.
func oneLimit(s adjust.Series) float64 {
	for _, l := range s.AtMost {
		if l != s.AtMost[0] { // also for NaN
			return 0
		}
	}
	return s.AtMost[0]
}

// present is the driveline as measured, best the best point of the sweep, in the
// coordinates of its figure.
func present(sweep *adjust.Sweep, s adjust.Series) *plotter.XY {
	if len(sweep.Axes) == 1 {
		return &plotter.XY{X: sweep.Present[0], Y: s.Present}
	}
	return &plotter.XY{X: sweep.Present[0], Y: sweep.Present[1]}
}

func best(sweep *adjust.Sweep, s adjust.Series) *plotter.XY {
	switch {
	case s.Best < 0, s.Values[s.Best] == s.Present: // nothing to be gained
		return nil
	case len(sweep.Axes) == 1:
		return &plotter.XY{X: sweep.Axes[0][s.Best], Y: s.Values[s.Best]}
	}
	m := len(sweep.Axes[1])
	return &plotter.XY{X: sweep.Axes[0][s.Best/m], Y: sweep.Axes[1][s.Best%m]}
}

// variableLabel is what the axis of a variable carries.
func variableLabel(v adjust.Variable) string {
	if v.Quantity == v.Unit { // rpm
		return "speed of the first shaft, " + unitLabel(v.Unit)
	}
	return v.Quantity + ", " + unitLabel(v.Unit)
}

func quantityLabel(s adjust.Series) string {
	if s.Subject == "" {
		return s.Name
	}
	return s.Name + " at " + s.Subject
}

// unitLabel is a unit as figures write it.
func unitLabel(unit string) string {
	switch unit {
	case "":
		return "ratio"
	case "deg":
		return "°"
	case "rpm":
		return "rev/min"
	default:
		return unit
	}
}
