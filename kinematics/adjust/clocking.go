package adjust

import (
	"context"
	"math"
	"math/cmplx"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// outOfPhase returns the shafts whose yokes stand as they should not between
// companion joints: turned from where the joints would cancel best by more than
// the error of a phase and what a yoke is set to by eye.
func outOfPhase(s *survey.Survey) []string {
	const straight = 0.25 * kinematics.Degree
	d, err := s.Driveline()
	if err != nil {
		return nil
	}
	roles, err := limits.RolesOf(s)
	if err != nil {
		return nil
	}
	var names []string
	terms := d.Terms(nil)
	for _, pair := range roles.Pairs() {
		if pair[1] != pair[0]+1 || min(d.WorkingAngle(pair[0]), d.WorkingAngle(pair[1])) < straight {
			continue
		}
		if off := against(terms[pair[0]], terms[pair[1]]); off > (limits.ByEye+s.PhaseErrorDeg)*kinematics.Degree {
			names = append(names, s.Shafts[pair[1]].Name)
		}
	}
	return names
}

// inPhase reports whether the yokes of a shaft stand in line, as a shaft is built.
func inPhase(s *survey.Survey, shaft int) bool {
	return math.Abs(math.Remainder(s.Shafts[shaft].PhaseDeg.Mean(), 180)) <= limits.ByEye+s.PhaseErrorDeg
}

// against returns how far, as a phase, the second term is from standing against
// the first, rad within [0, π/2].
func against(first, second complex128) float64 {
	return math.Abs(cmplx.Phase(-first*cmplx.Conj(second))) / 2
}

// cut returns the best clocking of a shaft whose yokes are in phase, nil where none
// alone mends everything: a good shaft is not cut up for less. Such planes are twisted
// because a part stands sideways, and that is the thing to mend.
func (q *searcher) cut(ctx context.Context) (*candidate, error) {
	q.changes = q.cuts
	all, err := q.ofSize(ctx, 1)
	if best := q.objective.choose(all); best != nil && best.standing.mended() {
		return best, err
	}
	return nil, err
}
