package report

import (
	"strings"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/adjust"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// change is what the page says of what to change.
type change struct {
	Steps       []string // of the best plan, to be ticked off; none where there is none that mends everything
	Words       []string // what the steps come to, or why there are none
	Breaks      []string // limits that the best plan does not keep beyond doubt
	BeforeAfter findings.Table
	Closely     []string // steps that must not be half a step off
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
func (p *content) newChange() *change {
	found := p.Correction
	switch {
	case p.NoCorrection != nil:
		return &change{Words: append([]string{"No correction can be worked out:"}, strings.Split(p.NoCorrection.Error(), "\n")...)}
	case found == nil:
		return nil
	case len(found.Plans) == 0 && found.Fine:
		return &change{Words: []string{p.Cure()}}
	}
	c := &change{Words: []string{p.Cure()}}
	for _, tried := range found.Changes {
		c.Tried = append(c.Tried, findings.ChangeWords(tried))
	}
	if found.Needed != nil {
		c.Beyond = stepSentences(found.Needed)
	}
	for i := range found.Plans {
		if i > 0 {
			c.Others = append(c.Others, other{i + 1, stepSentences(&found.Plans[i])})
		}
	}
	if len(found.Plans) == 0 {
		return c
	}
	best := &found.Plans[0]
	if does := best.Brings(); does != "" && !found.Fine {
		c.Steps = stepSentences(best)
		c.Words = []string{"That " + does + "."}
	}
	said := strings.Join(c.Words, " ")
	for _, note := range found.Notes(best) {
		if !strings.Contains(said, note) {
			c.Words = append(c.Words, note)
		}
	}
	for _, b := range best.Breaks {
		c.Breaks = append(c.Breaks, text.Sentence(b.String()))
	}
	c.BeforeAfter = p.BeforeAfter(best)
	c.Closely = findings.Closely(best)
	return c
}

// leftFigure draws what is left at the last shaft, before and after the best plan if
// there is one.
func (p *content) leftFigure() (*page.Figure, error) {
	if p.Correction == nil || len(p.Correction.Plans) == 0 {
		return plotting.Speed(p.Case(), plotting.Driving)
	}
	after, err := plotting.NewCase(p.Correction.Plans[0].Survey)
	if err != nil {
		return nil, err
	}
	return plotting.Correction(p.Case(), after)
}

func stepSentences(p *adjust.Plan) []string {
	var list []string
	for _, s := range p.Steps {
		list = append(list, text.Sentence(s.Instruction))
	}
	return list
}
