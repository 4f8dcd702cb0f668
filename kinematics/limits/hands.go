package limits

import (
	"math"

	"halfturn/kinematics/survey"
)

// hands are the signs by which errors are drawn, +1 or −1. They go with the driveline
// when it is mirrored, so that its mirror image is judged by the mirrored draws.
type hands struct{ down, right, turn float64 }

func handsOf(s *survey.Survey) hands {
	var down, right, phase []float64
	for i, sh := range s.Shafts {
		down = append(down, sh.Slope.Mean())
		right = append(right, sh.Heading.Mean())
		phase = append(phase, sh.PhaseDeg.Mean())
		if 0 < i && i < len(s.Joints) && s.Positioned() {
			from, to := s.Joints[i-1].At, s.Joints[i].At
			down, right = append(down, to.Down-from.Down), append(right, to.Right-from.Right)
		}
	}
	d, r, p := firstSign(down), firstSign(right), firstSign(phase)
	switch {
	case r == 0 && p != 0 && d != 0:
		r = p * d
	case d == 0 && p != 0 && r != 0:
		d = p * r
	}
	known := func(sign float64) float64 {
		if sign == 0 {
			return 1
		}
		return sign
	}
	d, r = known(d), known(r)
	return hands{down: d, right: r, turn: d * r}
}

// firstSign returns the sign of the first value that is not 0 but for rounding; 0 for
// none.
func firstSign(values []float64) float64 {
	for _, v := range values {
		if math.Abs(v) > 1e-9 {
			return math.Copysign(1, v)
		}
	}
	return 0
}
