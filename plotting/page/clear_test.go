package page

import (
	"testing"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A text leaves its side for another only where it would cover lines, other texts or the
// edge of the data area.
func TestClearest(t *testing.T) {
	t.Parallel()
	rising, falling := []vg.Point{{X: 0, Y: 0}, {X: 200, Y: 200}}, []vg.Point{{X: 0, Y: 200}, {X: 200, Y: 0}}
	for _, test := range []struct {
		name   string
		at     plotter.XY
		wanted Side
		lines  [][]vg.Point
		want   Side
	}{
		{"nothing near", plotter.XY{X: 0.5, Y: 0.5}, RightAbove, nil, RightAbove},
		{"on a rising line", plotter.XY{X: 0.5, Y: 0.5}, RightAbove, [][]vg.Point{rising}, RightBelow},
		{"on a falling line", plotter.XY{X: 0.5, Y: 0.5}, LeftAbove, [][]vg.Point{falling}, LeftBelow},
		{"wanted side free of the line", plotter.XY{X: 0.5, Y: 0.5}, LeftAbove, [][]vg.Point{rising}, LeftAbove},
		{"where lines cross", plotter.XY{X: 0.5, Y: 0.5}, LeftBelow, [][]vg.Point{rising, falling}, Left},
		{"at the top", plotter.XY{X: 0.5, Y: 1}, RightAbove, nil, RightBelow},
		{"at the right", plotter.XY{X: 1, Y: 0.5}, RightAbove, nil, LeftAbove},
		{"in a corner", plotter.XY{X: 1, Y: 1}, Above, nil, LeftBelow},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := unit()
			s.Max = vg.Point{X: 200, Y: 200}
			s.avoid(test.lines...)
			if got := s.clearest(test.at, test.wanted, "as it is"); got != test.want {
				t.Errorf("got side %v, want %v", got, test.want)
			}
		})
	}
}

// Names of marks that stand together, on a curve, cover neither each other nor the curve.
func TestMarksKeepApart(t *testing.T) {
	t.Parallel()
	p := &Panel{}
	p.Add(
		Curve{Points: columns([]float64{-90, 0, 90}, []float64{4, 1, 4}), Pen: Accent()},
		Mark{At: plotter.XY{X: 0, Y: 1}, Text: "best", Side: LeftAbove, Color: Ink, Marker: draw.PyramidGlyph{}},
		Mark{At: plotter.XY{X: 3, Y: 1.1}, Text: "as it is", Side: RightAbove, Color: Signal, Marker: draw.CircleGlyph{}},
	)
	f := &Figure{}
	f.Add(p)
	arranged, err := f.arrange()
	if err != nil {
		t.Fatal(err)
	}
	var best, present vg.Rectangle
	for _, text := range inks(arranged) {
		switch text.text {
		case "best":
			best = text.Rectangle
		case "as it is":
			present = text.Rectangle
		}
	}
	if overlap(best, present) || best.Max.X > present.Min.X || best.Max.X == 0 {
		t.Errorf("best at %v, as it is at %v: want the best on the left", best, present)
	}
}
