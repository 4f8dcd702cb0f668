package limits

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/kinematics/survey"
)

// outOfPhase names all yokes that are out of phase, unless the answer so far does,
// also where that is harmless.
func (w *wording) outOfPhase(answer string) string {
	for _, m := range w.judgement.Mismatches {
		if !m.OutOfPhase() || strings.Contains(answer, m.cause()) {
			continue
		}
		answer += fmt.Sprintf(" But at %s %s", w.names(m.Joints), m.cause())
		if w.of(m).Outcome == Within && !slices.ContainsFunc(w.judgement.Verdicts, func(v Verdict) bool {
			return v.Class == TooShaken && v.Outcome != Within
		}) {
			answer += ", little as that matters at such angles"
		}
		if w.madeUpFor(m) {
			answer += ", which the rest of the line makes up for"
		}
		answer += "."
	}
	return answer
}

// phaseCure says how yokes that are out of phase are to be turned.
func (w *wording) phaseCure() string {
	var cures []string
	for _, m := range w.judgement.Mismatches {
		if !m.OutOfPhase() || w.madeUpFor(m) {
			continue
		}
		shaft := w.survey.Shafts[m.Joints[1]] // the one with the free end
		cures = append(cures, fmt.Sprintf("Turn the driven-end yoke of %s by %s %s, to a phase of %s.",
			shaft.Name, degreesOf(math.Abs(m.Off)), oneOf(m.Off > 0, "anticlockwise", "clockwise"),
			degreesOf(halfTurned(shaft.PhaseDeg.Mean()-m.Off))))
	}
	return strings.Join(cures, " ")
}

// madeUpFor reports whether much more would be left with the yokes of a pair in phase.
func (w *wording) madeUpFor(m Mismatch) bool {
	turned := w.survey.Complete()
	phase := &turned.Shafts[m.Joints[1]].PhaseDeg
	*phase = survey.Readings{phase.Mean() - m.Off}
	d, err := turned.Driveline()
	if err != nil {
		panic(err) // no phase makes a bend
	}
	motions := d.Driving(nil)
	return motions[len(motions)-1].Angle() > 2*w.last.Angle()+rounding
}

// of returns the verdict on a mismatch, the zero Verdict where it is not judged.
func (w *wording) of(m Mismatch) Verdict {
	for _, v := range w.judgement.Verdicts {
		if v.LimitName == survey.LimitCompanionDifference && v.Subject == w.names(m.Joints) {
			return v
		}
	}
	return Verdict{}
}
