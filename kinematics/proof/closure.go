package proof

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate"
	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// positions in a turn, enough for the orders of every joint here to die out.
const positions = 720

// closures checks that every shaft of a chain turns once while the first does.
func closures() []Check {
	mean := law{"Mean speed ratio of a chain in space", "Closure: every shaft turns once in a turn", 10}
	closed := law{"Acceleration over a turn of the chain, integrated", "Closure: the speed returns to what it was", 10}
	var checks []Check
	for k, m := range inSpace().Driving(nil)[1:] {
		what := fmt.Sprintf("shaft %d", k+2)
		excess := overTurn(func(theta float64) float64 { return m.At(theta).Ratio - 1 })
		accel := overTurn(func(theta float64) float64 { return m.At(theta).Accel })
		checks = append(checks, mean.check(what, 1, 1+excess/(2*math.Pi)), closed.check(what, 0, accel))
	}
	return checks
}

// overTurn integrates a function over a turn with the trapezoidal rule, which
// converges faster than any power of the step for a smooth periodic function.
func overTurn(f func(theta float64) float64) float64 {
	x, y := make([]float64, positions+1), make([]float64, positions+1)
	for i := range x {
		x[i] = 2 * math.Pi * float64(i) / positions
		y[i] = f(x[i])
	}
	return integrate.Trapezoidal(x, y)
}

// coasting checks that the last shaft, turning uniformly, gives the first the
// inverse of the ratio that it has itself when the first turns uniformly.
func coasting() []Check {
	back := law{"Driving ratio times coasting ratio of the chain", "Closure: coasting undoes driving", 10}
	d := inSpace()
	first := d.Coasting(nil)[0]
	var checks []Check
	for _, deg := range []float64{10, 75, 140} {
		theta := deg * kinematics.Degree
		product := lastOf(d).At(theta).Ratio * first.At(turnedLast(d, theta)).Ratio
		checks = append(checks, back.check(fmt.Sprintf("shaft 1 at %g°", deg), 1, product))
	}
	return checks
}

// turnedLast returns the rotation of the last shaft, zero where its ears lie
// level, when the first has turned by theta.
func turnedLast(d *kinematics.Driveline, theta float64) float64 {
	last := d.Len() - 1
	axis := r3.Unit(d.Shafts()[last].Axis)
	level := r3.Vec{X: -axis.Y, Y: axis.X}
	ears, _ := d.Ears(last, theta)
	return math.Atan2(r3.Dot(r3.Cross(level, ears), axis), r3.Dot(level, ears))
}

// cancellation checks that equal joints in phase and in one plane leave nothing.
func cancellation() []Check {
	left := law{"Second order that equal joints in phase leave, rad", "Cancellation of equal joints in phase and in one plane", 1}
	residue := func(down ...float64) float64 { return lastOf(inPlane(down...)).SecondOrder() }
	return []Check{
		left.check("two of 12°, ends parallel", 0, residue(3, 15, 3)),
		left.check("two of 12°, ends at 24°", 0, residue(0, 12, 24)),
		left.check("two of 40°, ends parallel", 0, residue(0, 40, 0)),
		left.check("twelve of 7°, ends parallel", 0, residue(0, 7, 0, 7, 0, 7, 0, 7, 0, 7, 0, 7, 0)),
	}
}

// inSpace returns an uneven chain of three joints bent in different planes.
func inSpace() *kinematics.Driveline {
	return chain(shaft(2, -4, 0), shaft(25, 9, 40), shaft(-6, 15, -25), shaft(4, 3, 0))
}
