package plotting

import (
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A text leaves its side for another only where it would cover lines, other texts or the edge of the data area.
func TestClearest(t *testing.T) {
	t.Parallel()
	rising, falling := []vg.Point{{X: 0, Y: 0}, {X: 200, Y: 200}}, []vg.Point{{X: 0, Y: 200}, {X: 200, Y: 0}}
	for _, test := range []struct {
		name   string
		at     XY
		wanted Side
		lines  [][]vg.Point
		want   Side
	}{
		{"nothing near", XY{0.5, 0.5}, RightAbove, nil, RightAbove},
		{"on a rising line", XY{0.5, 0.5}, RightAbove, [][]vg.Point{rising}, RightBelow},
		{"on a falling line", XY{0.5, 0.5}, LeftAbove, [][]vg.Point{falling}, LeftBelow},
		{"wanted side free of the line", XY{0.5, 0.5}, LeftAbove, [][]vg.Point{rising}, LeftAbove},
		{"where lines cross", XY{0.5, 0.5}, LeftBelow, [][]vg.Point{rising, falling}, Left},
		{"at the top", XY{0.5, 1}, RightAbove, nil, RightBelow},
		{"at the right", XY{1, 0.5}, RightAbove, nil, LeftAbove},
		{"in a corner", XY{1, 1}, Above, nil, LeftBelow},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			unit := scale{Interval: Interval{0, 1}}
			s := &Sketch{x: unit, y: unit, letters: lettersFor(Single)}
			s.Canvas = draw.Canvas{Rectangle: vg.Rectangle{Max: vg.Point{X: 200, Y: 200}}}
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
	f, err := SweepCurve(Sweep{
		Varied: "phase, °", At: []float64{-90, 0, 90}, Unit: "°",
		Swept: []Swept{{Quantity: "angle", Values: []float64{4, 1, 4}, Present: &XY{3, 1.1}, Best: &XY{0, 1}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	p, err := f.arrange()
	if err != nil {
		t.Fatal(err)
	}
	var best, present vg.Rectangle
	for _, text := range inks(p) {
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
	if f.Title != "What does phase change?" {
		t.Errorf("title %q, want it to name what is varied", f.Title)
	}
}
