package adjust

import (
	"cmp"
	"context"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Travel is a driveline across the travel of its suspension.
type Travel struct {
	States []State // as measured, then in each pose of the survey
	// Shaft is the one that the suspension turns: that before the last, if there is
	// one between two joints.
	Shaft     string
	Positions []Position // the poses and what lies between them, by the slope of Shaft
}

// Position is a place of the travel.
type Position struct {
	SlopeDeg           float64         // of Travel.Shaft in the side view
	State              int             // index of the pose among Travel.States; −1 between two poses
	Kind               survey.PoseKind // of the pose, or of the nearer of two: which limits hold
	WorkingAngleDeg    []float64       // of each joint
	ExactEquivalentDeg float64         // left at the last shaft
}

// between is how many positions there are between two poses: enough for a curve that
// rises like a square root where the joints cancel.
const between = 95

// NewTravel returns the verdict on a valid survey in all its poses, and what is
// bent and left there and in between, where every joint goes straight and evenly
// from its place in the one pose to that in the other. Progress, which may be nil, is
// told of the poses that are judged. It fails with the error of ctx when that ends.
func NewTravel(ctx context.Context, s *survey.Survey, progress Progress) (*Travel, error) {
	s = s.Complete()
	turned := max(len(s.Shafts)-2, 1)
	t := &Travel{Shaft: s.Shafts[turned].Name}
	poses := inPoses(s, everyPose)
	var err error
	if t.States, err = states(ctx, poses, newMeter(progress, "pose")); err != nil {
		return nil, err
	}
	e, err := newEvaluator(poses)
	if err != nil {
		return nil, err
	}
	slope := func(shafts []kinematics.Shaft) float64 {
		down, _ := kinematics.Slopes(shafts[turned].Axis)
		return down / kinematics.Degree
	}
	var order []int // of the poses
	for i := range e {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(slope(e[a].geometry.shafts), slope(e[b].geometry.shafts)) })
	for i, here := range order {
		next := order[min(i+1, len(order)-1)]
		for n := range between + 1 {
			part := float64(n) / (between + 1)
			p, position := e[here], Position{State: -1, Kind: poses[here].kind}
			if n == 0 {
				position.State = here
			}
			if part > 0.5 {
				position.Kind = poses[next].kind
			}
			blend(p.shafts, p.geometry.shafts, e[next].geometry.shafts, part)
			if !p.measure() {
				continue // bent beyond what a joint can
			}
			position.SlopeDeg, position.ExactEquivalentDeg = slope(p.shafts), p.left()/kinematics.Degree
			for k := range s.Joints {
				position.WorkingAngleDeg = append(position.WorkingAngleDeg, p.d.WorkingAngle(k)/kinematics.Degree)
			}
			t.Positions = append(t.Positions, position)
			if next == here {
				break
			}
		}
	}
	return t, nil
}

// blend puts the shafts that lie a part of the way from one place to another into
// dst. Their axes lead from joint to joint, so that the joints lie a part of the way
// too.
func blend(dst, from, to []kinematics.Shaft, part float64) {
	for k := range dst {
		dst[k] = from[k]
		dst[k].Axis = r3.Add(r3.Scale(1-part, from[k].Axis), r3.Scale(part, to[k].Axis))
	}
}
