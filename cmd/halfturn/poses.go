package main

import (
	"fmt"
	"io"

	"halfturn/kinematics"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/survey"
	"halfturn/plotting"
)

// writePoses prints the driveline across the travel of its suspension.
func writePoses(w io.Writer, states []adjust.State) {
	t := table{{"pose", "verdict", "as one joint at", "left rad/s²"}}
	for _, s := range states {
		residual := ""
		if s.Judgement.RPM > 0 {
			residual = short(s.ResidualAccelRadS2)
		}
		t = append(t, []string{poseName(s), verdictWord(s.Judgement.Outcome), inDegrees(s.EquivalentAngleDeg), residual})
	}
	fmt.Fprintln(w, "\nPoses")
	t.shortened(36).write(w)
	for _, s := range states {
		fmt.Fprint(w, wrap("  ", fmt.Sprintf("%s: working angles %s", poseName(s), angleList(s.WorkingAngleDeg))))
	}
}

// poseName names a pose, that of the survey itself too.
func poseName(s adjust.State) string {
	if s.Pose == "" {
		return "as measured"
	}
	return s.Pose
}

// travelFigure draws a driveline across the poses of its file.
func travelFigure(sv *survey.Survey) (*plotting.Figure, error) {
	if len(sv.Poses) == 0 {
		return nil, fmt.Errorf("%s: no poses: want a file that has some", sv.Name)
	}
	travel, err := adjust.NewTravel(sv)
	if err != nil {
		return nil, err
	}
	limit, err := equivalentLimit(sv)
	if err != nil {
		return nil, err
	}
	t := plotting.Travel{Name: sv.Name, Shaft: travel.Shaft, Limit: limit / kinematics.Degree}
	for _, j := range sv.Joints {
		t.Joints = append(t.Joints, j.Name)
	}
	for i, s := range travel.States {
		t.Poses = append(t.Poses, plotting.Pose{
			Name: poseName(s), SlopeDeg: travel.SlopeDeg[i],
			LeftDeg: s.EquivalentAngleDeg, WorkingAngle: s.WorkingAngleDeg,
		})
	}
	return plotting.TravelCurve(t)
}
