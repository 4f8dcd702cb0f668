package plotting

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"

	"halfturn/kinematics"
)

// newCase returns a driveline of slopes (down, right) and phases in degrees with short names.
func newCase(t testing.TB, rpm float64, slopes [][2]float64, phases ...float64) *Case {
	t.Helper()
	shafts := make([]kinematics.Shaft, len(slopes))
	c := &Case{Name: "a case", RPM: rpm}
	for k, s := range slopes {
		shafts[k].Axis = kinematics.AxisFromSlopes(s[0]*kinematics.Degree, s[1]*kinematics.Degree)
		if 0 < k && k <= len(phases) {
			shafts[k].Phase = phases[k-1] * kinematics.Degree
		}
		c.Shafts = append(c.Shafts, "shaft "+string(rune('A'+k)))
		if k > 0 {
			c.Joints = append(c.Joints, "joint "+string(rune('a'+k-1)))
		}
	}
	var err error
	if c.Driveline, err = kinematics.New(shafts, nil); err != nil {
		t.Fatal(err)
	}
	if c.Analysis, err = c.Driveline.Analyse(); err != nil {
		t.Fatal(err)
	}
	return c
}

// twoPiece is a driveline with a twisted plane and a phase.
func twoPiece(t testing.TB) *Case {
	return newCase(t, 2800, [][2]float64{{3.4, 0}, {3.8, 0}, {6.1, 1.2}, {4, 0}}, 0, 5)
}

// curve returns the curve of a panel that has a name.
func curve(t *testing.T, p *Panel, name string) Curve {
	t.Helper()
	for _, layer := range p.Layers {
		if c, ok := layer.(Curve); ok && c.Name == name {
			return c
		}
	}
	t.Fatalf("panel %q: no curve %q", p.Title, name)
	return Curve{}
}

// The curves over a turn are the exact motion, evaluated anew at each position.
func TestCurvesOverATurn(t *testing.T) {
	t.Parallel()
	c := twoPiece(t)
	omega := 2800 * kinematics.RPM
	for _, test := range []struct {
		name     string
		quantity quantity
		want     func(kinematics.State) float64
		scale    float64 // size of rounding
	}{
		{"speed", speed, func(s kinematics.State) float64 { return 100 * (s.Ratio - 1) }, 100},
		{"lead", lead, func(s kinematics.State) float64 { return s.Lead / kinematics.Degree }, 1},
		{"acceleration", accelerationOf(2800), func(s kinematics.State) float64 { return s.Accel * omega * omega }, omega * omega},
		{"acceleration without speed", accelerationOf(0), func(s kinematics.State) float64 { return s.Accel }, 1},
	} {
		for _, drive := range []Drive{Driving, Coasting} {
			t.Run(test.name, func(t *testing.T) {
				turning, err := c.over(drive)
				if err != nil {
					t.Fatal(err)
				}
				p := test.quantity.everyShaft(turning, "left")
				for k, m := range c.motions(drive) {
					name := c.Shafts[k]
					if k == turning.left() {
						name = "left"
					}
					got := curve(t, p, name)
					if n := len(got.X); n != 361 || got.X[0] != 0 || got.X[n-1] != 360 {
						t.Fatalf("%d positions from %g to %g, want 361 from 0 to 360", n, got.X[0], got.X[n-1])
					}
					for i, x := range got.X {
						want := test.want(m.At(x * kinematics.Degree))
						// 1e-15 is a few roundings of numbers around 1.
						if math.Abs(got.Y[i]-want) > 4e-15*test.scale {
							t.Fatalf("%s at %g°: got %g, want %g", name, x, got.Y[i], want)
						}
					}
				}
			})
		}
	}
}

// For a small angle what is left is its second order but for terms of order β⁴.
func TestSecondOrderPartFollowsWhatIsLeft(t *testing.T) {
	t.Parallel()
	c := newCase(t, 2800, [][2]float64{{0, 0}, {1.5, 2}})
	const beta4 = 0.0436 * 0.0436 * 0.0436 * 0.0436 // β = 2.5°
	for _, q := range []quantity{speed, lead, accelerationOf(0)} {
		for _, drive := range []Drive{Driving, Coasting} {
			turning, err := c.over(drive)
			if err != nil {
				t.Fatal(err)
			}
			left, part := q.values(turning, turning.left()), q.secondOrder(turning)
			worst, largest := 0.0, 0.0
			for i := range left {
				worst = max(worst, math.Abs(left[i]-part[i]))
				largest = max(largest, math.Abs(left[i]))
			}
			if limit := q.unit * beta4; !(worst < limit) || !(largest > 50*limit) {
				t.Errorf("%s, drive %d: part misses by %g of %g, want less than %g", q.label, drive, worst, largest, limit)
			}
		}
	}
}

// A cancelled driveline is flat: what is left is drawn on an axis that does not go below the stated floor.
func TestCancelledDrivelineIsFlat(t *testing.T) {
	t.Parallel()
	c := newCase(t, 3000, [][2]float64{{0, 0}, {12, 0}, {0, 0}})
	f, err := Speed(c, Driving)
	if err != nil {
		t.Fatal(err)
	}
	fit, err := f.Rows[1].Panels[0].fit(lettersFor(Single), room{area: vg.Point{X: 500, Y: 200}}, false)
	if err != nil {
		t.Fatal(err)
	}
	if fit.y.Min != -0.01 || fit.y.Max != 0.01 || !fit.y.held {
		t.Errorf("axis from %g to %g %%, want ±0.01, the floor", fit.y.Min, fit.y.Max)
	}
	if want := "The joints cancel: shaft C turns as evenly as shaft A."; f.Caption != want {
		t.Errorf("caption: got %q, want %q", f.Caption, want)
	}
	if svg := drawn(t, f); !strings.Contains(svg, "axis no finer than ±0.01") {
		t.Error("the floor is not stated on the figure")
	}
}

// drawn returns a figure as SVG.
func drawn(t *testing.T, f *Figure) string {
	t.Helper()
	svg, err := Encode(f, SVG, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return string(svg)
}
