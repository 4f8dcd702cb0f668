package findings

import (
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// CorrectionDocument is what adjust --json prints. Values of changes are in the unit
// that stands beside them, accelerations are null when no speed is known.
type CorrectionDocument struct {
	Name    string           `json:"name"`
	Answer  string           `json:"answer"`
	Fine    bool             `json:"fine"`
	Before  []stateDocument  `json:"before"`
	Plans   []planDocument   `json:"plans"`
	Needed  *planDocument    `json:"needed"`
	Changes []changeDocument `json:"changes"`
	Assumed bool             `json:"changes_assumed"`
	Refused []string         `json:"not_tried"`
	// SetAside are the verdicts that nothing within reach mends; plans are ranked
	// by the rest.
	SetAside []breachDocument `json:"set_aside"`
	Remarks  []string         `json:"remarks"`
	Tried    int64            `json:"combinations"`
}

type planDocument struct {
	Kind     string           `json:"kind"`
	Outcome  limits.Outcome   `json:"outcome"`
	Rest     limits.Outcome   `json:"outcome_of_the_rest"` // but for set_aside
	Steps    []stepDocument   `json:"steps"`
	After    []stateDocument  `json:"after"`
	Breaks   []breachDocument `json:"breaks"`
	Tightest tightestDocument `json:"least_room"`
	Nudges   []nudgeDocument  `json:"half_a_step"`
	Mirrored bool             `json:"mirrored"`
	Travel   *travelDocument  `json:"travel"` // that breaks what is mirrored
	Notes    []string         `json:"notes"`
}

type travelDocument struct {
	Shaft    string  `json:"shaft"`
	Deg      float64 `json:"swing_deg"`
	Height   float64 `json:"height"` // of the axle, in the unit of lengths; 0: not known
	Quantity string  `json:"quantity"`
}

type stepDocument struct {
	Change      string  `json:"change"`
	On          string  `json:"on"`
	Value       float64 `json:"value"`
	Unit        string  `json:"unit"`
	Beyond      bool    `json:"beyond_range"` // not possible with these parts
	Instruction string  `json:"instruction"`
}

type stateDocument struct {
	Pose               string         `json:"pose"`
	WorkingAngleDeg    []float64      `json:"working_angle_deg"`
	EquivalentDeg      float64        `json:"equivalent_angle_deg"` // first order
	ExactEquivalentDeg float64        `json:"exact_equivalent_angle_deg"`
	Nonuniformity      float64        `json:"nonuniformity"`
	ResidualAccelRadS2 *float64       `json:"residual_accel_rad_s2"`
	BearingSwingN      *float64       `json:"bearing_swing_n"` // at the torque of loads; null: not known
	Outcome            limits.Outcome `json:"outcome"`
	Answer             string         `json:"answer"`
}

type breachDocument struct {
	Pose string `json:"pose"`
	verdictDocument
}

type tightestDocument struct {
	Pose     string  `json:"pose"`
	Subject  string  `json:"subject"`
	Quantity string  `json:"quantity"`
	Value    float64 `json:"value"`
	Limit    float64 `json:"limit"`
	Unit     string  `json:"unit"`
	Margin   float64 `json:"margin"`
}

type nudgeDocument struct {
	Change   string           `json:"change"`
	On       string           `json:"on"`
	By       float64          `json:"by"`
	Tightest tightestDocument `json:"least_room"`
}

type changeDocument struct {
	Change string  `json:"change"`
	On     string  `json:"on"`
	From   float64 `json:"from"`
	To     float64 `json:"to"`
	Step   float64 `json:"step"`
}

// CorrectionDocument returns what adjust --json prints. A Correction must be there.
func (f *Findings) CorrectionDocument() CorrectionDocument {
	r := f.Correction
	doc := CorrectionDocument{
		Name: f.Survey.Name, Answer: f.Cure(), Fine: r.Fine,
		Before:   mapped(r.Before, newStateDocument),
		Plans:    mapped(r.Plans, func(p adjust.Plan) planDocument { return newPlanDocument(r, p) }),
		Changes:  mapped(r.Changes, func(c survey.Change) changeDocument { return changeDocument(c) }),
		Assumed:  r.Assumed,
		Refused:  append([]string{}, r.Refused...),
		SetAside: mapped(r.SetAside, newBreachDocument),
		Remarks:  append([]string{}, r.Remarks...),
		Tried:    r.Tried,
	}
	if r.Needed != nil {
		needed := newPlanDocument(r, *r.Needed)
		doc.Needed = &needed
	}
	return doc
}

func newPlanDocument(r *adjust.Result, p adjust.Plan) planDocument {
	doc := planDocument{
		Kind: p.Kind(), Outcome: p.Outcome,
		Steps:  mapped(p.Steps, func(s adjust.Step) stepDocument { return stepDocument(s) }),
		After:  mapped(p.After, newStateDocument),
		Breaks: mapped(p.Breaks, newBreachDocument), Rest: p.Rest,
		Tightest: tightestDocument(p.Tightest),
		Nudges: mapped(p.Nudges, func(n adjust.Nudge) nudgeDocument {
			return nudgeDocument{n.Change, n.On, n.By, tightestDocument(n.Tightest)}
		}),
		Mirrored: p.Mirrored, Notes: append([]string{}, r.Notes(&p)...),
	}
	if p.Travel != nil {
		travel := travelDocument(*p.Travel)
		doc.Travel = &travel
	}
	return doc
}

func newBreachDocument(b adjust.Breach) breachDocument {
	return breachDocument{b.Pose, newVerdictDocument(b.Verdict)}
}

func newStateDocument(s adjust.State) stateDocument {
	doc := stateDocument{
		Pose: s.Pose, WorkingAngleDeg: s.WorkingAngleDeg,
		EquivalentDeg: s.EquivalentDeg, ExactEquivalentDeg: s.ExactEquivalentDeg, Nonuniformity: s.Nonuniformity,
		Outcome: s.Judgement.Outcome, Answer: s.Judgement.Answer,
	}
	if s.Judgement.RPM > 0 {
		doc.ResidualAccelRadS2 = &s.ResidualAccelRadS2
	}
	if swing, ok := s.BearingSwingN(); ok {
		doc.BearingSwingN = &swing
	}
	return doc
}
