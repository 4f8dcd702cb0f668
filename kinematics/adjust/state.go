package adjust

import (
	"context"
	"math"
	"runtime"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// State is the driveline in one pose, before or after a correction.
type State struct {
	Pose               string    // "" for the survey as measured
	WorkingAngleDeg    []float64 // of each joint
	EquivalentAngleDeg float64   // left at the last shaft, exact
	Nonuniformity      float64   // left at the last shaft
	ResidualAccelRadS2 float64   // left at the last shaft; 0 where no speed is given
	Judgement          *limits.Judgement
}

// posed is the survey in one pose.
type posed struct {
	pose   string
	survey *survey.Survey
}

// inPoses returns the survey as measured and, if all are wanted, in every other
// pose.
func inPoses(s *survey.Survey, all bool) []posed {
	list := []posed{{"", s}}
	for _, pose := range s.Poses {
		if all {
			list = append(list, posed{pose.Name, s.In(pose)})
		}
	}
	return list
}

// states returns the survey judged as measured and, if all are wanted, in every
// other pose.
func states(s *survey.Survey, all bool) ([]State, error) {
	poses := inPoses(s, all)
	list := make([]State, len(poses))
	err := parallel(context.Background(), runtime.GOMAXPROCS(0), len(poses), func(_, i int) (err error) {
		list[i], err = newState(poses[i])
		return err
	})
	return list, err
}

func newState(p posed) (State, error) {
	d, err := p.survey.Driveline()
	if err != nil {
		return State{}, err
	}
	j, err := limits.Judge(p.survey)
	if err != nil {
		return State{}, err
	}
	motion := d.Driving(nil)
	left, omega := motion[len(motion)-1], j.RPM*kinematics.RPM
	state := State{
		Pose:               p.pose,
		EquivalentAngleDeg: left.Angle() / kinematics.Degree,
		Nonuniformity:      left.Nonuniformity(),
		ResidualAccelRadS2: omega * omega * left.PeakAccel(),
		Judgement:          j,
	}
	for k := range d.Len() - 1 {
		state.WorkingAngleDeg = append(state.WorkingAngleDeg, d.WorkingAngle(k)/kinematics.Degree)
	}
	return state, nil
}

// Breach is a verdict that is not within its limit.
type Breach struct {
	Pose string // "" for the survey as measured
	limits.Verdict
}

// breaches returns the verdicts of the states that are not within.
func breaches(states []State) []Breach {
	var list []Breach
	for _, s := range states {
		for _, v := range s.Judgement.Verdicts {
			if v.Outcome != limits.Within {
				list = append(list, Breach{s.Pose, v})
			}
		}
	}
	return list
}

// worst returns the worst outcome of verdicts that are not within: that of the one
// furthest beyond its limit where some are broken, else TooClose; Within for none.
func worst(breaks []Breach) limits.Outcome {
	least, outcome := math.Inf(1), limits.Within
	for _, b := range breaks {
		switch m := math.Round(1e9 * b.Margin()); {
		case b.Outcome == limits.TooClose && outcome == limits.Within:
			outcome = limits.TooClose
		case b.Outcome != limits.TooClose && m < least:
			least, outcome = m, b.Outcome
		}
	}
	return outcome
}
