package plotting

import (
	"fmt"

	"halfturn/plotting/page"
)

// secondaryCouple is worked by the couple of one joint and the balance of one shaft.
func secondaryCouple() exercise {
	const rpm = 2000
	line := evenLines[2]
	return exercise{
		name: "secondary-couple", title: "Why does the centre bearing hum, though all turns evenly?", rpm: rpm,
		example: example{"Two-piece line: " + line.name + ", ears in line", line.slopes, line.phases},
		given: []string{
			fmt.Sprintf("The front shaft is in line with the gearbox; centre and pinion joint cancel. The torque is 1000 N·m, the speed %d rev/min.", rpm),
			"Both shafts are 1 m long from joint to joint. The centre bearing holds the front shaft at the centre joint.",
		},
		find: []string{
			"a) Which couple bends the front shaft at the centre joint, and when?",
			"b) By how much does it swing the force on the centre bearing?",
			"c) How often a second?",
			"d) What changes at half the speed, and what at half the torque?",
		},
		solve: func(c *Case) (solution, error) {
			var s solution
			loads := c.loadsOfLesson()
			torque, length := loads.TorqueNM, loads.Supports[1].Length
			couple, bearing := loads.Couples.Joints[1].Driving, c.supports(loads)[0]
			deg := degrees(c.Analysis.Bends[1].Angle)
			s.step("a) Couple",
				"A cross passes on a couple square to its own plane. What of it lies across the shaft before the joint is greatest where the driving ears lie in the plane of the shafts, and nothing a quarter turn on:",
				formula("c = T·tan β₂ = %s·tan %s = %s N·m", fixed(torque, 0), deg, hundredths(couple.Peak())),
				"So it is a steady couple of half that, and one as large that turns round the shaft twice a turn:",
				formula("c/2 = %s/2 = %s N·m", hundredths(couple.Peak()), hundredths(couple.Swing())))
			s.step("b) Force",
				"The front joint is straight and adds no couple; the rear shaft, between two parallel shafts, passes on no swing. The front shaft is held by the front joint and the bearing, a length L apart, which must balance the couple:",
				formula("F = c/(2·L) = %s/(2·%s) = ±%s N", hundredths(couple.Peak()), fixed(length, 1), hundredths(bearing.force.Swing())),
				"Weight and the friction of the slip change the steady part, not this swing.")
			s.step("c) Twice a turn", formula("f = 2·n/60 = 2·%d/60 = %s Hz", rpm, fixed(rpm/30.0, 1)))
			s.step("d) Speed and torque",
				fmt.Sprintf("At half the speed the force is the same, ±%s N, half as often: what speed does not change comes from torque. At half the torque it is half. What is left of the speed, %s here, would fall with the square of the speed.",
					significant(bearing.force.Swing()), degrees(c.Analysis.SecondOrder.Exact)))
			s.show(bearing.on, forcePanel(bearing, bearing.reach()))
			across := &page.Panel{
				X: turnAxis("first"),
				Y: page.Axis{Label: "couple, N·m"},
			}
			across.Add(coupleCurve("across the front shaft", couple, page.Accent()))
			s.show("What bends the front shaft at the centre joint", across)
			return s, nil
		},
	}
}
