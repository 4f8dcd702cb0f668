package plotting

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// The curves over a turn are the exact motion as a revolution samples it, and the part
// drawn apart is its second order as the Fourier transform finds it.
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
		// Amplitude of an order, and by how much it runs ahead of the lead's order, in
		// quarter turns.
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
					theta, values := columns(got)
					if n := len(theta); n != 361 || theta[0] != 0 || theta[n-1] != 360 {
						t.Fatalf("%d positions from %g to %g, want 361 from 0 to 360", n, theta[0], theta[n-1])
					}
					for i, x := range theta {
						want := test.unit * (test.values(r.Shafts[k])[i%360] - test.base)
						if math.Abs(values[i]-want) > tolerance {
							t.Fatalf("%s at %g°: got %g, want %g", name, x, values[i], want)
						}
					}
				}

				second := turning.motion().Orders(2)[0]
				theta, values := columns(test.quantity.leftApart(turning).Layers[2].(page.Curve))
				for i, x := range theta {
					want := test.unit * test.order(second) * math.Cos(2*x*kinematics.Degree-second.Phase+test.ahead*math.Pi/2)
					if math.Abs(values[i]-want) > tolerance {
						t.Fatalf("second order at %g°: got %g, want %g", x, values[i], want)
					}
				}
			})
		}
	}
}

func ratios(t kinematics.Track) []float64 { return t.Ratio }
func leads(t kinematics.Track) []float64  { return t.Lead }
func accels(t kinematics.Track) []float64 { return t.Accel }

// A cancelled driveline is flat: what is left is drawn on an axis that does not go below
// the stated floor.
func TestCancelledDrivelineIsFlat(t *testing.T) {
	t.Parallel()
	c := newCase(t, 3000, [][2]float64{{0, 0}, {12, 0}, {0, 0}})
	f, err := Speed(c, Driving)
	if err != nil {
		t.Fatal(err)
	}
	places, err := f.Places()
	if err != nil {
		t.Fatal(err)
	}
	if y := places[1].Y; y.Min != -0.01 || y.Max != 0.01 {
		t.Errorf("axis from %g to %g %%, want ±0.01, the floor", y.Min, y.Max)
	}
	if want := "The joints cancel: shaft C turns as evenly as shaft A."; f.Caption != want {
		t.Errorf("caption: got %q, want %q", f.Caption, want)
	}
	if svg := drawn(t, f); !strings.Contains(svg, "axis no finer than ±0.01") {
		t.Error("the floor is not stated on the figure")
	}
}
