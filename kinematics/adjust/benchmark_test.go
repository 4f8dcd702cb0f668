package adjust

import (
	"context"
	"math"
	"runtime"
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
	tried, groups := int64(0), groups(changesOf(b, s), 3)
	q := &quest{survey: s, stands: []*stand{standOf(b, s)}, workers: runtime.GOMAXPROCS(0), progress: func(n int64) { tried += n }}
	for b.Loop() {
		if _, err := q.explore(b.Context(), groups); err != nil {
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
