package limits

import (
	"math"
	"slices"

	"halfturn/kinematics/survey"
)

// Curve is a limit as it depends on speed. Where it changes in a step there are two
// points at speeds that are as good as one.
type Curve struct {
	RPM, Value []float64
	Basis      string // who says so; "" for the tightest of several
}

// curvePoints is the number of speeds of a curve, but for its steps.
const curvePoints = 241

// AnglesOf returns the largest working angle, in degrees, that the set allows joints of a
// role at each speed up to top, in rpm: the tightest of what holds for every Cardan joint
// and the limit that is named for them, "" for none. There are no points where nothing
// limits it.
func (s Set) AnglesOf(role string, top float64) Curve {
	names := []string{survey.LimitWorkingAngleMax, survey.LimitSpeedAngle, role}
	var bounds []bound
	for _, c := range s.choices {
		if slices.Contains(names, c.name) {
			bounds = append(bounds, c.bound)
		}
	}
	return newCurve(top, bounds, func(rpm float64) (float64, bool) {
		least := math.Inf(1)
		for _, name := range names {
			l, ok := s.Limit(name, rpm)
			switch {
			case !ok:
			case name == survey.LimitSpeedAngle:
				least = min(least, l.Value/rpm)
			default:
				least = min(least, l.Value)
			}
		}
		return least, least < 90 // what allows more limits nothing
	})
}

// Printed returns every printed limit of a name for the work of the set, at speeds up
// to top, in rpm.
func (s Set) Printed(name string, top float64) []Curve {
	var curves []Curve
	for _, p := range pertinent(s.Name, name) {
		c := newCurve(top, []bound{p.bound}, p.bound.at)
		c.Basis = p.basis()
		curves = append(curves, c)
	}
	return curves
}

// newCurve samples a function of the speed above standstill, where it has a value, on
// both sides of the steps of the bounds that it is made of.
func newCurve(top float64, bounds []bound, at func(rpm float64) (float64, bool)) Curve {
	speeds := []float64{math.SmallestNonzeroFloat64}
	for i := 1; i < curvePoints; i++ {
		speeds = append(speeds, top*float64(i)/(curvePoints-1))
	}
	for _, b := range bounds {
		table, _ := b.(tableBound)
		for _, r := range table {
			if r.rpm < top {
				speeds = append(speeds, r.rpm, math.Nextafter(r.rpm, top))
			}
		}
	}
	slices.Sort(speeds)
	var c Curve
	for _, rpm := range slices.Compact(speeds) {
		if v, ok := at(rpm); ok {
			c.RPM = append(c.RPM, rpm)
			c.Value = append(c.Value, v)
		}
	}
	return c
}
