package main

import (
	"fmt"
	"io"

	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
)

// writePoses prints the driveline across the travel of its suspension.
func writePoses(w io.Writer, states []adjust.State) {
	t := table{{"pose", "verdict", "as one joint at", "left rad/s²", "works at"}}
	for _, s := range states {
		name := s.Pose
		if name == "" {
			name = "as measured"
		}
		residual := ""
		if s.Judgement.RPM > 0 {
			residual = short(s.ResidualAccelRadS2)
		}
		t = append(t, []string{
			brief(name, nameWidth), verdictWord(s.Judgement.Outcome),
			fmt.Sprintf("%.2f°", s.EquivalentAngleDeg), residual, brief(angleList(s.WorkingAngleDeg), nameWidth),
		})
	}
	fmt.Fprintln(w, "\nPoses")
	t.write(w)
}

// within reports whether every verdict is within, in every pose.
func (c *checked) within() bool {
	for _, s := range c.poses {
		if s.Judgement.Outcome != limits.Within {
			return false
		}
	}
	return c.judgement.Outcome == limits.Within
}
