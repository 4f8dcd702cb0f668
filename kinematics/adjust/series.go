package adjust

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// Quantity is something about a driveline that a sweep shows: what limits.Gauge
// shows, and the least margin to a limit.
type Quantity struct {
	Key     string // with its unit, such as "working_angle_deg"
	Name    string // in words
	Subject string // joint, joints or shaft; "" for the whole driveline
	Unit    string // "deg", "rad/s²" or "" for a plain number
	// HighIsGood is set for the margin; of everything else less is better.
	HighIsGood bool
}

// KeyMargin is the key of the least margin to a limit, in parts of the limit.
const KeyMargin = "margin"

// Column names the quantity in a table: working_angle_deg(centre joint).
func (q Quantity) Column() string {
	if q.Subject == "" {
		return q.Key
	}
	return fmt.Sprintf("%s(%s)", q.Key, q.Subject)
}

// is reports whether the quantity is what a gauge shows.
func (q Quantity) is(s limits.Shown) bool { return s.Key == q.Key && s.Subject == q.Subject }

// quantitiesOf returns what can be shown of a valid survey, the margin first.
func quantitiesOf(s *survey.Survey) ([]Quantity, error) {
	g, err := limits.NewGauge(s.Complete())
	if err != nil {
		return nil, err
	}
	list := []Quantity{{Key: KeyMargin, Name: "least margin to a limit", HighIsGood: true}}
	for _, shown := range g.Shown {
		list = append(list, Quantity{Key: shown.Key, Name: shown.Name, Subject: shown.Subject, Unit: shown.Unit})
	}
	return list, nil
}

// ParseQuantities returns the quantities of a valid survey that are asked for, by
// column, or by key for those of every subject; all of them where none is.
func ParseQuantities(s *survey.Survey, columns ...string) ([]Quantity, error) {
	all, err := quantitiesOf(s)
	if err != nil || len(columns) == 0 {
		return all, err
	}
	var chosen []Quantity
	for _, column := range columns {
		n := len(chosen)
		for _, q := range all {
			if column == q.Key || column == q.Column() {
				chosen = append(chosen, q)
			}
		}
		if len(chosen) == n {
			var keys []string
			for _, q := range all {
				if !slices.Contains(keys, q.Key) {
					keys = append(keys, q.Key)
				}
			}
			return nil, fmt.Errorf("%q: want one of %s", column, strings.Join(keys, ", "))
		}
	}
	return chosen, nil
}

// Series is a quantity at every point of a sweep.
type Series struct {
	Quantity
	Values []float64 // NaN where there is no driveline, no speed that it needs, or no limit to have a margin to
	// AtMost and AtLeast are the limits at each point, NaN for none; on a map over
	// which they do not change, only one.
	AtMost, AtLeast []float64
	Present         float64 // as measured
	Best            int     // index of the best value; -1 where all are NaN
}

// newSeries returns empty series of so many points, with limits at so many.
func newSeries(quantities []Quantity, points, bounds int) []Series {
	var list []Series
	for _, q := range quantities {
		list = append(list, Series{
			Quantity: q, Values: make([]float64, points), AtMost: make([]float64, bounds), AtLeast: make([]float64, bounds),
		})
	}
	return list
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
