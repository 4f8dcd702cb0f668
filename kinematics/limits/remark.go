package limits

import (
	"fmt"
	"slices"

	"halfturn/kinematics/survey"
)

// inspection is what remarks are made from.
type inspection struct {
	survey   *survey.Survey
	gauge    *Gauge
	verdicts []Verdict
}

// remarks returns what the verdicts alone do not say, one sentence each.
func remarks(s *survey.Survey, g *Gauge, verdicts []Verdict) []string {
	in := &inspection{survey: s, gauge: g, verdicts: verdicts}
	return slices.Concat(
		in.noSpeed(),
		in.noLoads(),
		in.rolling(),
		in.noError(),
		in.scattered(),
		in.alone(),
		in.uncancelled(),
		in.harmless(),
		in.disputed(),
	)
}

// noSpeed says what is not judged for want of a speed.
func (in *inspection) noSpeed() []string {
	if len(in.gauge.LeftOut) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("No speed is given, so what depends on it is not judged: %s.", listed(in.gauge.LeftOut))}
}

// rolling says how the speed of the shafts follows from the road.
func (in *inspection) rolling() []string {
	g := in.survey.Gearing()
	if g == nil || g.Spread == 0 || in.survey.RPM > 0 || in.gauge.RPM == 0 {
		return nil
	}
	return []string{fmt.Sprintf("The %s rpm of the shafts assume that the tyre turns as if it were %.0f %% smaller than it is made; workshop texts print turns that belong to 2 to 4 %%.",
		trimmed(in.gauge.RPM), 100*(1-survey.RollingFactor))}
}

// noError says which measurements are taken as exact.
func (in *inspection) noError() []string {
	s := in.survey
	var exact []string
	if s.ReadingErrorDeg == 0 && slices.ContainsFunc(s.Shafts, func(sh survey.Shaft) bool {
		return sh.Slope.Entered() || sh.Heading.By == survey.ByRight
	}) {
		exact = append(exact, "No reading error is given, so the readings of slopes and headings are taken as exact.")
	}
	if s.TapeError == 0 && s.Positioned() {
		exact = append(exact, "No tape error is given, so the positions of the joints are taken as exact.")
	}
	return exact
}

// scattered names repeated readings that the reading error does not explain.
func (in *inspection) scattered() []string {
	var list []string
	for _, sh := range in.survey.Shafts {
		if sh.Slope.By == survey.ByTurned { // apart by the gauge's own zero
			sh.Slope.Deg = nil
		}
		if sh.Heading.By == survey.ByOffset {
			sh.Heading.Values = nil
		}
		for _, angle := range []struct {
			name     string
			readings survey.Readings
		}{{"slope", sh.Slope.Deg}, {"heading", sh.Heading.Values}} {
			if len(angle.readings) < 2 || in.survey.ReadingErrorDeg == 0 {
				continue
			}
			apart := slices.Max(angle.readings) - slices.Min(angle.readings)
			if apart > 2*in.survey.ReadingErrorDeg*(1+1e-9) { // but for rounding
				list = append(list, fmt.Sprintf(
					"The readings of the %s of %s lie %s apart, more than a reading error of %s allows: one of them may be wrong.",
					angle.name, sh.Name, Amount(apart, unitDeg), Bounded(in.survey.ReadingErrorDeg, unitDeg)))
			}
		}
	}
	return list
}
