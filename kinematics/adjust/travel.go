package adjust

import (
	"context"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Travel is a driveline across the travel of its suspension.
type Travel struct {
	States []State  // as measured, then in each pose of the survey
	Series []Series // every quantity in each of States
	// SlopeDeg is the side-view slope in each of States of the shaft named Shaft,
	// the one that the suspension turns: that before the last, if there is one
	// between two joints.
	Shaft    string
	SlopeDeg []float64
}

// NewTravel returns the verdict and every quantity of a valid survey in all its
// poses. It fails with the error of ctx when that ends.
func NewTravel(ctx context.Context, s *survey.Survey) (*Travel, error) {
	s = s.Complete()
	t := new(Travel)
	var err error
	if t.States, err = states(ctx, inPoses(s, true)); err != nil {
		return nil, err
	}
	turned := len(s.Shafts) - 1
	if turned > 1 {
		turned--
	}
	t.Shaft = s.Shafts[turned].Name
	var surveys []*survey.Survey
	for _, p := range inPoses(s, true) {
		surveys = append(surveys, p.survey)
		down, _ := kinematics.Slopes(p.survey.Axes()[turned])
		t.SlopeDeg = append(t.SlopeDeg, down/kinematics.Degree)
	}
	t.Series, err = still(meters(s), surveys...)
	return t, err
}
