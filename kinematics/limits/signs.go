package limits

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// questions returns what to ask back first.
func (w *wording) questions() []string {
	road := slices.Contains(onRoad, w.gauge.Set.Name)
	list := w.survey.Questions(road)
	signs := w.signs()
	if len(signs) == 0 && road {
		signs = w.rises()
	}
	return append(list, signs...)
}

// signs asks whether a sign is wrong where companions do not match, or a joint is bent
// too far, and all that would be mended if one slope or heading had the other sign. A
// wrong sign breaks a limit by about twice the angle; where much less is broken, that
// the other sign would do is chance.
func (w *wording) signs() []string {
	broken := only(w.judgement.Verdicts, Over)
	would := ""
	switch {
	case slices.ContainsFunc(broken, func(v Verdict) bool { return v.LimitName == survey.LimitCompanionDifference }):
		would = "the joints would match"
	case slices.ContainsFunc(broken, func(v Verdict) bool { return v.Class == TooBent || v.Class == OutOfMatch }):
		would = "no joint would be bent too far"
	default:
		return nil
	}
	most := 0.0 // of what is broken, in deg
	for _, v := range broken {
		if v.Unit == unitDeg {
			most = max(most, v.Value)
		}
	}
	var list []string
	for i, sh := range w.survey.Shafts {
		flipped := *w.survey
		flipped.Shafts = slices.Clone(w.survey.Shafts)
		if slope := sh.Slope.Mean(); slope != 0 && math.Abs(slope) <= most {
			flipped.Shafts[i].Slope = sh.Slope.Shifted(-2 * slope)
			if w.sound(&flipped) {
				list = append(list, fmt.Sprintf("%s: entered as %s by %s; %s if it %s: is the sign right?",
					sh.Name, oneOf(slope > 0, "falling", "rising"), Bounded(math.Abs(slope), unitDeg), would, oneOf(slope > 0, "rose", "fell")))
			}
			flipped.Shafts[i].Slope = sh.Slope
		}
		if run := sh.Heading.Mean(); run != 0 && math.Abs(run) <= most {
			flipped.Shafts[i].Heading = sh.Heading.Shifted(-2 * run)
			if w.sound(&flipped) {
				list = append(list, fmt.Sprintf("%s: entered as drifting to the %s; %s if it went to the %s: is the sign right?",
					sh.Name, oneOf(run > 0, "right", "left"), would, oneOf(run > 0, "left", "right")))
			}
		}
	}
	return list
}

// sound reports whether another driveline with the same joints keeps every limit, but
// for those on joints that are too straight.
func (w *wording) sound(s *survey.Survey) bool {
	d, err := s.Driveline()
	if err != nil {
		return false
	}
	for q, v := range w.gauge.Clone().Measure(d, nil) {
		if l := w.gauge.Judged[q].Limit; l.Class != TooStraight && !l.Kept(v) {
			return false
		}
	}
	return true
}

// level is how much the line of a road vehicle may rise toward its driven end without
// being asked about, in deg: common practice, no source.
const level = 1

// rises asks whether all signs are the other way where the shafts between the first and
// the last joint of a road vehicle rise as a whole.
func (w *wording) rises() []string {
	axes, lengths := w.survey.Axes(), w.survey.Lengths()
	last := len(axes) - 1
	if last < 2 {
		return nil
	}
	known := !slices.Contains(lengths[1:last], 0)
	var line r3.Vec
	for i := 1; i < last; i++ {
		length := 1.0
		if known {
			length = lengths[i]
		}
		line = r3.Add(line, r3.Scale(length, r3.Unit(axes[i])))
	}
	rise := -kinematics.Incline(line) / kinematics.Degree
	if rise <= level*(1+rounding) {
		return nil
	}
	return []string{fmt.Sprintf("slopes: from the first joint to the last the line rises by %s, where that of a road vehicle falls toward the axle as a rule: are the signs right? A slope is positive where a shaft falls toward its driven end.",
		Amount(rise, unitDeg))}
}
