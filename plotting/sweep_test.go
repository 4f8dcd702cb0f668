package plotting

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/plotter"
)

func TestSweepCurve(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	exact := Swept{
		Quantity: "exact", Values: []float64{500, nan, 100, 200}, AtMost: []float64{nan, 300, 300, 300},
		Present: &plotter.XY{X: 0, Y: 500}, Best: &plotter.XY{X: 2, Y: 100},
	}
	theory := Swept{Quantity: "by theory", Values: []float64{510, 300, 110, 190}}
	for _, test := range []struct {
		name     string
		swept    []Swept
		want     []string
		unwanted string
	}{
		{"one", []Swept{exact}, []string{"exact, rad/s²", "at most", "as it is", "best"}, "by theory"},
		{"two", []Swept{exact, theory}, []string{"rad/s²", "exact", "by theory"}, "at most"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			f, err := SweepCurve(Sweep{Name: "a van", Varied: "shim, mm", At: []float64{0, 1, 2, 3}, Unit: "rad/s²", Swept: test.swept})
			if err != nil {
				t.Fatal(err)
			}
			svg := drawn(t, f)
			for _, want := range append(test.want, "shim, mm", "a van") {
				if !strings.Contains(svg, want) {
					t.Errorf("figure does not say %q", want)
				}
			}
			if strings.Contains(svg, test.unwanted) {
				t.Errorf("figure says %q", test.unwanted)
			}
		})
	}
}

func TestSweepMap(t *testing.T) {
	t.Parallel()
	g := SweepGrid{Name: "a van", Across: "shim, mm", Up: "phase, °", Quantity: "acceleration, rad/s²", Limit: 50, Present: &plotter.XY{X: 0, Y: 0}, Best: &plotter.XY{X: 5, Y: 5}}
	for i := range 11 {
		g.AtAcross, g.AtUp = append(g.AtAcross, float64(i)), append(g.AtUp, float64(i))
	}
	for j := range 11 {
		row := make([]float64, 11)
		for i := range row {
			row[i] = float64(i*i + j*j)
		}
		g.Values = append(g.Values, row)
	}
	g.Values[10][10] = math.NaN()
	f, err := SweepMap(g)
	if err != nil {
		t.Fatal(err)
	}
	svg := drawn(t, f)
	for _, want := range []string{"shim, mm", "phase, °", "limit 50", "as it is", "best", "impossible"} {
		if !strings.Contains(svg, want) {
			t.Errorf("figure does not say %q", want)
		}
	}
}
