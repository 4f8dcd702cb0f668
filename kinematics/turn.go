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
	n := turn{
		a:   next.a*t.a + next.b*cmplx.Conj(t.b),
		b:   next.a*t.b + next.b*cmplx.Conj(t.a),
		det: next.det * t.det,
	}
	// Steep joints that cancel shrink it, the determinant twice as fast.
	if math.Abs(real(n.a))+math.Abs(imag(n.a)) < small {
		n.a, n.b, n.det = n.a/small, n.b/small, n.det/(small*small)
	}
	return n
}

// small is a power of two, so that dividing by it rounds nothing.
const small = 0x1p-64

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

// doubleCrossTurn is the two crosses of a double-cardan joint.
func doubleCrossTurn(j Joint, b bend) turn {
	t := identity
	for _, half := range j.halves(b.angle()) {
		sin, cos := math.Sincos(half)
		t = t.then(crossTurn(sin, cos, b.azimuth))
	}
	return t
}
