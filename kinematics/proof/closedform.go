package proof

import (
	"fmt"
	"math"

	"halfturn/kinematics"
)

// orders checks the harmonics of one joint against the Fourier integrals of its
// motion.
func orders() []Check {
	const highest = 8
	lead := law{"Lead of one joint at 45° by order, rad", "Fourier integral of the lead over a turn", 10}
	m := joint(45)
	var checks []Check
	for _, o := range m.Orders(highest) {
		part := func(theta float64) float64 {
			return m.At(theta).Lead * math.Cos(float64(o.Number)*theta-o.Phase)
		}
		checks = append(checks, lead.check(fmt.Sprintf("order %d", o.Number), overTurn(part)/math.Pi, o.Lead))
	}
	return checks
}

// pairs checks two joints of different angles in one plane: exactly their cosines
// multiply or divide, to first order the squares of their angles add or subtract.
func pairs() []Check {
	cosines := law{"Lowest ratio behind joints of 25° and 10°", "Pair in one plane: cosines divide in phase, multiply a quarter turn out", 4}
	squares := law{"Equivalent angle by the small-angle sum, deg", "Pair in one plane: squares subtract in phase, add a quarter turn out", 10}
	cos := func(deg float64) float64 { return math.Cos(deg * kinematics.Degree) }
	inPhase := chain(shaft(0, 0, 0), shaft(25, 0, 0), shaft(15, 0, 0))
	quarterOut := chain(shaft(0, 0, 0), shaft(25, 0, 90), shaft(15, 0, 0))
	equivalent := func(d *kinematics.Driveline) float64 { return d.SecondOrder().Equivalent / kinematics.Degree }
	return []Check{
		cosines.check("in phase", cos(25)/cos(10), lastOf(inPhase).MinRatio()),
		cosines.check("a quarter turn out of phase", cos(25)*cos(10), lastOf(quarterOut).MinRatio()),
		squares.check("in phase", math.Sqrt(25*25-10*10), equivalent(inPhase)),
		squares.check("a quarter turn out of phase", math.Sqrt(25*25+10*10), equivalent(quarterOut)),
	}
}

// twoViews checks true angles in space against what two views show.
func twoViews() []Check {
	compound := law{"Working angle behind a level shaft, deg", "Two views: tan²β = tan²(down) + tan²(right)", 10}
	incline := law{"What an inclinometer reads, deg", "Two views: tan(incline) = tan(down)·cos(right)", 10}
	tan := func(deg float64) float64 { return math.Tan(deg * kinematics.Degree) }
	var checks []Check
	for _, view := range []struct {
		what        string
		down, right float64
	}{
		{"4° down, 3° right", 4, 3},
		{"10° down, 10° right", 10, 10},
		{"30° up, 25° left", -30, -25},
	} {
		bent := shaft(view.down, view.right, 0)
		d := chain(shaft(0, 0, 0), bent)
		beta := math.Atan(math.Hypot(tan(view.down), tan(view.right)))
		slope := math.Atan(tan(view.down) * math.Cos(view.right*kinematics.Degree))
		checks = append(checks,
			compound.check(view.what, beta/kinematics.Degree, d.WorkingAngle(0)/kinematics.Degree),
			incline.check(view.what, slope/kinematics.Degree, kinematics.Incline(bent.Axis)/kinematics.Degree))
	}
	return checks
}

// doubleCardans checks that a double-cardan joint passes rotation on evenly at
// the bend that its centring is made for, and nowhere else between straight and
// steep: its lead changes sign there once, at a slant that makes a rounding of the
// lead ten or more of the bend.
func doubleCardans() []Check {
	const steep = 60
	even := law{"Bend at which a double-cardan joint is even, deg", "Centring made for this bend, as by Elbe-group technical section 7 (double joint shafts)", 100}
	var checks []Check
	for _, synchronous := range []float64{32, 35} {
		lead := func(bend float64) float64 {
			d := must(kinematics.New(inPlane(0, bend).Shafts(), []kinematics.Joint{
				{Kind: kinematics.DoubleCardan, Synchronous: synchronous * kinematics.Degree},
			}))
			return lastOf(d).At(math.Pi / 4).Lead
		}
		checks = append(checks, even.check(fmt.Sprintf("made for %g°", synchronous), synchronous, root(1, steep, lead)))
	}
	return checks
}
