package adjust

import (
	"math"
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// Quantity is something about a driveline that a sweep shows.
type Quantity struct {
	Key     string // with its unit, such as "working_angle_deg"
	Name    string // in words
	Subject string // joint or shaft; "" for the whole driveline
	Unit    string // "deg", "rad/s²" or "" for a plain number
	// HighIsGood is set for the margin; of everything else less is better.
	HighIsGood bool
}

// Keys of quantities.
const (
	KeyMargin          = "margin" // least margin to a limit, in parts of the limit
	KeyWorkingAngle    = "working_angle_deg"
	KeyEquivalent      = "equivalent_angle_deg"             // left at the last shaft, exact
	KeyFirstOrder      = "equivalent_angle_first_order_deg" // the same by the small-angle theory
	KeyNonuniformity   = "nonuniformity"                    // left at the last shaft
	KeyResidualAccel   = "residual_accel_rad_s2"            // left at the last shaft
	KeyInertiaDriving  = "inertia_drive_accel_rad_s2"
	KeyInertiaCoasting = "inertia_coast_accel_rad_s2"
)

// Series is a quantity at every point of a sweep, or in every pose.
type Series struct {
	Quantity
	Values []float64 // NaN where there is no driveline, or no limit to have a margin to
	// AtMost and AtLeast are the limits at each point; NaN: none there.
	AtMost, AtLeast []float64
	Present         float64 // as measured
	Best            int     // index of the best value; -1 where all are NaN
}

// newSeries returns an empty series for every meter.
func newSeries(meters []meter, points int) []Series {
	series := make([]Series, len(meters))
	for i, m := range meters {
		series[i] = Series{
			Quantity: m.Quantity,
			Values:   make([]float64, points),
			AtMost:   make([]float64, points),
			AtLeast:  make([]float64, points),
		}
	}
	return series
}

// close completes a series whose values are all there.
func (s *Series) close(present float64) {
	s.Present, s.Best = present, -1
	for i, v := range s.Values {
		if math.IsNaN(v) {
			continue
		}
		if s.Best < 0 || s.HighIsGood && v > s.Values[s.Best] || !s.HighIsGood && v < s.Values[s.Best] {
			s.Best = i
		}
	}
}

// meter reads a quantity off a driveline.
type meter struct {
	Quantity
	read   func(*moment) float64
	limits []string // that apply to it, by name
}

// meters returns what can be read off a complete survey, the margin first.
func meters(s *survey.Survey) []meter {
	var list []meter
	add := func(key, name, subject, unit string, read func(*moment) float64, limits ...string) {
		list = append(list, meter{Quantity{key, name, subject, unit, key == KeyMargin}, read, limits})
	}
	add(KeyMargin, "least margin to a limit", "", "", (*moment).margin)
	for k, j := range s.Joints {
		add(KeyWorkingAngle, "working angle", j.Name, "deg", func(m *moment) float64 { return m.d.WorkingAngle(k) / kinematics.Degree },
			survey.LimitWorkingAngleMin, survey.LimitWorkingAngleMax, survey.LimitOddJointMax, survey.LimitOddJointMin, survey.LimitLoneJointMax,
			survey.LimitConstantVelocityMax, survey.LimitDoubleCardanMax)
	}
	last := len(s.Shafts) - 1
	name := s.Shafts[last].Name
	add(KeyEquivalent, "equivalent angle", name, "deg",
		func(m *moment) float64 { return m.driving[last].Angle() / kinematics.Degree }, survey.LimitEquivalentAngle)
	add(KeyFirstOrder, "equivalent angle, first order", name, "deg",
		func(m *moment) float64 { return m.d.SecondOrder().Equivalent / kinematics.Degree }, survey.LimitEquivalentAngle)
	add(KeyNonuniformity, "non-uniformity", name, "",
		func(m *moment) float64 { return m.driving[last].Nonuniformity() }, survey.LimitNonuniformity)
	add(KeyResidualAccel, "torsional acceleration left", name, "rad/s²",
		func(m *moment) float64 { return m.accel(m.driving[last]) }, survey.LimitResidualAccel)
	for k := 1; k < last; k++ {
		add(KeyInertiaDriving, "torsional acceleration, driving", s.Shafts[k].Name, "rad/s²",
			func(m *moment) float64 { return m.accel(m.driving[k]) }, survey.LimitInertiaDriveAccel)
		add(KeyInertiaCoasting, "torsional acceleration, coasting", s.Shafts[k].Name, "rad/s²",
			func(m *moment) float64 { return m.accel(m.coasting[k]) }, survey.LimitInertiaCoastAccel)
	}
	return list
}

// scale is a gauge and, for every meter, the limits at its speed.
type scale struct {
	gauge           *limits.Gauge
	atMost, atLeast []float64 // NaN: none
}

func newScale(s *survey.Survey, meters []meter) (*scale, error) {
	gauge, err := limits.NewGauge(s)
	if err != nil {
		return nil, err
	}
	c := &scale{gauge, make([]float64, len(meters)), make([]float64, len(meters))}
	for i, m := range meters {
		c.atMost[i], c.atLeast[i] = math.NaN(), math.NaN()
		if m.Key == KeyMargin && len(gauge.Judged) > 0 {
			c.atLeast[i] = 0
		}
		for _, judged := range gauge.Judged {
			limit := judged.Limit
			switch {
			case judged.Subject != m.Subject || !slices.Contains(m.limits, limit.Name):
			case limit.Sense == limits.AtLeast:
				c.atLeast[i] = limit.Value
			case !(limit.Value >= c.atMost[i]): // the tightest
				c.atMost[i] = limit.Value
			}
		}
	}
	return c, nil
}

// moment is a driveline and what is read off it. It is for one goroutine.
type moment struct {
	d                 *kinematics.Driveline
	scale             *scale
	driving, coasting []kinematics.Motion
	judged            []float64 // values of the scale's gauge
}

// set changes the shafts and the scale.
func (m *moment) set(shafts []kinematics.Shaft, scale *scale) error {
	m.scale = scale
	if err := m.d.Set(shafts); err != nil {
		return err
	}
	m.driving, m.coasting = m.d.Driving(m.driving), m.d.Coasting(m.coasting)
	m.judged = scale.gauge.Measure(m.d, m.judged)
	return nil
}

// accel returns the peak acceleration of a motion in rad/s².
func (m *moment) accel(of kinematics.Motion) float64 {
	omega := m.scale.gauge.RPM * kinematics.RPM
	return omega * omega * of.PeakAccel()
}

// margin returns the least margin of what is judged; NaN where nothing is.
func (m *moment) margin() float64 {
	least := math.NaN()
	for q, v := range m.judged {
		if here := m.scale.gauge.Judged[q].Limit.Margin(v); !(here >= least) {
			least = here
		}
	}
	return least
}
