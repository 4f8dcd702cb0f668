package plotting

import (
	"fmt"
	"math"
	"math/cmplx"
	"strings"

	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// threeArrows is worked by the parts of the arrows.
func threeArrows() exercise {
	angles, phases := [3]float64{6, 5, 4}, []float64{15, 50}
	line := example{fmt.Sprintf("Three joints at %g°, %g° and %g° in one plane, ears %g° and %g° out of line", angles[0], angles[1], angles[2], phases[0], phases[1]),
		[][2]float64{{0, 0}, {angles[0], 0}, {angles[0] - angles[1], 0}, {angles[0] - angles[1] + angles[2], 0}}, phases}
	return exercise{
		name: "three-arrows", title: "Three joints, added like vectors",
		example: line,
		given: []string{
			fmt.Sprintf("Three joints at %g°, %g° and %g° in one plane.", angles[0], angles[1], angles[2]),
			fmt.Sprintf("The ears of the second shaft are turned by ψ₂ = %g°, those of the third by ψ₃ = %g°.", phases[0], phases[1]),
		},
		find: []string{
			"a) Which directions have the three arrows?",
			"b) As one joint of which angle acts what is left?",
			"c) Which phase of the third shaft is best, and what does it leave?",
		},
		solve: func(c *Case) (solution, error) {
			var s solution
			sum := c.Analysis.SecondOrder
			arrows := c.writtenArrows()
			var sizes, xs, ys []string
			for _, a := range arrows {
				sizes, xs, ys = append(sizes, a.size), append(xs, a.size+"·cos "+a.direction), append(ys, a.size+"·sin "+a.direction)
			}
			s.step("a) Directions", append([]string{"Every joint adds 180°, every phase its double. A whole turn is taken off where there is one."}, c.directionsWorked(phases)...)...)
			x, y := real(sum.Sum)/squareDegree, imag(sum.Sum)/squareDegree
			s.step("b) Sum", fmt.Sprintf("The arrows are %s deg² long, the squares of the angles. Their parts in deg²:", strings.Join(sizes, ", ")),
				formula("x = %s = %s", strings.Join(xs, " + "), hundredths(x)),
				formula("y = %s = %s", strings.Join(ys, " + "), hundredths(y)),
				formula("βₑ² ≈ √((%s)² + (%s)²) = %s", hundredths(x), hundredths(y), hundredths(math.Hypot(x, y))),
				formula("βₑ ≈ √(%s deg²) = %s", hundredths(math.Hypot(x, y)), degrees(sum.Equivalent)),
				fmt.Sprintf("Exactly it is %s.", degrees(sum.Exact)))
			best, err := c.Driveline.BestPhase(2)
			if err != nil {
				return s, err
			}
			two := (sum.Terms[0] + sum.Terms[1]) / squareDegree
			against := turnOf(-two) / kinematics.Degree
			s.step("c) Best phase",
				"The third arrow should point against the sum of the first two.",
				formula("x = %s = %s", strings.Join(xs[:2], " + "), hundredths(real(two))),
				formula("y = %s = %s", strings.Join(ys[:2], " + "), hundredths(imag(two))),
				fmt.Sprintf("This sum is √((%s)² + (%s)²) = %s deg² long, and against it points %s°. From a) then:", hundredths(real(two)), hundredths(imag(two)), hundredths(cmplx.Abs(two)), hundredths(against)),
				formula("ψ₃ ≈ (%s° + 360° − 180° − %s)/2 = %s", hundredths(against), arrows[1].direction, degrees((against+180-turnOf(sum.Terms[1])/kinematics.Degree)/2*kinematics.Degree)),
				formula("βₑ ≈ √(%s deg² − %s deg²) = %s", hundredths(cmplx.Abs(two)), sizes[2], degrees(math.Sqrt(math.Abs(cmplx.Abs(two)-cmplx.Abs(sum.Terms[2])/squareDegree))*kinematics.Degree)),
				fmt.Sprintf("Exactly %s is best and leaves %s.", degrees(best.Phase), degrees(best.Left.Angle())))
			s.show("The arrows", c.arrows(nil))
			p, err := newPhased(c, 2)
			if err != nil {
				return s, err
			}
			s.show("What each phase of the third shaft leaves", p.angles())
			s.show("How evenly the shafts turn", c.lessonSpeed())
			return s, nil
		},
	}
}

// arrows shows what the joints add, by their numbers, on axes that reach further points too.
func (c *Case) arrows(reach []plotter.XY) *page.Panel {
	d := c.vectorDiagram(0)
	return d.panel(append(reach, d.reach()...), c.vectorKeys(0)[len(c.Joints):])
}

// A writtenArrow is what a joint adds as a working writes it: its direction with the unit,
// its length in deg² without.
type writtenArrow struct{ direction, size string }

func (c *Case) writtenArrows() []writtenArrow {
	var list []writtenArrow
	for _, term := range c.Analysis.SecondOrder.Terms {
		list = append(list, writtenArrow{fixed(turnOf(term)/kinematics.Degree, 0) + "°", fewest(cmplx.Abs(term) / squareDegree)})
	}
	return list
}

// directionsWorked works the direction of every arrow but the first from the one before
// it. phases are those of the shafts between the joints, in deg.
func (c *Case) directionsWorked(phases []float64) []string {
	arrows, terms := c.writtenArrows(), c.Analysis.SecondOrder.Terms
	var list []string
	for k, phase := range phases {
		turn := ""
		if turnOf(terms[k])/kinematics.Degree+180+2*phase >= 360 {
			turn = " − 360°"
		}
		list = append(list, formula("2Φ%s = %s + 180° + 2·%g°%s = %s", subscript(k+2), arrows[k].direction, phase, turn, arrows[k+1].direction))
	}
	return list
}

// turnOf is the direction of an arrow, in rad within [0, 2π).
func turnOf(term complex128) float64 {
	a := math.Mod(cmplx.Phase(term)+2*math.Pi, 2*math.Pi)
	if 2*math.Pi-a < 1e-9 { // rounding below a whole turn
		return 0
	}
	return a
}
