package main

import (
	"context"
	"fmt"
	"html/template"
	"strings"

	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// correction is what the page of a report says of what to change.
type correction struct {
	Answer       string
	Impossible   []string // why no correction can be worked out
	MeasureFirst bool     // as measured, it is in doubt
	HasPoses     bool     // which were not looked at

	Best        *plan // nil: there is none
	BeforeAfter table // of Best
	Figure      template.HTML
	Nudges      []nudge  // of Best
	Plans       []plan   // the driveline as measured, then Best and the alternatives
	Beyond      []string // steps that would do beyond the possible ranges

	Units   survey.Unit
	Tried   []string // the changes
	Refused []string // changes that could not be tried, and why
	Assumed []string
}

// plan is a plan in words; the driveline as measured has no steps.
type plan struct {
	Name    string
	Steps   []string
	Angles  string // of the joints
	Left    string // as one joint at
	Peak    string // acceleration left; "" where no speed is given
	Outcome limits.Outcome
	Breaks  []string // limits that it does not keep beyond doubt
}

// newCorrection looks for a correction and words it. That none can be looked for
// is no error, but is said too.
func newCorrection(ctx context.Context, result *checked) (*correction, error) {
	if result.judgement.Outcome == limits.Within {
		return &correction{Answer: nothingNeeded(result.judgement)}, nil
	}
	sv := result.survey
	found, err := adjust.Search(ctx, sv, adjust.Options{})
	if stopped := ctx.Err(); stopped != nil {
		return nil, stopped
	}
	if err != nil {
		return &correction{Answer: "No correction can be worked out:", Impossible: strings.Split(err.Error(), "\n")}, nil
	}
	c := &correction{
		Answer:       correctionAnswer(found),
		MeasureFirst: result.judgement.Outcome == limits.TooClose,
		HasPoses:     len(sv.Poses) > 0,
		Units:        sv.Units,
		Refused:      found.Refused,
		Assumed:      found.Remarks,
	}
	for _, change := range found.Changes {
		c.Tried = append(c.Tried, triedChange(change))
	}
	if found.Needed != nil {
		c.Beyond = stepSentences(found.Needed)
	}
	if len(found.Plans) > 0 {
		err = c.addPlans(sv, found)
	}
	return c, err
}

// addPlans words the plans that were found, the best of them at length.
func (c *correction) addPlans(sv *survey.Survey, found *adjust.Result) error {
	before, best := found.Before[0], &found.Plans[0]
	c.Plans = append(c.Plans, newPlan("as measured", before))
	for i := range found.Plans {
		p := &found.Plans[i]
		row := newPlan(fmt.Sprintf("plan %d", i+1), p.After[0])
		row.Steps, row.Outcome = stepSentences(p), p.Outcome
		for _, b := range p.Breaks {
			row.Breaks = append(row.Breaks, sentence(b.Verdict.String()))
		}
		c.Plans = append(c.Plans, row)
	}
	c.Best = &c.Plans[1]
	c.BeforeAfter = beforeAfter(sv, before, best.After[0])
	c.Nudges = nudges(best)
	subject, err := plotSubjectOf(sv, best.Survey)
	if err != nil {
		return err
	}
	c.Figure, err = inlined("correction", subject)
	return err
}

func correctionAnswer(found *adjust.Result) string {
	if len(found.Plans) == 0 {
		return nothingHelps
	}
	if does := brings(&found.Plans[0]); does != "" {
		return "Recommended: this " + does + ", with the fewest parts touched and the least change."
	}
	if aside := setAside(found); aside != "" {
		return aside + " This is best for the rest."
	}
	return noneServes + " This comes nearest."
}

func newPlan(name string, s adjust.State) plan {
	row := plan{
		Name: name, Angles: angleList(s.WorkingAngleDeg), Left: inDegrees(s.EquivalentAngleDeg),
		Outcome: s.Judgement.Outcome,
	}
	if s.Judgement.RPM > 0 {
		row.Peak = short(s.ResidualAccelRadS2)
	}
	return row
}

// beforeAfter is the table of what a plan does.
func beforeAfter(sv *survey.Survey, before, after adjust.State) table {
	t := table{{"", "as measured", "corrected"}}
	for k, j := range sv.Joints {
		t = append(t, []string{"working angle at " + j.Name, inDegrees(before.WorkingAngleDeg[k]), inDegrees(after.WorkingAngleDeg[k])})
	}
	last := sv.Shafts[len(sv.Shafts)-1].Name
	t = append(t,
		[]string{"left at " + last + ", as one joint at", inDegrees(before.EquivalentAngleDeg), inDegrees(after.EquivalentAngleDeg)},
		[]string{"left at " + last + ", of the speed", percent(before.Nonuniformity / 2), percent(after.Nonuniformity / 2)})
	if before.Judgement.RPM > 0 {
		t = append(t, []string{"left at " + last + ", peak acceleration", acceleration(before.ResidualAccelRadS2), acceleration(after.ResidualAccelRadS2)})
	}
	return t
}

func stepSentences(p *adjust.Plan) []string {
	var list []string
	for _, s := range p.Steps {
		list = append(list, sentence(s.Instruction))
	}
	return list
}

// sentence makes a sentence of a clause that starts with an ASCII letter.
func sentence(clause string) string { return strings.ToUpper(clause[:1]) + clause[1:] + "." }
