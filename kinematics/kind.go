package kinematics

import "fmt"

// Kind says how a joint passes rotation on. The empty Kind is Cardan.
type Kind string

const (
	// Cardan is one cross between two yokes.
	Cardan Kind = "cardan"
	// ConstantVelocity passes rotation on unchanged at every angle.
	ConstantVelocity Kind = "constant-velocity"
	// DoubleCardan is two Cardan joints in one coupling yoke; see Joint.Synchronous.
	DoubleCardan Kind = "double-cardan"
)

// Kinds lists every kind of joint.
var Kinds = kindsOf(rules)

// rule is all that the model knows of a kind of joint.
type rule struct {
	kind Kind
	// turn maps the driving ears onto the driven ears.
	turn func(Joint, bend) turn
	// term is the size of the joint's term in the second-order sum, in rad², for
	// a working angle in radians.
	term func(j Joint, beta float64) float64
	// straight is where the driven ears of the straight joint stand, as e^{jφ} from
	// its driving ears: each cross sets them a quarter turn on.
	straight complex128
	// couple is the couple across the driven shaft, whose ears the turn reaches; see
	// crossCouple.
	couple func(bend, turn) harmonic
}

var rules = []rule{
	{
		kind:     Cardan,
		turn:     func(_ Joint, b bend) turn { return crossTurn(b.sin, b.cos, b.azimuth) },
		term:     func(_ Joint, beta float64) float64 { return beta * beta },
		straight: 1i,
		couple:   crossCouple,
	},
	{
		kind:     ConstantVelocity,
		turn:     func(Joint, bend) turn { return identity },
		term:     func(Joint, float64) float64 { return 0 },
		straight: 1,
		couple:   steadyCouple,
	},
	{
		kind: DoubleCardan,
		turn: doubleCrossTurn,
		// The second cross stands a quarter turn on, against the first.
		term: func(j Joint, beta float64) float64 {
			h := j.halves(beta)
			return h[0]*h[0] - h[1]*h[1]
		},
		straight: -1,
		couple:   steadyCouple,
	},
}

// rule returns the rule of the joint's kind, which New has checked.
func (j Joint) rule() *rule {
	for i := range rules {
		if rules[i].kind == j.Kind {
			return &rules[i]
		}
	}
	panic(fmt.Sprintf("kinematics: no rule for a joint of kind %q", j.Kind))
}

func kindsOf(rules []rule) []Kind {
	var kinds []Kind
	for _, r := range rules {
		kinds = append(kinds, r.kind)
	}
	return kinds
}
