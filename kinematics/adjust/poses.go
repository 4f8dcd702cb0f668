package adjust

import "halfturn/kinematics/survey"

// Travel is a driveline across the travel of its suspension.
type Travel struct {
	States []State  // as measured, then in each pose of the survey
	Series []Series // every quantity in each of States
}

// NewTravel returns the verdict and every quantity of a valid survey in all its
// poses.
func NewTravel(s *survey.Survey) (*Travel, error) {
	s = s.Complete()
	t := new(Travel)
	var err error
	if t.States, err = states(s, true); err != nil {
		return nil, err
	}
	var surveys []*survey.Survey
	for _, p := range inPoses(s, true) {
		surveys = append(surveys, p.survey)
	}
	t.Series, err = still(meters(s), surveys...)
	return t, err
}
