package plotting

import (
	"fmt"
	"math"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// trueAngle is worked by the vectors along the shafts.
func trueAngle() exercise {
	return exercise{
		name: "true-angle", title: "How large is the angle, really?",
		example: example{"One piece that falls and runs to the right", [][2]float64{{3, 0}, {7, 5}, {4, 0}}, nil},
		given:   []string{"The slopes in the side view and the headings in the top view, as drawn."},
		find: []string{
			"a) By how much do the two views show the joints bent?",
			"b) What are the true working angles β₁ and β₂?",
			"c) How good is the rule of the right-angled triangle, β ≈ √(side² + top²)?",
		},
		solve: func(c *Case) (solution, error) {
			var s solution
			var seen, rule []string
			for k, b := range c.Analysis.Bends {
				n := subscript(k + 1)
				seen = append(seen, fmt.Sprintf("Joint %d: %s from the side, %s from above.", k+1, degrees(math.Abs(b.Side)), degrees(math.Abs(b.Top))))
				rule = append(rule, formula("β%s ≈ √((%s°)² + (%s°)²) = %s", n, fewest(math.Abs(b.Side)/kinematics.Degree), fewest(math.Abs(b.Top)/kinematics.Degree), degrees(math.Hypot(b.Side, b.Top))),
					fmt.Sprintf("The exact %s is %s° less.", degrees(b.Angle), thousandths((math.Hypot(b.Side, b.Top)-b.Angle)/kinematics.Degree)))
			}
			s.step("a) What the views show", append(seen, "Neither view shows the angle: each sees the shafts from one side.")...)
			s.step("b) Along the shafts",
				"The vector u of a shaft has these parts along the flow, to the left and up:",
				formula("u = (1, −tan r, −tan s)"),
				"The working angle follows from the product of two of them. Taken by the tangent, it keeps its digits where the angle is small; by the cosine it would not.",
				formula("tan β = |u₁ × u₂| / (u₁ · u₂)"))
			for k := range c.Joints {
				s.step(fmt.Sprintf("Joint %d", k+1), c.trueAngleWorked(k)...)
			}
			s.step("c) The rule", append(rule, "Good enough for any inclinometer. To add the two angles, or to take the larger one, is not.")...)
			s.rows = newPlainViews(c).stacked(1)
			return s, nil
		},
	}
}

// trueAngleWorked works the angle of joint k.
func (c *Case) trueAngleWorked(k int) []string {
	shafts := c.Driveline.Shafts()
	s1, r1 := kinematics.Slopes(shafts[k].Axis)
	s2, r2 := kinematics.Slopes(shafts[k+1].Axis)
	ts1, tr1, ts2, tr2 := math.Tan(s1), math.Tan(r1), math.Tan(s2), math.Tan(r2)
	along, left, up := tr1*ts2-ts1*tr2, ts2-ts1, tr2-tr1
	cross, dot := math.Sqrt(along*along+left*left+up*up), 1+tr1*tr2+ts1*ts2
	t := func(v float64) string {
		if v == 0 {
			return "0"
		}
		return fixed(v, 5)
	}
	a, b, n := subscript(k+1), subscript(k+2), subscript(k+1)
	return []string{
		formula("u%s × u%s = (tan r%s·tan s%s − tan s%s·tan r%s, tan s%s − tan s%s, tan r%s − tan r%s)", a, b, a, b, a, b, b, a, b, a),
		formula("tan s%s = tan %s° = %s", a, fewest(s1/kinematics.Degree), t(ts1)),
		formula("tan s%s = tan %s° = %s", b, fewest(s2/kinematics.Degree), t(ts2)),
		formula("tan r%s = tan %s° = %s", a, fewest(r1/kinematics.Degree), t(tr1)),
		formula("tan r%s = tan %s° = %s", b, fewest(r2/kinematics.Degree), t(tr2)),
		formula("|u%s × u%s| = √((%s·%s − %s·%s)² + (%s − %s)² + (%s − %s)²) = %s", a, b, t(tr1), t(ts2), t(ts1), t(tr2), t(ts2), t(ts1), t(tr2), t(tr1), t(cross)),
		formula("u%s · u%s = 1 + %s·%s + %s·%s = %s", a, b, t(tr1), t(tr2), t(ts1), t(ts2), t(dot)),
		formula("β%s = atan(%s/%s) = %s", n, t(cross), t(dot), degrees(c.Analysis.Bends[k].Angle)),
	}
}

// speedRange is worked by the speed ratio of one joint.
func speedRange() exercise {
	const beta, rpm = 20, 500
	return exercise{
		name: "speed-range", title: "One joint: how slow, how fast?", rpm: rpm,
		example: example{fmt.Sprintf("One joint at %d°", beta), [][2]float64{{0, 0}, {beta, 0}}, nil},
		given:   []string{fmt.Sprintf("One joint at %d°, in the vertical plane. The first shaft turns evenly at %d rev/min.", beta, rpm)},
		find: []string{
			"a) How slow does the second shaft become, and where?",
			"b) How fast, and where?",
			"c) How large is the swing from the slowest to the fastest, exactly and to first order?",
			"d) Where does the second shaft turn exactly as fast as the first?",
		},
		solve: func(c *Case) (solution, error) {
			var s solution
			m := c.Analysis.Driving[1]
			b := c.Analysis.Bends[0].Angle
			deg, cos := fewest(b/kinematics.Degree), fixed(m.MinRatio(), 5)
			s.step("a) Slowest",
				"The ratio is least where sin²φ = 0: the driving ears square to the plane of the shafts. That plane is upright, so they lie level: θ = 0° and 180°.",
				formula("n₂ = n₁·cos β = %d·cos %s° = %s rev/min", rpm, deg, hundredths(rpm*m.MinRatio())))
			s.step("b) Fastest",
				"It is greatest where sin²φ = 1: the driving ears in the plane, θ = 90° and 270°. There 1 − sin²β = cos²β.",
				formula("n₂ = n₁/cos β = %d/cos %s° = %s rev/min", rpm, deg, hundredths(rpm*m.MaxRatio())))
			first := b * b
			s.step("c) Swing",
				formula("U = 1/cos β − cos β = 1/%s − %s = %s", cos, cos, fixed(m.Nonuniformity(), 4)),
				"To first order, β in radians:",
				formula("U ≈ β² = (%s°)² = %s", deg, fixed(first, 4)),
				fmt.Sprintf("This is %s %% too small.", significant(100*(1-first/m.Nonuniformity()))))
			even := evenPosition(m)
			s.step("d) As fast as the first",
				"Set the ratio to 1 and use sin²β = (1 − cos β)·(1 + cos β):",
				formula("sin²θ = 1/(1 + cos β)"),
				formula("θ = asin(1/√(1 + %s)) = %s", cos, degrees(even)),
				"and as far before and behind 180° and 360°. Not at 45°: the shaft is slow for longer than it is fast.")
			s.show("How evenly the shafts turn", c.lessonSpeed())
			s.add(newPlainViews(c).alone())
			return s, nil
		},
	}
}

// evenPosition returns the first position from the slowest on at which the ratio of one
// joint is 1, by halving.
func evenPosition(m kinematics.Motion) float64 {
	low, high := 0.0, math.Pi/2
	for range 60 {
		if middle := (low + high) / 2; m.At(m.Azimuth()+middle).Ratio < 1 {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// peakAcceleration is worked by the closed form of one joint's peak.
func peakAcceleration() exercise {
	const beta, rpm, allowed, fast = 20, 1000, 1000, 3000
	return exercise{
		name: "acceleration", title: "How hard is the second shaft shaken?", rpm: rpm,
		example: example{fmt.Sprintf("One joint at %d°, %d rev/min", beta, rpm), [][2]float64{{0, 0}, {beta, 0}}, nil},
		given: []string{
			fmt.Sprintf("One joint at %d°. The first shaft turns evenly at %d rev/min.", beta, rpm),
			fmt.Sprintf("Allowed are %d rad/s².", allowed),
		},
		find: []string{
			"a) How large is the peak of the torsional acceleration to first order, and exactly?",
			"b) Where in the turn does it stand?",
			"c) At which speed would it be as large as allowed?",
			fmt.Sprintf("d) Which angle is allowed at %d rev/min?", fast),
		},
		solve: func(c *Case) (solution, error) {
			var s solution
			m, b := c.Analysis.Driving[1], c.Analysis.Bends[0].Angle
			deg, omega := fewest(b/kinematics.Degree), rpm*kinematics.RPM
			peak := m.PeakAccel() * omega * omega
			sin2 := math.Sin(b) * math.Sin(b)
			g := sin2 / (2 - sin2)
			at := math.Acos((1-math.Sqrt(1+8*g*g))/(2*g)) / 2
			s.step("a) Peak",
				formula("ω = 2π·n/60 = 2π·%d/60 = %s rad/s", rpm, hundredths(omega)),
				formula("α ≈ ω²·β² = %s²·(%s°)² = %s rad/s²", hundredths(omega), deg, fixed(omega*omega*b*b, 1)),
				"The exact one follows from b).")
			s.step("b) Place",
				"Set the derivative to nothing, with g for short:",
				formula("g = sin²β/(2 − sin²β) = (sin %s°)²/(2 − (sin %s°)²) = %s", deg, deg, fixed(g, 6)),
				formula("cos 2θ = (1 − √(1 + 8·g²))/(2·g)"),
				formula("θ = acos((1 − √(1 + 8·%s²))/(2·%s))/2 = %s", fixed(g, 6), fixed(g, 6), degrees(at)),
				"behind 45°, where first-order theory has it. Put in:",
				formula("α = %s²·cos %s°·(sin %s°)²·sin(2·%s)/(1 − (sin %s°)²·(sin %s)²)² = %s rad/s²", hundredths(omega), deg, deg, degrees(at), deg, degrees(at), fixed(peak, 0)))
			s.step("c) Speed", "The acceleration grows with the square of the speed.",
				formula("n = %d·√(%d/%s) = %s rev/min", rpm, allowed, fixed(peak, 0), fixed(rpm*math.Sqrt(allowed/peak), 0)))
			most := math.Sqrt(allowed) / (fast * kinematics.RPM)
			there, err := kinematics.SingleJoint(most, 0)
			if err != nil {
				return s, err
			}
			s.step("d) Angle",
				formula("β ≈ √α/ω = √%d/(2π·%d/60) = %s", allowed, fast, degrees(most)),
				fmt.Sprintf("There the exact peak is %s rad/s², so small angles need no more than first-order theory.", fixed(there.PeakAccel()*math.Pow(fast*kinematics.RPM, 2), 0)))
			p := accelerationOf(c.RPM).panel(Driving)
			p.Add(accelerationOf(c.RPM).curve("exact", m, page.Accent()),
				accelerationOf(c.RPM).sampled("second order alone", positions(m), secondOrder(m), theoryLine))
			s.show("Torsional acceleration", p)
			s.add(newPlainViews(c).alone())
			return s, nil
		},
	}
}
