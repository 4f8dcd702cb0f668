package plotting

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics"
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// The arrows are the terms of the second order, head to tail, and end at their sum; the
// ring is the exact result.
func TestVectorDiagram(t *testing.T) {
	t.Parallel()
	c := newCase(t, 2800, [][2]float64{{0, 0}, {12, 0}, {10, 9}, {3, 3}}, 20, -50)
	s := c.Analysis.SecondOrder
	d := c.vectorDiagram()
	at := plotter.XY{}
	for k, arrow := range d.arrows {
		dx, dy := arrow[1].X-arrow[0].X, arrow[1].Y-arrow[0].Y
		beta := c.Analysis.Bends[k].Angle / kinematics.Degree
		if got := math.Hypot(dx, dy); !near(got, beta*beta, 1e-12) {
			t.Errorf("arrow %d: length %g deg², want β² = %g", k+1, got, beta*beta)
		}
		if arrow[0] != at {
			t.Errorf("arrow %d starts at %v, want %v, the end of the one before", k+1, arrow[0], at)
		}
		at = arrow[1]
	}
	if at != d.sum {
		t.Errorf("arrows end at %v, want the sum %v", at, d.sum)
	}
	if got := math.Sqrt(math.Hypot(d.sum.X, d.sum.Y)); !near(got, s.Equivalent/kinematics.Degree, 1e-12) {
		t.Errorf("sum stands for one joint at %g°, want %g°", got, s.Equivalent/kinematics.Degree)
	}
	if got := math.Sqrt(math.Hypot(d.exact.X, d.exact.Y)); !near(got, s.Exact/kinematics.Degree, 1e-12) {
		t.Errorf("exact result stands for one joint at %g°, want %g°", got, s.Exact/kinematics.Degree)
	}
	// The exact result departs from the sum by terms of fourth order: β⁴ is 6 deg² at
	// 12°.
	if gap := math.Hypot(d.exact.X-d.sum.X, d.exact.Y-d.sum.Y); gap > 6 {
		t.Errorf("exact result %v is %g deg² away from the sum %v, want about the same place", d.exact, gap, d.sum)
	}
}

// The axes say what the vectors mean: the deviation of the last shaft's speed is
// −Re(v·e^{2jθ})/2 to first order.
func TestVectorAxes(t *testing.T) {
	t.Parallel()
	c := newCase(t, 2800, [][2]float64{{0, 0}, {0.3, 0.5}, {-0.2, 0.1}}, 33)
	d := c.vectorDiagram()
	last := c.Analysis.Driving[c.last()]
	square := kinematics.Degree * kinematics.Degree
	slower := -2 * (last.At(0).Ratio - 1) / square
	faster := 2 * (last.At(45*kinematics.Degree).Ratio - 1) / square
	// The next order is β⁴, 1e-4 deg² at these angles.
	if !near(d.sum.X, slower, 1e-4) || !near(d.sum.Y, faster, 1e-4) {
		t.Errorf("sum at %v deg², want (%g, %g): slower at 0°, faster at 45°", d.sum, slower, faster)
	}
	if math.Hypot(slower, faster) < 0.1 {
		t.Errorf("the case has a residual of (%g, %g) deg² only: it tests nothing", slower, faster)
	}
}

// Arrows on one line step aside so that each can be seen; arrows that enclose an area do
// not.
func TestArrowsStepAside(t *testing.T) {
	t.Parallel()
	flat := newCase(t, 0, [][2]float64{{0, 0}, {5, 0}, {0, 0}}).vectorDiagram()
	if a := flat.arrows; a[0][0].Y == a[1][0].Y {
		t.Errorf("opposite arrows lie on each other: %v", a)
	}
	if flat.sum != (plotter.XY{}) {
		t.Errorf("sum at %v, want none", flat.sum)
	}
	triangle := newCase(t, 0, [][2]float64{{0, 0}, {20, 0}, {0, 0}, {20, 0}}, 30, 30).vectorDiagram()
	if start := triangle.arrows[0][0]; start != (plotter.XY{}) {
		t.Errorf("first arrow starts at %v, want the origin", start)
	}
}

func TestVectorFigureNamesItsNumbers(t *testing.T) {
	t.Parallel()
	f, err := Vectors(newCase(t, 2600, [][2]float64{{0, 0}, {5, 0}, {1, 0}}), 3*kinematics.Degree)
	if err != nil {
		t.Fatal(err)
	}
	svg := drawn(t, f)
	// By hand: 5² − 4² = 9 = 3², and acos(cos 5°/cos 4°) = 3.0024°.
	for _, want := range []string{"1 joint a, 5.00°: 25.0 deg²", "2 joint b, 4.00°: 16.0 deg²", "limit: one joint at 3.00°"} {
		if !strings.Contains(svg, want) {
			t.Errorf("figure does not say %q", want)
		}
	}
	if want := "What is left acts like one joint at 3.00° by this sum, and exactly at 3.00°."; !strings.HasSuffix(f.Caption, want) {
		t.Errorf("caption: got %q, want it to end with %q", f.Caption, want)
	}
}
