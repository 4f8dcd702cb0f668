package adjust

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// State is the driveline in one pose, before or after a correction.
type State struct {
	Pose            string    // "" for the survey as measured
	WorkingAngleDeg []float64 // of each joint
	// What is left at the last shaft: the angle of the one joint that would leave as
	// much, to first order and exactly; the highest less the lowest speed ratio; the
	// peak acceleration, 0 where no speed is given.
	EquivalentDeg, ExactEquivalentDeg float64
	Nonuniformity                     float64
	ResidualAccelRadS2                float64

	Loads     *survey.Loads // what torque does
	Judgement *limits.Judgement
}

// BearingSwingN returns the greatest swing of the force on a centre bearing, in N at
// the torque of Loads; ok is false where there is no such bearing or a length is not
// known.
func (s State) BearingSwingN() (swing float64, ok bool) {
	if s.Loads.Forces == nil {
		return 0, false
	}
	for _, b := range s.Loads.Forces.Bearings {
		swing, ok = max(swing, b.Force.Swing()), true
	}
	return swing, ok
}

// EndForceN returns the greatest force on the ends of the only shaft between two
// joints, likewise.
func (s State) EndForceN() (force float64, ok bool) {
	if f := s.Loads.Forces; f == nil || f.Free < 0 || len(f.Joints) != 2 {
		return 0, false
	}
	return s.Loads.Forces.Joints[1].Peak(), true
}

// posed is the survey in one pose.
type posed struct {
	pose   string
	kind   survey.PoseKind // "": not said
	survey *survey.Survey
	roles  *limits.Roles // of the joints as measured; nil: to be found
}

// inPoses returns the survey as measured and in each other pose that is asked for,
// none if asked is nil.
func inPoses(s *survey.Survey, asked func(survey.Pose) bool) []posed {
	list := []posed{{survey: s}}
	for _, pose := range s.Poses {
		if asked != nil && asked(pose) {
			list = append(list, posed{pose: pose.Name, kind: pose.Kind, survey: limits.In(s, pose)})
		}
	}
	return list
}

// everyPose asks for all poses, driven for those in which the vehicle is driven for
// hours: it has more than one ride height.
func everyPose(survey.Pose) bool   { return true }
func driven(pose survey.Pose) bool { return pose.Kind == survey.Cruise }

// asks reports whether the evaluator is of that pose.
func (e evaluator) asks(pose survey.Pose) bool {
	return slices.ContainsFunc(e, func(p *evaluated) bool { return p.pose == pose.Name })
}

// afterwards returns the corrected survey in the poses of an evaluator, to be judged
// by the same roles of the joints: a correction may make joints match that did not.
func afterwards(corrected *survey.Survey, e evaluator) []posed {
	list := inPoses(corrected, e.asks)
	for i := range list {
		list[i].roles = &e[i].gauge.Roles
	}
	return list
}

// states judges the poses and counts them.
func states(ctx context.Context, poses []posed, judged *meter) ([]State, error) {
	judged.add(0, int64(len(poses)))
	list := make([]State, len(poses))
	err := parallel(ctx, runtime.GOMAXPROCS(0), len(poses), func(_, i int) (err error) {
		list[i], err = newState(ctx, poses[i])
		judged.add(1, 0)
		return err
	})
	return list, err
}

func newState(ctx context.Context, p posed) (State, error) {
	d, err := p.survey.Driveline()
	if err != nil {
		return State{}, err
	}
	var j *limits.Judgement
	if p.roles != nil {
		j, err = limits.JudgeAs(ctx, p.survey, *p.roles)
	} else {
		j, err = limits.Judge(ctx, p.survey)
	}
	if err != nil {
		return State{}, err
	}
	motion, second := d.Driving(nil), d.SecondOrder()
	left, omega := motion[len(motion)-1], j.RPM*kinematics.RPM
	state := State{
		Pose:               p.pose,
		EquivalentDeg:      second.Equivalent / kinematics.Degree,
		ExactEquivalentDeg: second.Exact / kinematics.Degree,
		Nonuniformity:      left.Nonuniformity(),
		ResidualAccelRadS2: omega * omega * left.PeakAccel(),
		Loads:              p.survey.Loads(d),
		Judgement:          j,
	}
	for k := range d.Len() - 1 {
		state.WorkingAngleDeg = append(state.WorkingAngleDeg, d.WorkingAngle(k)/kinematics.Degree)
	}
	return state, nil
}

// Breach is a verdict that is not within its limit.
type Breach struct {
	Pose string `json:"pose"` // "" for the survey as measured
	limits.Verdict
}

// String words the verdict and its pose.
func (b Breach) String() string {
	if b.Pose == "" {
		return b.Verdict.String()
	}
	return fmt.Sprintf("in the pose %q %s", b.Pose, b.Verdict)
}

// breaches returns the verdicts of the states whose outcome is wanted.
func breaches(states []State, wanted func(limits.Outcome) bool) []Breach {
	var list []Breach
	for _, s := range states {
		for _, v := range s.Judgement.Verdicts {
			if wanted(v.Outcome) {
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
