package limits

import (
	"fmt"
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
		list = append(list, "the yokes of "+Listed(inPhase)+" are in phase")
	}
	if len(list) == 0 {
		return ""
	}
	return fmt.Sprintf("Not entered, so taken for granted: %s.", Listed(list))
}

// remarks returns what the verdicts alone do not say, one sentence each.
func (w *wording) remarks() []string {
	return slices.Concat(
		w.noSpeed(),
		w.noLoads(),
		w.rolling(),
		w.noError(),
		w.addsUp(),
	)
}

// noSpeed says what is not judged for want of a speed.
func (w *wording) noSpeed() []string {
	if len(w.gauge.LeftOut) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("No speed is given, so what depends on it is not judged: %s.", Listed(w.gauge.LeftOut))}
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

// addsUp explains too large a remainder where every rule of the shop is kept.
func (w *wording) addsUp() []string {
	v, ok := w.find(survey.LimitResidualAccel)
	rules := slices.DeleteFunc(slices.Clone(w.judgement.Verdicts), func(v Verdict) bool { return v.Class != OutOfMatch })
	if !ok || v.Outcome != Over || len(rules) < 2 || len(only(rules, Within)) < len(rules) {
		return nil
	}
	return []string{fmt.Sprintf("Each joint and each pair looks fine by itself, but what they leave adds up to %s.", against(v.Value, v.Limit, v.Unit))}
}
