package plotting

import (
	"math"
	"math/cmplx"
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
	d := c.vectorDiagram(0)
	at := plotter.XY{}
	for k, arrow := range d.arrows {
		beta := c.Analysis.Bends[k].Angle / kinematics.Degree
		if got := arrow.length(); !near(got, beta*beta, 1e-12) {
			t.Errorf("arrow %d: length %g deg², want β² = %g", k+1, got, beta*beta)
		}
		if arrow.from != at {
			t.Errorf("arrow %d starts at %v, want %v, the end of the one before", k+1, arrow.from, at)
		}
		at = arrow.to
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
	d := c.vectorDiagram(0)
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

// Of joints in one plane all arrows lie on one line: they are drawn apart, and still each
// from the end of the one before to its own, the last to the sum, which is in the circle
// of the limit where it is below it.
func TestArrowsEndWhereTheirNumbersSay(t *testing.T) {
	t.Parallel()
	zigzag := func(n int, odd float64) [][2]float64 {
		slopes := make([][2]float64, n)
		for k := 1; k < n; k += 2 {
			slopes[k][0] = odd
		}
		return slopes
	}
	uneven := zigzag(12, 0)
	for k, down := range []float64{0, 3, 0, 5, 0, 4, 1, 6, 0, 2, 0, 7} {
		uneven[k][0] = down
	}
	for name, c := range map[string]*Case{
		"one joint":              newCase(t, 0, [][2]float64{{0, 0}, {5, 0}}),
		"cancelling pair":        newCase(t, 0, zigzag(3, 12)),
		"eleven joints":          newCase(t, 0, uneven),
		"sixty-three joints":     newCase(t, 0, zigzag(64, 2.9)),
		"three that cancel":      newCase(t, 0, [][2]float64{{0, 0}, {20, 0}, {0, 0}, {20, 0}}, 30, 30),
		"one hardly bent at all": newCase(t, 0, [][2]float64{{0, 0}, {5, 0}, {4.999, 0}}),
	} {
		const limit = 3 * kinematics.Degree
		d := c.vectorDiagram(limit)
		var at complex128
		for k, n := range d.of {
			var term complex128
			for _, one := range c.Analysis.SecondOrder.Terms[n.first : n.last+1] {
				term += one
			}
			course := d.arrows[k].course(24)
			if tail, head := course[0], course[len(course)-1]; !same(tail, at) || !same(head, at+term) {
				t.Errorf("%s: arrow %d drawn from %v to %v, want %v to %v", name, k+1, tail, head, inSquareDegrees(at), inSquareDegrees(at+term))
			}
			at += term
			for i, other := range d.arrows[:k] {
				seen := width(d.reach()) / 80 // 4 of the 300 pt of the figure
				if d.arrows[k].like == k && min(d.arrows[k].length(), other.length()) > 2*seen && d.arrows[k].covers(other, seen) > 0 {
					t.Errorf("%s: arrow %d lies on arrow %d", name, k+1, i+1)
				}
			}
		}
		last := d.arrows[len(d.arrows)-1].to
		within := cmplx.Abs(c.Analysis.SecondOrder.Sum) <= limit*limit
		if !same(last, c.Analysis.SecondOrder.Sum) || (math.Hypot(last.X, last.Y) <= d.limit+1e-9) != within {
			t.Errorf("%s: the last arrow ends at %v, want the sum %v", name, last, d.sum)
		}
	}
}

// Of more joints than arrows can be told apart neighbours share one: each joint is in one of
// them, and the legend names all.
func TestManyJointsShareArrows(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ joints, arrows, together int }{
		{1, 1, 1}, {16, 16, 1}, {17, 9, 2}, {32, 16, 2}, {33, 9, 4}, {63, 16, 4}, {70, 12, 6},
	} {
		slopes := make([][2]float64, test.joints+1)
		for k := range slopes {
			slopes[k][0] = float64(k * k % 7)
		}
		c := newCase(t, 0, slopes)
		list := c.neighbours()
		next := 0
		for _, n := range list {
			if n.first != next || n.last < n.first || n.last-n.first+1 > test.together {
				t.Errorf("%d joints: %v behind joint %d, want up to %d together", test.joints, n, next, test.together)
			}
			next = n.last + 1
		}
		if len(list) != test.arrows || next != test.joints {
			t.Errorf("%d joints: %d arrows up to joint %d, want %d", test.joints, len(list), next, test.arrows)
		}
		f, err := Vectors(c, 0)
		if err != nil {
			t.Fatal(err)
		}
		if told := strings.Contains(f.Caption, "each arrow is the sum of"); told != (test.together > 1) {
			t.Errorf("%d joints: caption %q", test.joints, f.Caption)
		}
		svg := drawn(t, f)
		for _, n := range list {
			if name := "joints " + n.String() + ":"; n.last > n.first && !strings.Contains(svg, name) {
				t.Errorf("%d joints: no %q in the legend", test.joints, name)
			}
		}
	}
}

// same allows for the rounding of sums of up to 5000 deg².
func same(p plotter.XY, v complex128) bool {
	want := inSquareDegrees(v)
	return near(p.X, want.X, 1e-9) && near(p.Y, want.Y, 1e-9)
}

// Arrows that are apart anyway are straight; of those that fold back no more bow than must.
func TestArrowsBowNoMoreThanNeeded(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		c     *Case
		bowed int
	}{
		{"triangle", newCase(t, 0, [][2]float64{{0, 0}, {20, 0}, {0, 0}, {20, 0}}, 30, 30), 0},
		{"pair", newCase(t, 0, [][2]float64{{0, 0}, {5, 0}, {0, 0}}), 1},
		{"one", newCase(t, 0, [][2]float64{{0, 0}, {5, 0}}), 1},
	} {
		bowed := 0
		d := test.c.vectorDiagram(0)
		for _, a := range d.arrows {
			if a.bow != 0 {
				bowed++
			}
		}
		if bowed != test.bowed || (d.remarks() != "") != (bowed > 0) {
			t.Errorf("%s: %d arrows bowed, remark %q, want %d", test.name, bowed, d.remarks(), test.bowed)
		}
	}
}

// Several drivelines are drawn to one scale, each with its own limit.
func TestCompareVectors(t *testing.T) {
	t.Parallel()
	small, large := newCase(t, 0, [][2]float64{{0, 0}, {2, 0}}), newCase(t, 0, [][2]float64{{0, 0}, {12, 0}})
	small.Name, large.Name = "a small one", "a large one"
	f, err := CompareVectors([]*Case{small, large}, []float64{3 * kinematics.Degree, 0})
	if err != nil {
		t.Fatal(err)
	}
	places, err := f.Places()
	if err != nil {
		t.Fatal(err)
	}
	if len(places) != 2 || places[0].X != places[1].X || places[0].Y != places[1].Y {
		t.Errorf("got panels %v, want two with the same axes", places)
	}
	svg := drawn(t, f)
	for _, want := range []string{"a small one", "a large one", "4.00 deg²", "144 deg²", "limit: one joint"} {
		if !strings.Contains(svg, want) {
			t.Errorf("figure does not say %q", want)
		}
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
	if want := "What is left acts like one joint at 3.00° by this sum, and exactly at 3.00°."; !strings.Contains(f.Caption, want) {
		t.Errorf("caption: got %q, want %q in it", f.Caption, want)
	}
}
