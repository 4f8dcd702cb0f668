package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// whole returns the couple that the shaft before joint k passes on at theta, as
// either side has it: its torque and what bends it.
func whole(d *kinematics.Driveline, c kinematics.Couples, k int, theta float64) (driving, driven r3.Vec) {
	side := func(shaft int, bending kinematics.Load) r3.Vec {
		along := r3.Scale(c.Torques[shaft].At(theta), r3.Unit(d.Shafts()[shaft].Axis))
		return r3.Add(along, bending.At(theta))
	}
	return side(k, c.Joints[k].Driving), side(k+1, c.Joints[k].Driven)
}

// crossCouple returns the couple of a cross whose driving shaft has the torque: it is
// square to both pairs of pins.
func crossCouple(d *kinematics.Driveline, k int, torque, theta float64) r3.Vec {
	_, p := d.Ears(k, theta)
	q, _ := d.Ears(k+1, theta)
	n := r3.Cross(p, q)
	return r3.Scale(torque/r3.Dot(n, r3.Unit(d.Shafts()[k].Axis)), n)
}

// At every position, and so in every order: a steady part and a second order say all.
func TestCoupleOfACross(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		const torque = -40.0
		d := mustNew(t, shafts, nil)
		c, driving := d.Couples(torque), d.Driving(nil)
		theta := rnd.Float64() * 2 * math.Pi
		for k := range shafts[1:] {
			want := crossCouple(d, k, torque/driving[k].At(theta).Ratio, theta)
			before, behind := whole(d, c, k, theta)
			// Rounding of the torque, times that of the ears behind a steep chain.
			tol := 1e-15 * r3.Norm(want) * driving[k+1].MaxRatio() * float64(len(shafts))
			if off := max(r3.Norm(r3.Sub(before, want)), r3.Norm(r3.Sub(behind, want))); off > tol {
				t.Errorf("joint %d at %v rad: %v before, %v behind, want %v: off by %.1e", k, theta, before, behind, want, off)
			}
		}
	})
}

// Virtual work: torque times speed is the same on every shaft.
func TestTorqueTimesSpeedIsTheSame(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		const torque = 300.0
		d := mustNew(t, shafts, randomJoints(rnd, len(shafts)-1))
		theta := rnd.Float64() * 2 * math.Pi
		motions, torques := d.Driving(nil), d.Couples(torque).Torques
		for k, m := range motions {
			if power := torques[k].At(theta) * m.At(theta).Ratio; math.Abs(power/torque-1) > 1e-14*m.MaxRatio() {
				t.Errorf("shaft %d at %v rad: torque times speed ratio %v, want %v", k+1, theta, power, torque)
			}
			if r := [2]float64{torques[k].Max() * m.MinRatio(), torques[k].Min() * m.MaxRatio()}; math.Abs(r[0]/torque-1) > 1e-14*m.MaxRatio() || math.Abs(r[1]/torque-1) > 1e-14*m.MaxRatio()*m.MaxRatio() {
				t.Errorf("shaft %d: extreme torques times extreme speeds %v, want %v", k+1, r, torque)
			}
		}
	})
}

// What bends the shafts of one joint, with φ the azimuth of the driving ears from the
// normal of its plane: T·tan β·|cos φ| and T·tan β·|sin φ|·√(1 − sin²β·sin²φ).
func TestCouplesOfOneJoint(t *testing.T) {
	t.Parallel()
	const torque = 100.0
	for _, beta := range []float64{0.01, 3, 10, 30, 44, 46, 60, 80} {
		sin, cos := math.Sincos(beta * deg)
		c := mustNew(t, inPlane(0, beta), nil).Couples(torque).Joints[0] // ears square to the plane at 0
		tol := 1e-15 * torque / (cos * cos)
		for phi := 0.0; phi < 3.2; phi += 0.2 {
			s, k := math.Abs(math.Sin(phi)), math.Abs(math.Cos(phi))
			driving, driven := torque*sin/cos*k, torque*sin/cos*s*math.Sqrt(1-sin*sin*s*s)
			if got := r3.Norm(c.Driving.At(phi)); math.Abs(got-driving) > tol {
				t.Errorf("%v deg at %v rad: driving side %v, want %v", beta, phi, got, driving)
			}
			if got := r3.Norm(c.Driven.At(phi)); math.Abs(got-driven) > tol {
				t.Errorf("%v deg at %v rad: driven side %v, want %v", beta, phi, got, driven)
			}
		}
		// The second law has its peak at φ = 90° up to 45° only.
		peak := torque * sin
		if beta > 45 {
			peak = torque / (2 * cos)
		}
		if got := c.Driving.Peak(); math.Abs(got-torque*sin/cos) > tol {
			t.Errorf("%v deg: peak on the driving side %v, want T·tan β = %v", beta, got, torque*sin/cos)
		}
		if got := c.Driven.Peak(); math.Abs(got-peak) > tol {
			t.Errorf("%v deg: peak on the driven side %v, want %v", beta, got, peak)
		}
	}
}

// Joints that pass torque on evenly bend both shafts by T·tan(β/2), steadily and the
// one against the other: the couple is along the sum of the axes.
func TestCouplesOfEvenJoints(t *testing.T) {
	t.Parallel()
	const torque = 100.0
	shafts := []kinematics.Shaft{
		{Axis: kinematics.AxisFromSlopes(3*deg, 8*deg)},
		{Axis: kinematics.AxisFromSlopes(20*deg, -5*deg)},
	}
	for _, kind := range []kinematics.Kind{kinematics.ConstantVelocity, kinematics.DoubleCardan} {
		d := mustNew(t, shafts, []kinematics.Joint{{Kind: kind}})
		c := d.Couples(torque)
		if swing := max(c.Joints[0].Driving.Swing(), c.Joints[0].Driven.Swing(), c.Torques[1].Swing()); swing > 1e-14*torque {
			t.Errorf("%s: swing %v, want none", kind, swing)
		}
		sum := r3.Add(r3.Unit(shafts[0].Axis), r3.Unit(shafts[1].Axis))
		want := r3.Scale(torque/r3.Dot(sum, r3.Unit(shafts[0].Axis)), sum)
		before, behind := whole(d, c, 0, 1)
		if off := max(r3.Norm(r3.Sub(before, want)), r3.Norm(r3.Sub(behind, want))); off > 1e-14*torque {
			t.Errorf("%s: %v before, %v behind, want %v", kind, before, behind, want)
		}
		if got, want := c.Joints[0].Driven.Peak(), torque*math.Tan(d.WorkingAngle(0)/2); math.Abs(got-want) > 1e-14*torque {
			t.Errorf("%s: bends by %v, want T·tan(β/2) = %v", kind, got, want)
		}
	}
}
