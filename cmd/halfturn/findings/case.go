package findings

import (
	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
	"halfturn/plotting"
)

// Case returns what figures of the driveline are drawn from.
func (f *Findings) Case() *plotting.Case { return newCase(f.Survey, f.Driveline, f.Analysis) }

// NewCase returns what figures of a driveline are drawn from that is not judged.
func NewCase(s *survey.Survey) (*plotting.Case, error) {
	d, err := s.Driveline()
	if err != nil {
		return nil, err
	}
	return newCase(s, d, d.Analyse()), nil
}

func newCase(s *survey.Survey, d *kinematics.Driveline, a *kinematics.Analysis) *plotting.Case {
	c := &plotting.Case{Name: s.Name, RPM: limits.RPM(s), Lengths: s.Lengths(), Driveline: d, Analysis: a}
	for _, shaft := range s.Shafts {
		c.Shafts = append(c.Shafts, shaft.Name)
	}
	for _, joint := range s.Joints {
		c.Joints = append(c.Joints, joint.Name)
	}
	return c
}
