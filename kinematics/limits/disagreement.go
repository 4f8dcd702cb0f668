package limits

import (
	"fmt"
	"slices"

	"halfturn/kinematics/survey"
)

// Where the shop rules and the exact residual disagree, and where the printed
// limits do.

// residuals returns the verdicts on what is left at the last shaft.
func (in *inspection) residuals() []Verdict {
	var list []Verdict
	for _, name := range []string{survey.LimitResidualAccel, survey.LimitEquivalentAngle, survey.LimitNonuniformity} {
		if of := in.of(name); len(of) > 0 {
			list = append(list, of[0]) // the last shaft comes before the joints by themselves
		}
	}
	return list
}

// of returns the verdicts by limits of the given names.
func (in *inspection) of(names ...string) []Verdict {
	return slices.DeleteFunc(slices.Clone(in.verdicts), func(v Verdict) bool { return !slices.Contains(names, v.LimitName) })
}

// alone says that a single joint is not cancelled by anything.
func (in *inspection) alone() []string {
	if len(in.survey.Joints) > 1 || len(in.gauge.Roles.Lone) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Nothing cancels the fluctuation of %s, which has no companion.", in.survey.Joints[0].Name)}
}

// uncancelled explains too large a residual where every shop rule is kept.
func (in *inspection) uncancelled() []string {
	over := only(in.residuals(), Over)
	rules := in.of(survey.LimitCompanionDifference, survey.LimitOddJointMax)
	if len(over) == 0 || len(rules) == 0 || len(only(rules, Within)) < len(rules) {
		return nil
	}
	joints := len(in.gauge.Roles.Odd)
	for _, c := range in.gauge.Roles.Companions {
		joints += len(c)
	}
	if joints < 3 {
		return nil
	}
	v := worst(over)
	return []string{fmt.Sprintf("Each joint and each pair looks fine by itself, but what the %d joints leave adds up to %s.",
		joints, against(v.Value, v.Limit, v.Unit))}
}

// harmless names limits that look away from the speed and are broken, where the
// acceleration at this speed is not.
func (in *inspection) harmless() []string {
	accel := in.of(survey.LimitResidualAccel)
	if len(accel) == 0 || accel[0].Outcome != Within {
		return nil
	}
	left := accel[0] // of the last shaft
	speedless := in.of(survey.LimitCompanionDifference, survey.LimitOddJointMax,
		survey.LimitEquivalentAngle, survey.LimitNonuniformity)
	var list []string
	for _, v := range only(speedless, Over) {
		list = append(list, fmt.Sprintf("Although %s, at %s rpm no more than %s of the allowed %s is left at %s: by its acceleration it is harmless at this speed.",
			v, trimmed(in.gauge.RPM), Amount(left.Value, ""), Bounded(left.Limit, left.Unit), left.Subject))
	}
	return list
}

// disputed names, for each limit of the set, printed limits between which the
// case in hand lies.
func (in *inspection) disputed() []string {
	var list []string
	for _, name := range survey.LimitNames {
		for _, v := range in.of(name) {
			if remark, ok := in.dispute(v); ok && v.Basis != SetByFile {
				list = append(list, remark)
				break // one example is enough
			}
		}
	}
	return list
}

// dispute names the printed limits next to a value on both sides.
func (in *inspection) dispute(v Verdict) (string, bool) {
	var broken, kept Limit
	for _, p := range pertinent(in.gauge.Set.Name, v.LimitName) {
		value, ok := p.bound.at(in.gauge.RPM)
		if !ok {
			continue
		}
		switch l := newLimit(v.LimitName, value, p.basis(), ""); {
		case l.Kept(v.Value):
			if kept.Basis == "" || l.tighter(kept) {
				kept = l
			}
		case broken.Basis == "" || broken.tighter(l):
			broken = l
		}
	}
	beyond := Over
	if v.Sense == AtLeast {
		beyond = Under
	}
	return fmt.Sprintf("Printed limits disagree on %s, %s: it is %s %s (%s) but keeps %s (%s).",
		v.about(), Amount(v.Value, v.Unit),
		beyond, Bounded(broken.Value, broken.Unit), broken.Basis,
		Bounded(kept.Value, kept.Unit), kept.Basis), broken.Basis != "" && kept.Basis != ""
}
