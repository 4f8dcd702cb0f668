package adjust

import (
	"context"
	"math"
	"slices"
	"strings"

	"halfturn/kinematics"
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
	Nudges   []Nudge // what half a step more or less of each change does
	// Mirrored is set where the shafts before and behind the last one between two
	// joints lean toward each other rather than run parallel: what cancels does so
	// at one height of the axle only. Travel is what ends it; nil: none within some
	// degrees.
	Mirrored bool
	Travel   *AxleTravel
	Survey   *survey.Survey // corrected
	// Missing names the shafts whose lengths are not known and on which the size of a
	// wedge depends: the plan is then TooClose at the best.
	Missing []string
	// Elsewhere has the quantity with the least room in each pose that the plan need
	// not suit.
	Elsewhere []Becoming
	// Worse are, in the poses that it was asked to suit, the limits that stay broken
	// and are noticeably further beyond than they are.
	Worse []Becoming
}

// Step is one change that a plan makes.
type Step struct {
	Change string  `json:"change"` // one of survey.Changes
	On     string  `json:"on"`     // shaft or joint
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`         // of Value: "deg", "mm" or "in"
	Beyond bool    `json:"beyond_range"` // of the change, and so not possible with these parts
	// Instruction says in plain words what to do.
	Instruction string `json:"instruction"`
}

// Tightest is a judged quantity and the room that it leaves.
type Tightest struct {
	Pose     string  `json:"pose"`    // "" for the survey as measured
	Subject  string  `json:"subject"` // name of the joint, joints or shaft
	Quantity string  `json:"quantity"`
	Value    float64 `json:"value"`
	Limit    float64 `json:"limit"`
	Unit     string  `json:"unit"`
	Margin   float64 `json:"margin"` // how far inside the limit, in parts of it; negative: outside
}

// Nudge is a plan with one change made a little more or less than it says.
type Nudge struct {
	Change   string   `json:"change"`
	On       string   `json:"on"`
	By       float64  `json:"by"`         // half a step, in the unit of the change
	Tightest Tightest `json:"least_room"` // after it, as measured: without the errors of measurement
}

// AxleTravel is how far an axle may move on its springs before a limit on what is
// left, or on how companions match, is broken.
type AxleTravel struct {
	Shaft    string  `json:"shaft"`     // that swings with it, the last one between two joints
	Deg      float64 `json:"swing_deg"` // by which the shaft swings, up or down, whichever is less
	Height   float64 `json:"height"`    // by which the axle moves, in the unit of lengths; 0: not known
	Quantity string  `json:"quantity"`  // the first whose limit is broken
}

// Kind names the changes of the plan: "wedge and bearing-height".
func (p *Plan) Kind() string {
	var names []string
	for _, s := range p.Steps {
		names = append(names, s.Change)
	}
	return strings.Join(names, " and ")
}

// Makes reports whether the plan makes a kind of change, one of survey.Changes.
func (p *Plan) Makes(change string) bool {
	return slices.ContainsFunc(p.Steps, func(s Step) bool { return s.Change == change })
}

// plan works a candidate out.
func (q *searcher) plan(ctx context.Context, s *survey.Survey, e evaluator, c *candidate) (Plan, error) {
	plan := Plan{Survey: corrected(s, c.settings), Mirrored: c.mirrored, Missing: q.missing(e, s, c)}
	for _, set := range c.settings {
		if set.tiltOnly && len(plan.Missing) > 0 {
			about := *set.change
			about.unsure, set.change = true, &about
		}
		step := Step{
			Change: set.name, On: set.asked.On, Value: set.value, Unit: s.ChangeUnit(set.name),
			Beyond: beyond(set), Instruction: instruction(s, set),
		}
		plan.Steps = append(plan.Steps, step)
		plan.Survey.Note = strings.TrimPrefix(plan.Survey.Note+"\nReckoned, not measured: "+step.Instruction+".", "\n")
	}
	var err error
	if plan.After, err = states(ctx, afterwards(plan.Survey, e), q.judged); err != nil {
		return Plan{}, err
	}
	plan.Breaks = breaches(plan.After, notWithin)
	plan.Outcome, plan.Rest = worst(plan.Breaks), worst(q.objective.rest(plan.After))
	if len(plan.Missing) > 0 {
		plan.Outcome, plan.Rest = unsure(plan.Outcome), unsure(plan.Rest)
	}
	plan.Worse = q.objective.worse(e, c.settings)
	if plan.Elsewhere, err = elsewhere(s, e, c.settings); err != nil {
		return Plan{}, err
	}
	plan.Tightest, _ = q.objective.tightest(e, c.settings)
	plan.Nudges = q.objective.nudges(e, c.settings)
	if c.mirrored {
		plan.Travel = q.objective.travel(e, c.settings)
	}
	return plan, nil
}

// rest returns the verdicts that are not within and not set aside.
func (o *objective) rest(after []State) []Breach {
	var list []Breach
	for i, s := range after {
		for k, v := range s.Judgement.Verdicts {
			if notWithin(v.Outcome) && !o.owed[i][k].setAside {
				list = append(list, Breach{s.Pose, v})
			}
		}
	}
	return list
}

// tightest returns the quantity with the least room after the settings; ok is
// false where they make no driveline.
func (o *objective) tightest(e evaluator, settings []setting) (t Tightest, ok bool) {
	if !e.set(settings) {
		return t, false
	}
	t.Margin = math.Inf(1)
	for i, p := range e {
		for k := range p.values {
			if now := p.room(k); now.Margin < t.Margin && !o.owed[i][k].setAside {
				t = now
			}
		}
	}
	return t, true
}

// room returns the room that judged quantity k leaves as measured last.
func (p *evaluated) room(k int) Tightest {
	judged, v := p.gauge.Judged[k], p.values[k]
	limit := judged.Limit
	return Tightest{p.pose, judged.Subject, limit.Quantity, v, limit.Value, limit.Unit, limit.Margin(v)}
}

// nudges tries half a step less and more of each of the settings. What is no
// driveline is left out.
func (o *objective) nudges(e evaluator, settings []setting) []Nudge {
	var list []Nudge
	for i := range settings {
		set := &settings[i]
		value := set.value
		for _, by := range []float64{-set.step / 2, set.step / 2} {
			set.value = value + by
			if t, ok := o.tightest(e, settings); ok {
				list = append(list, Nudge{set.name, set.asked.On, by, t})
			}
		}
		set.value = value
	}
	return list
}

// Travel is looked for as far as any spring goes, as closely as it can be told.
const (
	mostTravel  = 10 // deg
	travelSteps = 20 // to a degree
)

// travel swings the last shaft between two joints about its driving end, the
// driven one keeping its direction, until a limit that the settings keep is broken.
func (o *objective) travel(e evaluator, settings []setting) *AxleTravel {
	p := e[0]
	e.set(settings)
	kept := make([]bool, len(p.values))
	for k, v := range p.values {
		r := &o.owed[0][k]
		kept[k] = r.limit.Kept(v) && (r.limit.Class == limits.TooShaken || r.limit.Class == limits.OutOfMatch)
	}
	k := len(p.shafts) - 2
	shaft, axis := p.survey.Shafts[k], p.shafts[k].Axis
	for n := 1; n <= mostTravel*travelSteps; n++ {
		deg := float64(n) / travelSteps
		for _, way := range []float64{deg, -deg} {
			p.shafts[k].Axis = inclined(axis, kinematics.Incline(axis)+way*kinematics.Degree)
			if !p.measure() {
				continue
			}
			for i, v := range p.values {
				if judged := p.gauge.Judged[i]; kept[i] && !judged.Limit.Kept(v) {
					t := &AxleTravel{Shaft: shaft.Name, Deg: deg, Quantity: judged.Limit.Quantity}
					if p.geometry.known[k] {
						t.Height = math.Abs(p.shafts[k].Axis.Z - axis.Z)
					}
					return t
				}
			}
		}
	}
	return nil
}
