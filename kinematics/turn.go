package kinematics

import (
	"math"
	"math/cmplx"
)

// turn is a linear map z → a·z + b·z̄ of ear directions. Only the direction of
// the image counts, so a turn may be scaled by any positive number. Its
// determinant |a|² − |b|² is positive and is carried along, since it cancels
// badly when it is computed from a and b of a steep chain.
type turn struct {
	a, b complex128
	det  float64
}

var identity = turn{a: 1, det: 1}

// then returns the map that does t first and next after it.
func (t turn) then(next turn) turn {
	return turn{
		a:   next.a*t.a + next.b*cmplx.Conj(t.b),
		b:   next.a*t.b + next.b*cmplx.Conj(t.a),
		det: next.det * t.det,
	}
}

// inverse returns the map that undoes t, up to scale.
func (t turn) inverse() turn { return turn{a: cmplx.Conj(t.a), b: -t.b, det: t.det} }

// phaseTurn turns ears by a fixed angle.
func phaseTurn(angle float64) turn {
	if angle == 0 {
		return identity
	}
	sin, cos := math.Sincos(angle)
	return turn{a: complex(cos, sin), det: 1}
}

// crossTurn is one cross at a working angle of the given sine and cosine whose
// plane has its normal at azimuth e^{jμ}. The driven ears stand a quarter turn
// on, hence the factor j.
func crossTurn(sin, cos float64, azimuth complex128) turn {
	half := sin * sin / (2 * (1 + cos)) // sin²(β/2), exact for small β
	return turn{
		a:   complex(0, (1+cos)/2),
		b:   complex(0, half) * azimuth * azimuth,
		det: cos,
	}
}

// turn returns the map from the driving ears of a joint to its driven ears.
func (b bend) turn(j Joint) turn {
	switch j.Kind {
	case ConstantVelocity:
		return identity
	case DoubleCardan:
		t := identity
		for _, half := range j.halves(b.angle()) {
			sin, cos := math.Sincos(half)
			t = t.then(crossTurn(sin, cos, b.azimuth))
		}
		return t
	default:
		return crossTurn(b.sin, b.cos, b.azimuth)
	}
}
