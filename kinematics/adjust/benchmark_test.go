package adjust

import (
	"context"
	"math"
	"testing"

	"halfturn/kinematics/survey"
)

// noWay is twoPiece with three changes of 45 to 48 settings each and a limit
// that no combination keeps, so that all of them are tried: some 100 000.
func noWay() *survey.Survey {
	s := twoPiece()
	s.Limits.Values = map[string]float64{survey.LimitResidualAccel: 1e-3}
	s.Adjust = []survey.Change{
		{Change: survey.ChangeWedge, On: "axle pinion", From: -3, To: 3, Step: 0.125},
		{Change: survey.ChangeBearingHeight, On: "centre joint", From: 0, To: 45, Step: 1},
		{Change: survey.ChangeMount, On: "gearbox output", From: 0, To: 45, Step: 1},
	}
	return s
}

// BenchmarkCombinations tries combinations of three changes of a three-joint
// driveline on all cores.
func BenchmarkCombinations(b *testing.B) {
	s := noWay()
	g := newGeometry(s)
	states, err := states(s, false)
	if err != nil {
		b.Fatal(err)
	}
	standing, err := newStand(posed{"", s}, states[0].Judgement)
	if err != nil {
		b.Fatal(err)
	}
	var changes []*change
	for _, c := range s.Adjust {
		made, err := newChange(s, g, c)
		if err != nil {
			b.Fatal(err)
		}
		changes = append(changes, made)
	}
	tried := int64(0)
	q := &quest{survey: s, stands: []*stand{standing}, workers: 2, progress: func(n int64) { tried += n }}
	for b.Loop() {
		if _, err := q.explore(b.Context(), groups(changes, 3)); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(tried)/b.Elapsed().Seconds(), "combinations/s")
}

// BenchmarkSearch is a whole search of 100 000 combinations, verdicts and all.
func BenchmarkSearch(b *testing.B) {
	s := noWay()
	for b.Loop() {
		r, err := Search(context.Background(), s, Options{})
		if err != nil {
			b.Fatal(err)
		}
		if r.Tried < 100_000 {
			b.Fatalf("%d combinations, want 100000", r.Tried)
		}
	}
}

// BenchmarkMap is a map of 201 × 201 points.
func BenchmarkMap(b *testing.B) {
	s := twoPiece()
	var variables []Variable
	for _, spec := range []string{"wedge(axle pinion)=-4:4", "bearing-height(centre joint)=-20:20"} {
		v, err := ParseVariable(s, spec)
		if err != nil {
			b.Fatal(err)
		}
		variables = append(variables, v)
	}
	for b.Loop() {
		w, err := NewSweep(context.Background(), s, variables...)
		if err != nil {
			b.Fatal(err)
		}
		if n := len(w.Series[0].Values); n != 201*201 || math.IsNaN(w.Series[0].Values[0]) {
			b.Fatalf("%d points from %v", n, w.Series[0].Values[0])
		}
	}
}
