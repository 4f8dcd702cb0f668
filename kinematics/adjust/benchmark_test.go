package adjust

import (
	"bytes"
	"testing"

	"halfturn/examples"
	"halfturn/kinematics/survey"
)

// benchmarked runs a benchmark on a short and on a long driveline.
func benchmarked(b *testing.B, run func(*testing.B, *survey.Survey)) {
	text, err := examples.Files.ReadFile("two-piece.json")
	if err != nil {
		b.Fatal(err)
	}
	short, err := survey.Read("two-piece.json", bytes.NewReader(text))
	if err != nil {
		b.Fatal(err)
	}
	long := &survey.Survey{RPM: 2500, ReadingErrorDeg: 0.1}
	for _, down := range []float64{3, 3.4, 4.1, 3.2, 5, 6.2, 3.1} {
		long.Shafts = append(long.Shafts, survey.Shaft{Slope: survey.Down(down), Length: 900})
	}
	b.Run("two-piece", func(b *testing.B) { run(b, short) })
	b.Run("seven shafts", func(b *testing.B) { run(b, long.Complete()) })
}

// Whole searches, with the judgements of what they find.
func BenchmarkSearch(b *testing.B) {
	benchmarked(b, func(b *testing.B, s *survey.Survey) {
		for b.Loop() {
			if _, err := Search(b.Context(), s, Options{}); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// Maps of 101 by 101 points of one quantity.
func BenchmarkMap(b *testing.B) {
	benchmarked(b, func(b *testing.B, s *survey.Survey) {
		quantities, err := ParseQuantities(s, "exact_equivalent_angle_deg")
		if err != nil {
			b.Fatal(err)
		}
		var variables []Variable
		for _, spec := range []string{s.Shafts[1].Name + ".down=0:5:0.05", s.Shafts[1].Name + ".phase=-50:50:1"} {
			v, err := ParseVariable(s, spec)
			if err != nil {
				b.Fatal(err)
			}
			variables = append(variables, v)
		}
		for b.Loop() {
			if _, err := NewSweep(b.Context(), s, quantities, variables, nil); err != nil {
				b.Fatal(err)
			}
		}
	})
}
