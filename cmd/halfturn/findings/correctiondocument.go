package findings

import (
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// CorrectionDocument is what adjust --json prints. Values of changes are in the unit
// that stands beside them, accelerations are null when no speed is known.
type CorrectionDocument struct {
	Name    string          `json:"name"`
	Answer  string          `json:"answer"`
	Fine    bool            `json:"fine"`
	Before  []stateDocument `json:"before"`
	Plans   []planDocument  `json:"plans"`
	Needed  *planDocument   `json:"needed"`
	Changes []survey.Change `json:"changes"`
	Assumed bool            `json:"changes_assumed"`
	Refused []string        `json:"not_tried"`
	// SetAside are the verdicts that nothing within reach mends; plans are ranked
	// by the rest.
	SetAside []adjust.Breach `json:"set_aside"`
	Remarks  []string        `json:"remarks"`
	Tried    int64           `json:"combinations"`
}

type planDocument struct {
	Kind     string             `json:"kind"`
	Outcome  limits.Outcome     `json:"outcome"`
	Rest     limits.Outcome     `json:"outcome_of_the_rest"` // but for set_aside
	Steps    []adjust.Step      `json:"steps"`
	After    []stateDocument    `json:"after"`
	Breaks   []adjust.Breach    `json:"breaks"`
	Tightest adjust.Tightest    `json:"least_room"`
	Nudges   []adjust.Nudge     `json:"half_a_step"`
	Mirrored bool               `json:"mirrored"`
	Travel   *adjust.AxleTravel `json:"travel"`          // that breaks what is mirrored
	Missing  []string           `json:"missing_lengths"` // on which the wedge depends
	Notes    []string           `json:"notes"`
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

// CorrectionDocument returns what adjust --json prints. A Correction must be there.
func (f *Findings) CorrectionDocument() CorrectionDocument {
	r := f.Correction
	doc := CorrectionDocument{
		Name: f.Survey.Name, Answer: f.Cure(), Fine: r.Fine,
		Before:   mapped(r.Before, newStateDocument),
		Plans:    mapped(r.Plans, func(p adjust.Plan) planDocument { return newPlanDocument(r, p) }),
		Changes:  listed(r.Changes),
		Assumed:  r.Assumed,
		Refused:  listed(r.Refused),
		SetAside: listed(r.SetAside),
		Remarks:  listed(r.Remarks),
		Tried:    r.Tried,
	}
	if r.Needed != nil {
		needed := newPlanDocument(r, *r.Needed)
		doc.Needed = &needed
	}
	return doc
}

func newPlanDocument(r *adjust.Result, p adjust.Plan) planDocument {
	return planDocument{
		Kind: p.Kind(), Outcome: p.Outcome, Rest: p.Rest,
		Steps: listed(p.Steps), After: mapped(p.After, newStateDocument), Breaks: listed(p.Breaks),
		Tightest: p.Tightest, Nudges: listed(p.Nudges),
		Mirrored: p.Mirrored, Travel: p.Travel, Missing: listed(p.Missing), Notes: listed(r.Notes(&p)),
	}
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
