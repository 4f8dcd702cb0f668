package report

import (
	"html/template"
	"strings"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/plotting"
)

// change is what the page says of what to change.
type change struct {
	Answer       string
	Impossible   []string // why no correction can be worked out
	MeasureFirst bool     // as measured, it is in doubt

	Best        *adjust.Plan // nil: there is none
	Steps       []string     // of Best
	Breaks      []string     // limits that it does not keep beyond doubt
	BeforeAfter findings.Table
	Figure      template.HTML
	Nudges      []findings.Nudge
	Others      []other  // plans
	Beyond      []string // steps that would do beyond the possible ranges
	Tried       []string // the changes
}

// other is a plan beside the best.
type other struct {
	Number int
	Steps  []string
}

// newChange words the correction; nil where none was looked for.
func (p *content) newChange() (*change, error) {
	found := p.Correction
	switch {
	case p.NoCorrection != nil:
		return &change{Answer: "No correction can be worked out:", Impossible: strings.Split(p.NoCorrection.Error(), "\n")}, nil
	case found == nil:
		return nil, nil
	}
	c := &change{
		Answer:       p.Cure(),
		MeasureFirst: p.Judgement.Outcome == limits.TooClose,
	}
	if found.Fine && len(found.Plans) == 0 {
		return c, nil
	}
	for _, tried := range found.Changes {
		c.Tried = append(c.Tried, findings.ChangeWords(tried))
	}
	if found.Needed != nil {
		c.Beyond = stepSentences(found.Needed)
	}
	if len(found.Plans) == 0 {
		return c, nil
	}
	c.Best = &found.Plans[0]
	c.Steps = stepSentences(c.Best)
	for _, b := range c.Best.Breaks {
		c.Breaks = append(c.Breaks, text.Sentence(b.Verdict.String()))
	}
	for i := 1; i < len(found.Plans); i++ {
		c.Others = append(c.Others, other{i + 1, stepSentences(&found.Plans[i])})
	}
	c.BeforeAfter = p.BeforeAfter(c.Best)
	c.Nudges = findings.Nudges(c.Best)
	return c, p.drawCorrection(c)
}

// drawCorrection draws what the best plan changes.
func (p *content) drawCorrection(c *change) error {
	after, err := plotting.NewCase(c.Best.Survey)
	if err != nil {
		return err
	}
	figure, err := plotting.Correction(p.Case(), after)
	if err != nil {
		return err
	}
	c.Figure, err = p.inlined("correction-", figure)
	return err
}

func stepSentences(p *adjust.Plan) []string {
	var list []string
	for _, s := range p.Steps {
		list = append(list, text.Sentence(s.Instruction))
	}
	return list
}
