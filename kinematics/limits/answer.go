package limits

import (
	"fmt"
	"math"
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

// harmless says how little is left where nothing is broken but rules of the shop.
func (w *wording) harmless(broken []Verdict) (string, bool) {
	const little = 0.25
	v, ok := w.find(survey.LimitResidualAccel)
	if !ok || v.Outcome != Within || v.Value > little*v.Limit ||
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

// names lists inputs, those of one kind together: "slopes of front shaft and pinion".
func names(inputs []Input) string {
	var kinds []string
	of := make(map[string][]string)
	for _, in := range inputs {
		kind, part, _ := strings.Cut(in.Name, " of ")
		if of[kind] == nil {
			kinds = append(kinds, kind)
		}
		of[kind] = append(of[kind], part)
	}
	var list []string
	for _, kind := range kinds {
		called := kind
		if len(of[kind]) > 1 { // "positions (down)"
			what, which, split := strings.Cut(kind, " ")
			called = what + "s" + oneOf(split, " ", "") + which
		}
		list = append(list, called+" of "+listed(of[kind]))
	}
	return listed(list)
}

func areNames(inputs []Input) string {
	if len(inputs) == 1 {
		return names(inputs) + " is"
	}
	return names(inputs) + " are"
}

// names returns the names of joints as in a sentence.
func (w *wording) names(joints []int) string {
	var list []string
	for _, k := range joints {
		list = append(list, w.survey.Joints[k].Name)
	}
	return listed(list)
}
