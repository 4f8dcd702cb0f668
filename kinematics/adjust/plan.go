package adjust

import (
	"strings"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// Plan is one way to correct a driveline.
type Plan struct {
	Steps []Step
	// Outcome is the worst verdict, in every pose asked for. Within holds whatever
	// the errors of the measurement; TooClose is within as measured only.
	Outcome limits.Outcome
	Breaks  []Breach // verdicts that are not within
	After   []State  // as Result.Before
	// Rest is Outcome without the verdicts of Result.SetAside.
	Rest limits.Outcome
	// Tightest is the judged quantity that is left with the least room, but for
	// those of Result.SetAside.
	Tightest Tightest
	Nudges   []Nudge        // what half a step more or less of each change does
	Survey   *survey.Survey // corrected
}

// Step is one change that a plan makes.
type Step struct {
	Change string // one of survey.Changes
	On     string // shaft or joint
	Value  float64
	Unit   string // of Value: "deg", "mm" or "in"
	// Instruction says in plain words what to do.
	Instruction string
}

// Tightest is a judged quantity and the room that it leaves.
type Tightest struct {
	Pose     string // "" for the survey as measured
	Subject  string // name of the joint, joints or shaft
	Quantity string
	Value    float64
	Limit    float64
	Unit     string
	Margin   float64 // how far inside the limit, in parts of it; negative: outside
}

// Nudge is a plan with one change made a little more or less than it says.
type Nudge struct {
	Change, On string
	By         float64  // half a step, in the unit of the change
	Tightest   Tightest // after it, as measured: without the errors of measurement
}

// Kind names the changes of the plan: "wedge and bearing-height".
func (p *Plan) Kind() string {
	var kinds []string
	for _, s := range p.Steps {
		kinds = append(kinds, s.Change)
	}
	return strings.Join(kinds, " and ")
}

// plan works a pick out.
func (q *quest) plan(p pick) (Plan, error) {
	plan := Plan{Survey: corrected(q.survey, p.settings)}
	for _, set := range p.settings {
		step := Step{
			Change: set.asked.Change, On: set.asked.On,
			Value: set.value, Unit: q.survey.ChangeUnit(set.asked.Change),
			Instruction: instruction(q.survey, set),
		}
		plan.Steps = append(plan.Steps, step)
		plan.Survey.Note = strings.TrimPrefix(plan.Survey.Note+"\nReckoned, not measured: "+step.Instruction+".", "\n")
	}
	var err error
	if plan.After, err = states(plan.Survey, q.allPoses); err != nil {
		return Plan{}, err
	}
	plan.Breaks = breaches(plan.After)
	plan.Outcome, plan.Rest = worst(plan.Breaks), worst(q.breaches(plan.After, false))
	b, err := newBench(q.stands)
	if err != nil {
		return Plan{}, err
	}
	plan.Tightest, _ = b.tightest(p.settings)
	plan.Nudges = b.nudges(q.survey, p.settings)
	return plan, nil
}

// nudges tries half a step less and more of each of the settings. What is no
// driveline is left out.
func (b bench) nudges(s *survey.Survey, settings []setting) []Nudge {
	var list []Nudge
	for i := range settings {
		set := &settings[i]
		half := set.nominalStep(s.Units) / 2
		value := set.value
		for _, by := range []float64{-half, half} {
			set.value = value + by
			if t, ok := b.tightest(settings); ok {
				list = append(list, Nudge{set.asked.Change, set.asked.On, by, t})
			}
		}
		set.value = value
	}
	return list
}

// sameRoom is by how much margins may differ that only rounding tells apart, as
// those of the two joints of a Z arrangement.
const sameRoom = 1e-12

// tightest returns the quantity with the least room after the settings, of several
// the first; ok is false where they make no driveline.
func (b bench) tightest(settings []setting) (t Tightest, ok bool) {
	least := b.try(settings)
	if least == impossible {
		return Tightest{}, false
	}
	for _, r := range b {
		for q, v := range r.values {
			judged := r.gauge.Judged[q]
			limit := judged.Limit
			if m := limit.Margin(v); m-least.margin < sameRoom && !r.aside[q] {
				return Tightest{r.pose, judged.Subject, limit.Quantity, v, limit.Value, limit.Unit, m}, true
			}
		}
	}
	return t, true
}
