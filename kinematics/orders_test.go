package kinematics_test

import (
	"math"
	"math/cmplx"
	"testing"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/floats"

	"halfturn/kinematics"
)

const highest = 8

// The closed forms against the discrete Fourier transform of the sampled motion.
func TestOrdersAreThoseOfTheMotion(t *testing.T) {
	t.Parallel()
	for _, beta := range []float64{0, 0.01, 0.5, 8, 25, 45, 70, 86, 89} {
		m, err := kinematics.SingleJoint(beta*deg, 0.4)
		if err != nil {
			t.Fatal(err)
		}
		const n = 1 << 14 // at 89° the alias of order 8 is tan²(β/2)^8188, nothing
		track := sample(t, n, []kinematics.Motion{m}).Shafts[0]
		lead, speed, accel := transform(track.Lead), transform(track.Ratio), transform(track.Accel)
		for _, o := range m.Orders(highest) {
			for _, part := range []struct {
				name   string
				got    complex128
				want   complex128
				values []float64
			}{
				{"lead", cmplx.Rect(o.Lead, -o.Phase), lead[o.Number], track.Lead},
				{"speed", cmplx.Rect(o.Speed, math.Pi/2-o.Phase), speed[o.Number], track.Ratio},
				{"acceleration", cmplx.Rect(o.Accel, math.Pi-o.Phase), accel[o.Number], track.Accel},
			} {
				if o.Phase == 0 { // below the noise
					part.got, part.want = complex(cmplx.Abs(part.got), 0), complex(cmplx.Abs(part.want), 0)
				}
				// The values are rounded, at a steep joint by as much as 1/cos β more.
				tol := 4e-16 * (1 + floats.Max(part.values))
				if off := cmplx.Abs(part.got - part.want); off > tol {
					t.Errorf("%v deg, order %d of %s: got %v, the transform has %v, %.1g off", beta, o.Number, part.name, part.got, part.want, off)
				}
			}
		}
	}
}

// transform returns the harmonics of a turn, c[m] of Re(c·e^{jmθ}).
func transform(values []float64) []complex128 {
	n := len(values)
	c := fourier.NewFFT(n).Coefficients(nil, values)
	for i := range c {
		c[i] *= complex(2/float64(n), 0)
	}
	return c
}

func TestRootMeanSquaresAreThoseOfTheMotion(t *testing.T) {
	t.Parallel()
	for _, beta := range []float64{0, 0.01, 0.5, 8, 25, 45, 70, 86, 89} {
		m, err := kinematics.SingleJoint(beta*deg, 0.4)
		if err != nil {
			t.Fatal(err)
		}
		const n = 1 << 14
		track := sample(t, n, []kinematics.Motion{m}).Shafts[0]
		floats.AddConst(-kinematics.MeanRatio, track.Ratio)
		for _, rms := range []struct {
			name   string
			got    float64
			values []float64
		}{
			{"deviation", m.RMSDeviation(), track.Ratio},
			{"acceleration", m.RMSAccel(), track.Accel},
		} {
			want := floats.Norm(rms.values, 2) / math.Sqrt(n)
			// As above, and the sum of as many squares adds its own rounding.
			if tol := 2e-15 * (1 + floats.Max(rms.values)); math.Abs(rms.got-want) > tol {
				t.Errorf("%v deg: RMS %s %v, the motion has %v", beta, rms.name, rms.got, want)
			}
		}
	}
}

// Next to a right angle, where no number of positions is enough, by the series:
// order 2n of speed is 2qⁿ and of acceleration 4n·qⁿ.
func TestRootMeanSquaresNextToARightAngle(t *testing.T) {
	t.Parallel()
	const beta = 89.9
	m, err := kinematics.SingleJoint(beta*deg, 0)
	if err != nil {
		t.Fatal(err)
	}
	speed, accel := 0.0, 0.0
	tan := math.Tan(beta * deg / 2)
	for n := 1.0; n < 20000; n++ {
		power := math.Pow(tan, 4*n)
		speed += 2 * power
		accel += 8 * n * n * power
	}
	// q is 1 less some 0.003, where a rounding of it counts 300 times.
	for _, rms := range []struct{ got, want float64 }{
		{m.RMSDeviation(), math.Sqrt(speed)},
		{m.RMSAccel(), math.Sqrt(accel)},
	} {
		if math.Abs(rms.got/rms.want-1) > 300*4e-16 {
			t.Errorf("got %v, the series has %v", rms.got, rms.want)
		}
	}
}

func TestOrdersAreEven(t *testing.T) {
	t.Parallel()
	m := last(mustNew(t, inPlane(0, 5), nil).Driving(nil))
	for upTo, want := range map[int]int{-2: 0, 0: 0, 1: 0, 2: 1, 7: 3, 8: 4} {
		orders := m.Orders(upTo)
		if len(orders) != want || want > 0 && orders[want-1].Number != 2*want {
			t.Errorf("up to %d: got %v, want %d even orders", upTo, orders, want)
		}
	}
}
