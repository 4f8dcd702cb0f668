package limits

import (
	"fmt"
	"math"
	"slices"

	"halfturn/kinematics/survey"
)

// clause words a verdict that is broken.
func (w *wording) clause(v Verdict) string {
	value, limit := against(v.Value, v.Limit, v.Unit), Bounded(v.Limit, v.Unit)
	switch v.LimitName {
	case survey.LimitWorkingAngleMax, survey.LimitConstantVelocityMax, survey.LimitDoubleCardanMax:
		return fmt.Sprintf("%s is bent by %s, %s is allowed", v.Subject, value, limit)
	case survey.LimitOddJointMax:
		return fmt.Sprintf("%s has no companion and is bent by %s, %s is allowed", v.Subject, value, limit)
	case survey.LimitLoneJointMax:
		return fmt.Sprintf("%s is the only Cardan joint and is bent by %s, %s is allowed", v.Subject, value, limit)
	case survey.LimitOddJointMin, survey.LimitWorkingAngleMin:
		return fmt.Sprintf("%s is too straight at %s, its needle bearings want %s to rock and not to wear", v.Subject, value, limit)
	case survey.LimitCompanionDifference:
		return w.mismatched(v)
	case survey.LimitSpeedAngle, survey.LimitEquivalentAngle, survey.LimitNonuniformity, survey.LimitBearingSwing:
		return fmt.Sprintf("the %s is %s, %s is allowed", v.About(), value, limit)
	case survey.LimitResidualAccel:
		return fmt.Sprintf("%s is left with a shake of %s, %s is allowed", v.Subject, value, limit)
	case survey.LimitInertiaDriveAccel:
		return fmt.Sprintf("%s itself is shaken with %s when driving, %s is allowed", v.Subject, value, limit)
	case survey.LimitInertiaCoastAccel:
		return fmt.Sprintf("%s itself is shaken with %s when coasting, %s is allowed", v.Subject, value, limit)
	default:
		panic("limits: nothing words a verdict by " + v.LimitName)
	}
}

// mismatched says how companions fail to cancel: by their angles, by their phase or
// by the planes that they lie in.
func (w *wording) mismatched(v Verdict) string {
	i := slices.IndexFunc(w.judgement.Mismatches, func(m Mismatch) bool { return w.names(m.Joints) == v.Subject })
	m := w.judgement.Mismatches[i]
	value, allowed := against(v.Value, v.Limit, v.Unit), Bounded(v.Limit, v.Unit)+" is allowed"
	if len(m.Joints) > 2 {
		return fmt.Sprintf("%s do not cancel: as bad as %s of difference, %s", v.Subject, value, allowed)
	}
	angles := fmt.Sprintf("%s and %s", Amount(m.Angles[0], unitDeg), Amount(m.Angles[1], unitDeg))
	unequal := math.Abs(m.Unequal)
	switch {
	case m.Size-unequal < 0.1*m.Size:
		return fmt.Sprintf("the angles at %s, %s, differ by %s, %s", v.Subject, angles, value, allowed)
	case unequal < 0.25*m.Size:
		return fmt.Sprintf("the angles at %s match (%s), but %s: as bad as %s of difference, %s", v.Subject, angles, m.cause(), value, allowed)
	default:
		return fmt.Sprintf("the angles at %s are %s, and %s: together as bad as %s of difference, %s", v.Subject, angles, m.cause(), value, allowed)
	}
}

// cause says why two joints of the same angle do not cancel.
func (m *Mismatch) cause() string {
	off := degreesOf(math.Abs(m.Off))
	switch {
	case math.Abs(m.Twist) < 1:
		return fmt.Sprintf("the yokes are %s out of phase", off)
	case math.Abs(m.Phase) < 1:
		return fmt.Sprintf("their planes are twisted by %s", off)
	default:
		return fmt.Sprintf("their planes and yokes stand %s from where they cancel", off)
	}
}

// About names the quantity and its subject, such as "working angle at centre joint".
func (v Verdict) About() string {
	where := "at"
	if v.LimitName == survey.LimitCompanionDifference {
		where = "of"
	}
	return fmt.Sprintf("%s %s %s", v.Quantity, where, v.Subject)
}

// allowed says what a limit is to a value.
func (v Verdict) allowed() string {
	if v.Sense == AtLeast {
		return "is the least"
	}
	return "is allowed"
}

// String returns the verdict as a clause, such as "the working angle at centre
// joint, 3.41°, is over 3°".
func (v Verdict) String() string {
	what := fmt.Sprintf("the %s, %s,", v.About(), against(v.Value, v.Limit, v.Unit))
	if v.Outcome == TooClose {
		return fmt.Sprintf("%s may be anything %s, on either side of %s", what, v.between(), Bounded(v.Limit, v.Unit))
	}
	return fmt.Sprintf("%s is %s %s", what, v.Outcome, Bounded(v.Limit, v.Unit))
}

// between says what the coverage interval spans.
func (v Verdict) between() string {
	if v.Low == 0 {
		return "up to " + Amount(v.High, v.Unit)
	}
	return fmt.Sprintf("from %s to %s", Amount(v.Low, v.Unit), Amount(v.High, v.Unit))
}
