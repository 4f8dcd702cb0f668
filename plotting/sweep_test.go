package plotting

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics/adjust"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// variables are those of a driveline of three shafts.
func variables(t *testing.T, specs ...string) []adjust.Variable {
	t.Helper()
	s, err := survey.Read("a file", strings.NewReader(`{"shafts": [{"down": 3}, {"name": "rear shaft", "down": 5.5}, {"name": "pinion", "down": 3.2}]}`))
	if err != nil {
		t.Fatal(err)
	}
	var list []adjust.Variable
	for _, spec := range specs {
		v, err := adjust.ParseVariable(s, spec)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, v)
	}
	return list
}

func TestSweepCurve(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	w := &adjust.Sweep{
		Variables: variables(t, "wedge(pinion)=0:3"),
		Axes:      [][]float64{{0, 1, 2, 3}}, Present: []float64{0},
	}
	exact := adjust.Series{
		Quantity: adjust.Quantity{Name: "exact", Unit: "rad/s²"}, Values: []float64{500, nan, 100, 200},
		AtMost: []float64{nan, 300, 300, 300}, AtLeast: []float64{nan, nan, nan, nan}, Present: 500, Best: 2,
	}
	theory := exact
	theory.Name, theory.Subject = "by theory", "pinion"
	for _, test := range []struct {
		name     string
		series   []adjust.Series
		want     []string
		unwanted string
	}{
		{"one", []adjust.Series{exact}, []string{"exact, rad/s²", ">at most 300 rad/s²<", "as it is", "best"}, "by theory"},
		{"two", []adjust.Series{exact, theory}, []string{"rad/s²", "exact", "by theory at pinion"}, "at most"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			f, err := Sweep("a van", w, test.series)
			if err != nil {
				t.Fatal(err)
			}
			if f.Title != "What does the wedge at pinion change?" {
				t.Errorf("title %q, want it to name what is varied", f.Title)
			}
			svg := drawn(t, f)
			for _, want := range append(test.want, "wedge at pinion, °", "a van") {
				if !strings.Contains(svg, want) {
					t.Errorf("figure does not say %q", want)
				}
			}
			if strings.Contains(svg, test.unwanted) {
				t.Errorf("figure says %q", test.unwanted)
			}
		})
	}
	other := exact
	other.Unit = "deg"
	f, err := Sweep("", w, []adjust.Series{exact, other, theory})
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Rows) != 2 || f.Rows[1].Panels[0].Y.Label != "exact, °" {
		t.Errorf("two units: got %d panels, want 2, the second in °", len(f.Rows))
	}
}

// A limit by a table is drawn in steps, one that falls all the way as it falls.
func TestSweepLimitsAreSteps(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	x := []float64{0, 1, 2, 3, 4}
	for _, test := range []struct {
		name  string
		limit []float64
		want  plotter.XYs
		label string
	}{
		{"steps", []float64{6, 6, 4, 4, 4}, plotter.XYs{{X: 0, Y: 6}, {X: 1, Y: 6}, {X: 1, Y: 4}, {X: 2, Y: 4}, {X: 3, Y: 4}, {X: 4, Y: 4}}, "at most 4° at the end"},
		{"two steps", []float64{6, 6, 4, 3, 3}, plotter.XYs{{X: 0, Y: 6}, {X: 1, Y: 6}, {X: 1, Y: 4}, {X: 2, Y: 4}, {X: 2, Y: 3}, {X: 3, Y: 3}, {X: 4, Y: 3}}, "at most 3° at the end"},
		{"a fall", []float64{9, 7, 6, 5, 4}, plotter.XYs{{X: 0, Y: 9}, {X: 1, Y: 7}, {X: 2, Y: 6}, {X: 3, Y: 5}, {X: 4, Y: 4}}, "at most 4° at the end"},
		{"none at first", []float64{nan, 4, 4, 4, 4}, plotter.XYs{{X: 1, Y: 4}, {X: 2, Y: 4}, {X: 3, Y: 4}, {X: 4, Y: 4}}, "at most 4°"},
	} {
		var got plotter.XYs
		curve := sweepLimit("at most", "°", x, test.limit)[0].(page.Curve)
		if curve.End != test.label {
			t.Errorf("%s: label %q, want %q", test.name, curve.End, test.label)
		}
		for _, p := range curve.Points.(plotter.XYs) {
			if !math.IsNaN(p.Y) {
				got = append(got, p)
			}
		}
		if !slices.Equal(got, test.want) {
			t.Errorf("%s: got %v, want %v", test.name, got, test.want)
		}
	}
}

func TestSweepMap(t *testing.T) {
	t.Parallel()
	w := &adjust.Sweep{
		Variables: variables(t, "rpm=500:600", "rear shaft.phase=0:10"),
		Present:   []float64{0, 0}, Axes: make([][]float64, 2),
	}
	s := adjust.Series{Quantity: adjust.Quantity{Name: "acceleration", Unit: "rad/s²"}, Present: 0, Best: 5*11 + 5}
	for i := range 11 {
		w.Axes[0], w.Axes[1] = append(w.Axes[0], float64(10*i)), append(w.Axes[1], float64(i))
		for j := range 11 {
			s.Values, s.AtMost = append(s.Values, float64(100*i*i+j*j)), append(s.AtMost, 50)
		}
	}
	s.Values[len(s.Values)-1] = math.NaN()
	f, err := Sweep("a van", w, []adjust.Series{s})
	if err != nil {
		t.Fatal(err)
	}
	field := f.Rows[0].Panels[0].Layers[0].(page.Field)
	if field.Z[3][2] != 409 {
		t.Errorf("at (20, 3): got %g, want 409", field.Z[3][2])
	}
	if best := f.Rows[0].Panels[0].Layers[1].(page.Mark); best.At != (plotter.XY{X: 50, Y: 5}) {
		t.Errorf("best at %v, want (50, 5)", best.At)
	}
	svg := drawn(t, f)
	for _, want := range []string{"speed of the first shaft, rev/min", "phase of rear shaft, °", "limit 50.0 rad/s²", "as it is", "best", "impossible"} {
		if !strings.Contains(svg, want) {
			t.Errorf("figure does not say %q", want)
		}
	}
	if _, err := Sweep("", w, []adjust.Series{s, s}); err == nil || !strings.Contains(err.Error(), "want one for a map") {
		t.Errorf("two series on a map: got error %v", err)
	}
}

// What is best as it is has one mark that says so.
func TestSweepMarksOnceWhatIsBest(t *testing.T) {
	t.Parallel()
	w := &adjust.Sweep{Axes: [][]float64{{0, 1, 2}}, Present: []float64{1}}
	s := adjust.Series{Values: []float64{5, 2, 5}, Present: 2, Best: 1}
	if marks := sweepMarks(w, s); len(marks) != 1 || marks[0].(page.Mark).Text != "as it is, the best" {
		t.Errorf("got %v, want one mark", marks)
	}
	s.Values[2], s.Best = 1, 2
	if marks := sweepMarks(w, s); len(marks) != 2 {
		t.Errorf("got %v, want two marks", marks)
	}
}

// Angles of rotation have numbers at quarter turns.
func TestSweptRotation(t *testing.T) {
	t.Parallel()
	for _, spec := range []string{"rear shaft.phase=-90:90:90", "clocking(rear shaft)=-90:90:90"} {
		w := &adjust.Sweep{Variables: variables(t, spec), Axes: [][]float64{{-90, 0, 90}}, Present: []float64{0}}
		s := adjust.Series{Quantity: adjust.Quantity{Name: "left", Unit: "deg"}, Values: []float64{2, 1, 2}, Present: 1, Best: 1}
		f, err := Sweep("", w, []adjust.Series{s})
		if err != nil {
			t.Fatal(err)
		}
		svg := drawn(t, f)
		for _, want := range []string{">−90<", ">0<", ">90<"} {
			if !strings.Contains(svg, want) {
				t.Errorf("%s: no number %q", spec, want)
			}
		}
	}
}
