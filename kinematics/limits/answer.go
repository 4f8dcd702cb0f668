package limits

import (
	"fmt"
	"slices"
	"strings"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// This file words a judgement: sentences in the words of a shop, made from results
// that are there. What they say is said once.

// wording is what sentences are made from.
type wording struct {
	survey    *survey.Survey
	gauge     *Gauge
	judgement *Judgement
	driveline *kinematics.Driveline // as measured
	last      kinematics.Motion     // of its last shaft, driving
}

// word says everything that a judgement says in sentences.
func (j *Judgement) word(w *wording) {
	j.Outcome, j.Answer, j.Why = w.answer()
	j.PhaseCure = w.phaseCure()
	j.Left = w.left()
	j.Assumed = w.assumed()
	j.Questions = w.questions()
	j.Remarks = w.remarks()
}

// answer returns the outcome of all verdicts together, the sentences for it, and why it
// is not fine.
func (w *wording) answer() (o Outcome, answer, why string) {
	verdicts := w.judgement.Verdicts
	broken, doubtful := only(verdicts, Over, Under), only(verdicts, TooClose)
	switch {
	case len(broken) > 0:
		worst := gravest(broken)
		why = w.broken(worst, len(broken)-len(worst))
		return worst[0].Outcome, w.outOfPhase("Not fine: " + why + "."), why
	case len(doubtful) > 0:
		return TooClose, w.outOfPhase(w.tooClose(doubtful)), gravest(doubtful)[0].String()
	case len(verdicts) > 0:
		return Within, w.outOfPhase(w.fine()), ""
	default:
		return "", "Nothing is judged: no limit applies.", ""
	}
}

func (w *wording) fine() string {
	exact := ""
	switch inputs := w.judgement.Inputs; {
	case len(inputs) == 0:
		exact = ", if the readings are exact"
	case !slices.ContainsFunc(inputs, func(in Input) bool { return !in.isZero() }):
		exact = ", if the gauge is placed exactly"
	}
	return fmt.Sprintf("Fine: all limits are kept%s, in %s.", exact, counted(len(w.judgement.Verdicts), "verdict"))
}

// broken names the gravest of every class of what is broken, and says how much of the
// shake allowed is left where only a rule of the shop is broken and that is little.
func (w *wording) broken(worst []Verdict, more int) string {
	var clauses []string
	for _, v := range worst {
		clauses = append(clauses, w.clause(v))
	}
	text := strings.Join(clauses, "; ")
	if share, ok := w.harmless(worst); ok {
		text += "; yet " + share
	}
	if more > 0 {
		text += fmt.Sprintf(" (and %s)", counted(more, "more limit"))
	}
	return text
}

// Unfelt is the part of what is allowed below which nobody feels what is left. Our own
// choice.
const Unfelt = 0.25

// harmless says how little is left where nothing is broken but rules of the shop.
func (w *wording) harmless(broken []Verdict) (string, bool) {
	v, ok := w.find(survey.LimitResidualAccel)
	if !ok || v.Outcome != Within || v.Value > Unfelt*v.Limit ||
		slices.ContainsFunc(broken, func(v Verdict) bool { return v.Class != OutOfMatch }) {
		return "", false
	}
	share := fmt.Sprintf("only %s of %s allowed is left at this speed", Amount(v.Value, ""), Bounded(v.Limit, v.Unit))
	if n := w.cancelling(); n > 2 {
		share += fmt.Sprintf(", since the %d joints cancel as a whole", n)
	}
	return share, true
}

// cancelling returns how many Cardan joints leave nearly nothing together although
// none of them are companions that match; 0 where that is not so.
func (w *wording) cancelling() int {
	n, most := 0, 0.0
	for k, j := range w.survey.Joints {
		if j.Kind == kinematics.Cardan {
			n++
			most = max(most, w.driveline.WorkingAngle(k))
		}
	}
	if len(w.judgement.Roles.Odd) == 0 || w.last.Angle() > most/2 {
		return 0
	}
	return n
}

// tooClose names what is nearest to its limit and what would settle it.
func (w *wording) tooClose(doubtful []Verdict) string {
	v := gravest(doubtful)[0]
	if v.Settle.Way == EnterUnknown {
		return fmt.Sprintf("Too close to call: nobody can tell the %s before the %s entered; it may be anything %s, and %s %s.",
			v.About(), areNames(v.Settle.Inputs), v.between(), Bounded(v.Limit, v.Unit), v.allowed())
	}
	more := ""
	if n := len(doubtful) - 1; n > 0 {
		more = fmt.Sprintf(" (and %s in doubt)", counted(n, "more limit"))
	}
	text := "Too close to call: "
	if !slices.ContainsFunc(doubtful, func(v Verdict) bool { return !v.unproven() }) {
		text += "as measured nothing is wrong, but the readings cannot prove it: "
	}
	return text + fmt.Sprintf("the %s, %s, may be anything %s, and %s %s%s. %s",
		v.About(), against(v.Value, v.Limit, v.Unit), v.between(),
		Bounded(v.Limit, v.Unit), v.allowed(), more, v.Settle)
}

// left says what is left at the last shaft.
func (w *wording) left() string {
	last := w.survey.Shafts[len(w.survey.Shafts)-1].Name
	if w.last.SecondOrder() < kinematics.NoiseFloor {
		return fmt.Sprintf("Shake left: none, %s turns as evenly as %s.", last, w.survey.Shafts[0].Name)
	}
	as := fmt.Sprintf("as one joint at %s", Amount(w.last.Angle()/kinematics.Degree, unitDeg))
	swing := fmt.Sprintf("speed of %s from −%s %% to +%s %%", last,
		digits(100*(1-w.last.MinRatio()), 3), digits(100*(w.last.MaxRatio()-1), 3))
	rpm := w.judgement.RPM
	if rpm == 0 {
		return fmt.Sprintf("Shake left: %s; %s. Give the speed (rpm) to know how often and how hard.", as, swing)
	}
	share := Amount(peakAccelOf(w.last.SecondOrder(), rpm), unitAccel)
	if v, ok := w.find(survey.LimitResidualAccel); ok {
		share = fmt.Sprintf("%s of %s allowed", Amount(v.Value, ""), Bounded(v.Limit, v.Unit))
	}
	return fmt.Sprintf("Shake left: %s (%s), %.1f times a second at %s rev/min; %s.",
		share, as, TurningAt(rpm, nil).SecondOrderHz, trimmed(rpm), swing)
}

// find returns the verdict on the last shaft by a limit.
func (w *wording) find(limit string) (Verdict, bool) {
	i := slices.IndexFunc(w.judgement.Verdicts, func(v Verdict) bool { return v.LimitName == limit })
	if i < 0 {
		return Verdict{}, false
	}
	return w.judgement.Verdicts[i], true
}

// names returns the names of joints as in a sentence.
func (w *wording) names(joints []int) string {
	var list []string
	for _, k := range joints {
		list = append(list, w.survey.Joints[k].Name)
	}
	return Listed(list)
}
