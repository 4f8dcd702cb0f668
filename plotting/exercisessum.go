package plotting

import (
	"fmt"
	"math"

	"halfturn/kinematics"
)

// equalAngles is worked by the tangents of the ears' turns, which multiply.
func equalAngles() exercise {
	const first, second = 10, 6
	unequal := example{fmt.Sprintf("%d° and %d°", first, second), [][2]float64{{0, 0}, {first, 0}, {first - second, 0}}, nil}
	return exercise{
		name: "equal-angles", title: "Why do two joints cancel, and when do they not?",
		example: example{fmt.Sprintf("Two joints at %d° in one plane, ears of the middle shaft in line", first), [][2]float64{{0, 0}, {first, 0}, {0, 0}}, nil},
		given:   []string{fmt.Sprintf("First and last shaft are parallel, both joints work at %d°, the ears of the middle shaft are in line.", first)},
		find: []string{
			"a) Show that the last shaft turns evenly in every position.",
			fmt.Sprintf("b) The last shaft is tilted until the second joint works at %d°. As one joint of which angle acts what is left?", second),
			fmt.Sprintf("c) How far do slowest and fastest lie apart now? How does that compare with one joint at the difference, %d°?", first-second),
		},
		solve: func(c *Case) (solution, error) {
			var s solution
			other, err := unequal.analysed()
			if err != nil {
				return s, err
			}
			b1, b2 := other.Analysis.Bends[0].Angle, other.Analysis.Bends[1].Angle
			left := other.Analysis.SecondOrder
			s.step("a) Even",
				"The ears of the middle shaft have turned by θ₂ where those of the first have turned by θ₁, from square to the plane:",
				formula("tan θ₂ = cos β₁·tan θ₁"),
				"At the second joint everything is a quarter turn on, so that the tangent is that of 90° more, and the cosine divides:",
				formula("tan θ₃ = tan θ₂/cos β₂ = (cos β₁/cos β₂)·tan θ₁"),
				"With β₁ = β₂ that is θ₃ = θ₁ in every position.",
				formula("cos %d°/cos %d° = 1", first, first))
			cos := math.Cos(left.Exact)
			s.step("b) Left", "Unequal, both joints are one whose cosine is the quotient:",
				formula("cos βₑ = cos β₁/cos β₂ = cos %d°/cos %d° = %s", first, second, fixed(math.Cos(b1)/math.Cos(b2), 6)),
				formula("βₑ = acos %s = %s", fixed(cos, 6), degrees(left.Exact)),
				"By the arrows, which point opposite ways:",
				formula("βₑ ≈ √((%d°)² − (%d°)²) = %s", first, second, degrees(left.Equivalent)),
				fmt.Sprintf("not the %d° by which the angles differ.", first-second))
			alone, err := kinematics.SingleJoint(b1-b2, 0)
			if err != nil {
				return s, err
			}
			m := other.Analysis.Driving[other.last()]
			s.step("c) Swing",
				formula("U = 1/cos βₑ − cos βₑ = 1/%s − %s = %s", fixed(cos, 6), fixed(cos, 6), fixed(m.Nonuniformity(), 5)),
				fmt.Sprintf("One joint at %d°:", first-second),
				formula("U = 1/cos %d° − cos %d° = %s", first-second, first-second, fixed(alone.Nonuniformity(), 5)),
				fmt.Sprintf("What is left is %s times as much.", significant(m.Nonuniformity()/alone.Nonuniformity())))
			s.show(fmt.Sprintf("%d° and %d°: the arrows", first, second), other.arrows(nil))
			s.show("How evenly the shafts turn", speed.everyShaft(c.over(Driving), "what is left of equal angles"))
			s.show(fmt.Sprintf("%d° and %d°", first, second), other.lessonSpeed())
			return s, nil
		},
	}
}

// bestPhase is worked by the law of cosines for two arrows.
func bestPhase() exercise {
	const beta, off = 10, 20
	twisted := example{"Down, then to the right", [][2]float64{{0, 0}, {beta, 0}, {beta, beta}}, nil}
	return exercise{
		name: "best-phase", title: "A shaft welded out of line, and the best phase",
		example: example{fmt.Sprintf("Two joints at %d° in one plane, ears of the middle shaft %d° out of line", beta, off), [][2]float64{{0, 0}, {beta, 0}, {0, 0}}, []float64{off}},
		given: []string{
			fmt.Sprintf("Both joints work at %d° in one plane, but the ears of the middle shaft stand %d° out of line.", beta, off),
			fmt.Sprintf("Another line bends %d° down at its first joint, and then the same to the right, ears in line.", beta),
		},
		find: []string{
			"a) As one joint of which angle acts what is left of the first?",
			"b) And of the second?",
			"c) Which phase is best for the second, and what does it leave?",
		},
		solve: func(c *Case) (solution, error) {
			var s solution
			other, err := twisted.analysed()
			if err != nil {
				return s, err
			}
			best, err := other.Driveline.BestPhase(1)
			if err != nil {
				return s, err
			}
			b1, b2 := other.Analysis.Bends[0], other.Analysis.Bends[1]
			between := lineAngle(b2.Azimuth - b1.Azimuth)
			s.step("Two arrows",
				"The second arrow stands at 180° and twice the phase from the first, less twice the angle δ between the planes of the joints. So by the law of cosines:",
				formula("βₑ⁴ ≈ β₁⁴ + β₂⁴ − 2·β₁²·β₂²·cos 2(ψ − δ)"))
			s.step("a) Out of line", "In one plane, δ = 0°:",
				twoArrows(c.Analysis.Bends[0].Angle, c.Analysis.Bends[1].Angle, off*kinematics.Degree, c.Analysis.SecondOrder),
				fmt.Sprintf("Exactly it is %s. The shaft is out by %d° and leaves nearly as much as a joint alone, %d°.", degrees(c.Analysis.SecondOrder.Exact), off, beta))
			s.step("b) Twisted planes",
				fmt.Sprintf("The second joint works at %s, not at %d°: its shafts fall. Its plane stands δ = %s clockwise from that of the first. In line, ψ = 0°:", degrees(b2.Angle), beta, degrees(between)),
				twoArrows(b1.Angle, b2.Angle, -between, other.Analysis.SecondOrder),
				fmt.Sprintf("Exactly it is %s: nothing cancels, the joints add.", degrees(other.Analysis.SecondOrder.Exact)))
			s.step("c) Best phase", "The arrows are opposite where ψ = δ. Their difference is left, since their lengths are not alike:",
				formula("βₑ ≈ √((%s)² − (%s)²) = %s", degrees(b1.Angle), degrees(b2.Angle), degrees(math.Sqrt(math.Abs(b1.Angle*b1.Angle-b2.Angle*b2.Angle)))),
				fmt.Sprintf("Exactly, the best phase is %s and leaves %s.", degrees(best.Phase), degrees(best.Left.Angle())))
			s.show("a) The arrows", c.arrows(nil))
			for _, shown := range []struct {
				title string
				of    *Case
			}{{"a) What each phase leaves", c}, {"b) and c) What each phase leaves", other}} {
				p, err := newPhased(shown.of, 1)
				if err != nil {
					return s, err
				}
				s.show(shown.title, p.angles())
			}
			return s, nil
		},
	}
}

// twoArrows works the law of cosines for two joints whose phase is turned from the best.
func twoArrows(b1, b2, turned float64, left kinematics.SecondOrder) string {
	one, two := degrees(b1), degrees(b2)
	return formula("βₑ ≈ √√((%s)⁴ + (%s)⁴ − 2·(%s)²·(%s)²·cos(2·%s)) = %s", one, two, one, two, degrees(math.Abs(turned)), degrees(left.Equivalent))
}

// oddJoint is worked by the squares of three angles in one plane.
func oddJoint() exercise {
	const gearbox, front, rear, pinion, odd = 2, 3, 5, 2, 0.3
	line := func(front, pinion float64) example {
		return example{"Two-piece line, ears in line", [][2]float64{{gearbox, 0}, {front, 0}, {rear, 0}, {pinion, 0}}, nil}
	}
	return exercise{
		name: "odd-joint", title: "Three joints: which is the odd one?",
		example: line(front, pinion),
		given: []string{
			fmt.Sprintf("A two-piece line in one plane, all ears in line: the gearbox falls %d°, the front shaft %d°, the rear shaft %d°, the pinion %d°.", gearbox, front, rear, pinion),
			"The front shaft can be lowered or raised at the centre bearing; take the slope of the rear shaft as kept. The pinion can be tilted by wedges.",
		},
		find: []string{
			"a) What are the working angles, and what is left?",
			"b) Two joints should cancel as a pair. Which one is made the odd joint?",
			fmt.Sprintf("c) The front shaft is set so that the odd joint works at %g°. What is left?", odd),
			"d) How is the pinion to be tilted then, and what is left?",
			"e) Why not set the odd joint dead straight?",
		},
		solve: func(c *Case) (solution, error) {
			var s solution
			raised, err := line(gearbox+odd, pinion).analysed()
			if err != nil {
				return s, err
			}
			match := rear - (rear - gearbox - odd) // the pinion's slope at which it bends like the centre joint
			matched, err := line(gearbox+odd, match).analysed()
			if err != nil {
				return s, err
			}
			straight, err := line(gearbox, pinion).analysed()
			if err != nil {
				return s, err
			}
			s.step("a) As it is", "In one plane the working angles are the differences of the slopes:",
				formula("β₁ = %d° − %d° = %s", front, gearbox, degrees(c.Analysis.Bends[0].Angle)),
				formula("β₂ = %d° − %d° = %s", rear, front, degrees(c.Analysis.Bends[1].Angle)),
				formula("β₃ = %d° − %d° = %s", rear, pinion, degrees(c.Analysis.Bends[2].Angle)),
				"Ears in line, the arrows point forth, back and forth:", c.alternating(),
				fmt.Sprintf("Exactly it is %s.", degrees(c.Analysis.SecondOrder.Exact)))
			s.step("b) The odd joint",
				"The pair must be neighbours, since their arrows are opposite. The front joint is the straightest and needs least to become the odd one. For a pair of the first two the pinion would have to fall, with the same odd joint,",
				formula("s₄ = %d° − %g° = %s", rear, odd, degrees((rear-odd)*kinematics.Degree)),
				fmt.Sprintf("instead of %d°: more than wedges give.", pinion))
			s.step("c) The front shaft raised",
				formula("s₂ = %d° + %g° = %s", gearbox, odd, degrees((gearbox+odd)*kinematics.Degree)),
				raised.alternating(),
				fmt.Sprintf("Exactly %s: still far more than the odd joint. The pair does not match.", degrees(raised.Analysis.SecondOrder.Exact)))
			s.step("d) The pinion tilted", "β₃ must be as large as β₂:",
				formula("s₄ = %d° − %s = %s", rear, degrees(raised.Analysis.Bends[1].Angle), degrees(match*kinematics.Degree)),
				matched.alternating(),
				fmt.Sprintf("%s: the pair cancels, the odd joint is left, whatever the angle of the pair.", degrees(matched.Analysis.SecondOrder.Exact)))
			s.step("e) Straight",
				fmt.Sprintf("With front shaft and pinion at %d° it would leave %s, nothing. But the rollers of a straight joint do not roll, and wear into their races.", gearbox, degrees(straight.Analysis.SecondOrder.Exact)))
			reach := append(c.vectorDiagram(0).reach(), raised.vectorDiagram(0).reach()...)
			for _, shown := range []struct {
				title string
				of    *Case
			}{{"a) As it is", c}, {"c) The front shaft raised", raised}, {"d) The pinion tilted too", matched}} {
				s.show(shown.title, shown.of.arrows(reach))
			}
			return s, nil
		},
	}
}

// alternating works the sum of joints in one plane whose ears are in line.
func (c *Case) alternating() string {
	var squares []string
	for _, b := range c.Analysis.Bends {
		squares = append(squares, "("+degrees(b.Angle)+")²")
	}
	return formula("βₑ ≈ √(%s − %s + %s) = %s", squares[0], squares[1], squares[2], degrees(c.Analysis.SecondOrder.Equivalent))
}
