package plotting

import (
	"errors"
	"fmt"
	"image/color"
	"math"
	"strings"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// A Case is one analysed driveline with the names and data that figures show beside it.
type Case struct {
	Name      string
	Shafts    []string  // names, along the power flow
	Joints    []string  // names, one fewer
	RPM       float64   // speed of the shaft that turns uniformly, rev/min; 0: not known
	Lengths   []float64 // of the shafts, in any one unit; 0: not known; nil: none is known
	Driveline *kinematics.Driveline
	Analysis  *kinematics.Analysis // of Driveline
}

// check refuses a case whose parts do not belong together.
func (c *Case) check() error {
	switch {
	case c == nil:
		return errors.New("case: is nil: want an analysed driveline")
	case c.Driveline == nil || c.Analysis == nil:
		return fmt.Errorf("case %q: no driveline or no analysis: want both", c.Name)
	}
	joints := len(c.Analysis.Bends)
	shafts := len(c.Driveline.Shafts())
	switch {
	case shafts != joints+1:
		return fmt.Errorf("case %q: analysis of %d joints for %d shafts: want that of the same driveline", c.Name, joints, shafts)
	case len(c.Shafts) != shafts || len(c.Joints) != joints:
		return fmt.Errorf("case %q: names of %d shafts and %d joints: want %d and %d", c.Name, len(c.Shafts), len(c.Joints), shafts, joints)
	case c.Lengths != nil && len(c.Lengths) != shafts:
		return fmt.Errorf("case %q: %d lengths: want %d, one for each shaft", c.Name, len(c.Lengths), shafts)
	case !(c.RPM >= 0 && c.RPM <= largestRPM):
		return fmt.Errorf("case %q: speed: %g rev/min: want 0 (not known) to %g", c.Name, c.RPM, float64(largestRPM))
	}
	for i, l := range c.Lengths {
		if !(l >= 0) || math.IsInf(l, 0) {
			return fmt.Errorf("case %q: length of shaft %d: %g: want 0 (not known) or more", c.Name, i+1, l)
		}
	}
	return nil
}

// largestRPM is far above anything that turns, and far below where squares overflow.
const largestRPM = 1e9

// last is the index of the last shaft.
func (c *Case) last() int { return len(c.Shafts) - 1 }

// colour returns the colour of a shaft: that of its curve.
func (c *Case) colour(k int) color.RGBA {
	if k == c.last() {
		return page.Signal
	}
	return page.Hue(k)
}

// subtitle names the case and its speed.
func (c *Case) subtitle() string {
	name := strings.TrimSpace(brief(c.Name, longestName))
	switch {
	case c.RPM == 0:
		return name
	case name == "":
		return revolutions(c.RPM)
	}
	return name + " · " + revolutions(c.RPM)
}

// NewCase analyses a driveline as measured for its figures. It fails with what
// survey.Survey.Validate says of one that is not valid.
func NewCase(s *survey.Survey) (*Case, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	d, err := s.Driveline()
	if err != nil {
		return nil, err
	}
	return CaseOf(s, d, d.Analyse()), nil
}

// CaseOf returns the case of a driveline as measured that has been analysed.
func CaseOf(s *survey.Survey, d *kinematics.Driveline, a *kinematics.Analysis) *Case {
	s = s.Complete()
	c := &Case{Name: s.Name, RPM: s.ShaftRPM(), Lengths: s.Lengths(), Driveline: d, Analysis: a}
	for _, shaft := range s.Shafts {
		c.Shafts = append(c.Shafts, shaft.Name)
	}
	for _, joint := range s.Joints {
		c.Joints = append(c.Joints, joint.Name)
	}
	return c
}
