package plotting

import (
	"fmt"
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
	c.Analysis = c.Driveline.Analyse()
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

// The curves over a turn are the exact motion as a revolution samples it, and the part drawn apart is its second order
// as the Fourier transform finds it.
func TestCurvesOverATurn(t *testing.T) {
	t.Parallel()
	c := twoPiece(t)
	omega := 2800 * kinematics.RPM
	for _, test := range []struct {
		name     string
		quantity quantity
		values   func(kinematics.Track) []float64
		base     float64
		unit     float64
		// Amplitude of an order, and by how much it runs ahead of the lead's order, in quarter turns.
		order func(kinematics.Order) float64
		ahead float64
	}{
		{"speed", speed, ratios, 1, 100, func(o kinematics.Order) float64 { return o.Speed }, 1},
		{"lead", lead, leads, 0, 1 / kinematics.Degree, func(o kinematics.Order) float64 { return o.Lead }, 0},
		{"acceleration", accelerationOf(2800), accels, 0, omega * omega, func(o kinematics.Order) float64 { return o.Accel }, 2},
		{"acceleration without speed", accelerationOf(0), accels, 0, 1, func(o kinematics.Order) float64 { return o.Accel }, 2},
	} {
		for _, drive := range []Drive{Driving, Coasting} {
			t.Run(fmt.Sprintf("%s, drive %d", test.name, drive), func(t *testing.T) {
				turning := c.over(drive)
				r, err := kinematics.NewRevolution(360)
				if err != nil {
					t.Fatal(err)
				}
				r.Sample(turning.motions)
				every := test.quantity.everyShaft(turning, "left")
				// A few roundings of numbers around 1.
				tolerance := 4e-15 * test.unit
				for k := range turning.motions {
					name := c.Shafts[k]
					if k == turning.left() {
						name = "left"
					}
					got := curve(t, every, name)
					if n := len(got.X); n != 361 || got.X[0] != 0 || got.X[n-1] != 360 {
						t.Fatalf("%d positions from %g to %g, want 361 from 0 to 360", n, got.X[0], got.X[n-1])
					}
					for i, x := range got.X {
						want := test.unit * (test.values(r.Shafts[k])[i%360] - test.base)
						if math.Abs(got.Y[i]-want) > tolerance {
							t.Fatalf("%s at %g°: got %g, want %g", name, x, got.Y[i], want)
						}
					}
				}

				second := turning.motion().Orders(2)[0]
				part := test.quantity.leftApart(turning).Layers[2].(Curve)
				for i, x := range part.X {
					want := test.unit * test.order(second) * math.Cos(2*x*kinematics.Degree-second.Phase+test.ahead*math.Pi/2)
					if math.Abs(part.Y[i]-want) > tolerance {
						t.Fatalf("second order at %g°: got %g, want %g", x, part.Y[i], want)
					}
				}
			})
		}
	}
}

func ratios(t kinematics.Track) []float64 { return t.Ratio }
func leads(t kinematics.Track) []float64  { return t.Lead }
func accels(t kinematics.Track) []float64 { return t.Accel }

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
