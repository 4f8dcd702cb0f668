package limits

import (
	"fmt"
	"math"
	"slices"

	"halfturn/kinematics/survey"
)

// assumed says what is taken for granted because nobody entered it.
func (w *wording) assumed() string {
	s := w.survey
	var straight, inPhase, headed, phased []string
	for i, sh := range s.Shafts {
		inner := 0 < i && i < len(s.Shafts)-1
		switch {
		case inner && s.Positioned():
		case sh.Heading.Entered():
			headed = append(headed, sh.Name)
		default:
			straight = append(straight, sh.Name)
		}
		switch {
		case !inner:
		case sh.PhaseDeg != nil:
			phased = append(phased, sh.Name)
		case !w.judgement.Roles.phaseMatters(s, i):
			inPhase = append(inPhase, sh.Name)
		}
	}
	var list []string
	switch {
	case len(straight) > 0 && len(headed) == 0 && !s.Positioned():
		list = append(list, "all shafts run straight along")
	case len(straight) > 0:
		list = append(list, verbed(straight, "runs", "run")+" straight along")
	}
	switch {
	case len(inPhase) > 0 && len(phased) == 0:
		list = append(list, "all yokes are in phase")
	case len(inPhase) > 0:
		list = append(list, "the yokes of "+listed(inPhase)+" are in phase")
	}
	if len(list) == 0 {
		return ""
	}
	return fmt.Sprintf("Not entered, so taken for granted: %s.", listed(list))
}

// questions returns what to ask back first.
func (w *wording) questions() []string {
	return append(w.survey.Questions(slices.Contains(onRoad, w.gauge.Set.Name)), w.signs()...)
}

// signs asks whether a sign is wrong where companions do not match and everything
// would be within its limit if one slope or heading had the other sign.
func (w *wording) signs() []string {
	over := only(w.judgement.Verdicts, Over)
	if !slices.ContainsFunc(over, func(v Verdict) bool { return v.LimitName == survey.LimitCompanionDifference }) {
		return nil
	}
	var list []string
	for i, sh := range w.survey.Shafts {
		flipped := *w.survey
		flipped.Shafts = slices.Clone(w.survey.Shafts)
		if slope := sh.Slope.Mean(); slope != 0 {
			flipped.Shafts[i].Slope = sh.Slope.Shifted(-2 * slope)
			if w.matches(&flipped) {
				list = append(list, fmt.Sprintf("%s: entered as %s by %s; the joints would match if it %s: is the sign right?",
					sh.Name, oneOf(slope > 0, "falling", "rising"), Bounded(math.Abs(slope), unitDeg), oneOf(slope > 0, "rose", "fell")))
			}
			flipped.Shafts[i].Slope = sh.Slope
		}
		if run := sh.Heading.Mean(); run != 0 {
			flipped.Shafts[i].Heading = sh.Heading.Shifted(-2 * run)
			if w.matches(&flipped) {
				list = append(list, fmt.Sprintf("%s: entered as drifting to the %s; the joints would match if it went to the %s: is the sign right?",
					sh.Name, oneOf(run > 0, "right", "left"), oneOf(run > 0, "left", "right")))
			}
		}
	}
	return list
}

// matches reports whether another driveline with the same joints keeps every limit.
func (w *wording) matches(s *survey.Survey) bool {
	d, err := s.Driveline()
	if err != nil {
		return false
	}
	for q, v := range w.gauge.Clone().Measure(d, nil) {
		if !w.gauge.Judged[q].Limit.Kept(v) {
			return false
		}
	}
	return true
}

// remarks returns what the verdicts alone do not say, one sentence each.
func (w *wording) remarks() []string {
	return slices.Concat(
		w.noSpeed(),
		w.noLoads(),
		w.rolling(),
		w.noError(),
		w.scattered(),
		w.addsUp(),
	)
}

// noSpeed says what is not judged for want of a speed.
func (w *wording) noSpeed() []string {
	if len(w.gauge.LeftOut) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("No speed is given, so what depends on it is not judged: %s.", listed(w.gauge.LeftOut))}
}

// rolling says how the speed of the shafts follows from the road.
func (w *wording) rolling() []string {
	g := w.survey.Gearing()
	if g == nil || g.Spread == 0 || w.survey.RPM > 0 || w.gauge.RPM == 0 {
		return nil
	}
	return []string{fmt.Sprintf("The %s rpm of the shafts assume that the tyre turns as if it were %.0f %% smaller than it is made; workshop texts print turns that belong to 2 to 4 %%.",
		trimmed(w.gauge.RPM), 100*(1-survey.RollingFactor))}
}

// noError says which measurements are taken as exact.
func (w *wording) noError() []string {
	s := w.survey
	var exact []string
	if s.ReadingErrorDeg == 0 && s.GaugeErrorDeg == 0 && s.GaugeResolutionDeg == 0 && slices.ContainsFunc(s.Shafts, func(sh survey.Shaft) bool {
		return sh.Slope.Entered() || sh.Heading.By == survey.ByRight
	}) {
		exact = append(exact, "No reading error is given, so the readings of slopes and headings are taken as exact.")
	}
	if s.TapeError == 0 && (s.Positioned() || slices.ContainsFunc(s.Shafts, func(sh survey.Shaft) bool { return sh.Heading.By == survey.ByOffset })) {
		exact = append(exact, "No tape error is given, so what was measured by tape is taken as exact.")
	}
	return exact
}

// scattered names repeated readings that the reading error does not explain.
func (w *wording) scattered() []string {
	var list []string
	for _, sh := range w.survey.Shafts {
		for _, angle := range []struct {
			name     string
			by       survey.Method
			readings survey.Readings
		}{{"slope", sh.Slope.By, sh.Slope.Deg}, {"heading", sh.Heading.By, sh.Heading.Values}} {
			if len(angle.readings) < 2 || angle.by == survey.ByTurned || angle.by == survey.ByOffset || w.survey.ReadingErrorDeg == 0 {
				continue
			}
			apart := slices.Max(angle.readings) - slices.Min(angle.readings)
			if apart > 2*w.survey.ReadingErrorDeg*(1+1e-9) { // but for rounding
				list = append(list, fmt.Sprintf(
					"The readings of the %s of %s lie %s apart, more than a reading error of %s allows: one of them may be wrong.",
					angle.name, sh.Name, Amount(apart, unitDeg), Bounded(w.survey.ReadingErrorDeg, unitDeg)))
			}
		}
	}
	return list
}

// addsUp explains too large a remainder where every rule of the shop is kept.
func (w *wording) addsUp() []string {
	v, ok := w.find(survey.LimitResidualAccel)
	rules := slices.DeleteFunc(slices.Clone(w.judgement.Verdicts), func(v Verdict) bool { return v.Class != OutOfMatch })
	if !ok || v.Outcome != Over || len(rules) < 2 || len(only(rules, Within)) < len(rules) {
		return nil
	}
	return []string{fmt.Sprintf("Each joint and each pair looks fine by itself, but what they leave adds up to %s.", against(v.Value, v.Limit, v.Unit))}
}
