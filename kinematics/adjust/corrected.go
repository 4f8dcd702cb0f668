package adjust

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// moved puts the shafts as they are after the settings into shafts. Each is
// followed from the geometry as it is, so that their order does not matter.
func (g geometry) moved(shafts []kinematics.Shaft, settings []setting) {
	copy(shafts, g.shafts)
	for i := range settings {
		m := settings[i].move(g.shafts, settings[i].value)
		m.apply(shafts)
	}
}

// corrected returns the survey as it will be measured after the settings, in
// every pose, rounded far below what can be measured: repeated readings keep
// their spread about the new mean, and what is left of the range of each change
// counts from the new state.
func corrected(s *survey.Survey, settings []setting) *survey.Survey {
	c := correctedBase(s, settings)
	for i, pose := range s.Poses {
		posed := s.In(pose)
		c.Poses[i] = override(pose, c, correctedBase(posed, settings))
	}
	c.Adjust = slices.Clone(s.Adjust)
	for i := range c.Adjust {
		a := &c.Adjust[i]
		for _, set := range settings {
			if a.Change == set.name && a.On == set.asked.On {
				*a = left(*a, set.value, s.ChangeReach(a.Change))
			}
		}
	}
	return c
}

// left returns a change after it was made by a value: the same steps of its range,
// counted from there, that lie within reach.
func left(c survey.Change, value, reach float64) survey.Change {
	c.From, c.To = c.From-value, min(rounded(c.To-value), reach)
	if c.From < -reach && c.Step > 0 {
		c.From += c.Step * math.Ceil((-reach-c.From)/c.Step)
	}
	c.From = max(rounded(c.From), -reach)
	return c
}

// correctedBase is corrected without regard to poses.
func correctedBase(s *survey.Survey, settings []setting) *survey.Survey {
	c := s.Complete()
	c.Poses = slices.Clone(s.Poses)
	g := newGeometry(s)
	after := make([]kinematics.Shaft, len(g.shafts))
	g.moved(after, settings)
	for k := range after {
		correctShaft(&c.Shafts[k], g.shafts[k], after[k], s.Positioned() && k > 0 && k < len(g.shafts)-1)
	}
	for _, set := range settings {
		if at := c.Joints[set.at].At; at != nil {
			by := set.move(g.shafts, set.value).before
			c.Joints[set.at].At = &survey.Point{
				Along: rounded(at.Along + by.X),
				Right: rounded(at.Right - by.Y),
				Down:  rounded(at.Down - by.Z),
			}
		}
	}
	stretchBearings(c, s)
	return c
}

// stretchBearings keeps the centre bearings at their part of the lengths that their
// shafts had before.
func stretchBearings(after, before *survey.Survey) {
	was := before.Lengths()
	for k, length := range after.Lengths() {
		if at := after.Shafts[k].Bearing; at != nil && was[k] > 0 && was[k] != length {
			held := kinematics.Support{Length: was[k], Bearing: *at}.Stretched(length)
			after.Shafts[k].Bearing = new(min(rounded(held.Bearing), length))
		}
	}
}

// correctShaft writes the way from one state to the other into what the survey
// says of a shaft.
func correctShaft(sh *survey.Shaft, from, to kinematics.Shaft, positioned bool) {
	if to.Phase != from.Phase {
		sh.PhaseDeg = survey.Readings{rounded(math.Remainder(sh.PhaseDeg.Mean()+(to.Phase-from.Phase)/kinematics.Degree, 360))}
	}
	if to.Axis == from.Axis || positioned {
		return
	}
	sh.Slope = sh.Slope.Shifted(sh.Slope.Of(to.Axis) - sh.Slope.Of(from.Axis))
	roundReadings(sh.Slope.Deg)
	length := sh.Length
	if length > 0 {
		sh.Length = rounded(r3.Norm(to.Axis))
	}
	by := rounded(sh.Heading.Of(to.Axis, sh.Length) - sh.Heading.Of(from.Axis, length))
	if by != 0 || sh.Heading.Entered() { // what is not entered stays so
		sh.Heading = sh.Heading.Shifted(by)
		roundReadings(sh.Heading.Values)
	}
}

// roundReadings rounds readings in place.
func roundReadings(readings survey.Readings) {
	for i, r := range readings {
		readings[i] = rounded(r)
	}
}

// override returns the pose with what makes base read as posed does.
func override(pose survey.Pose, base, posed *survey.Survey) survey.Pose {
	pose.Shafts, pose.Joints = nil, nil
	for k, sh := range posed.Shafts {
		over, own := survey.PoseShaft{Name: sh.Name}, base.Shafts[k]
		if sh.Slope.By != own.Slope.By || !slices.Equal(sh.Slope.Deg, own.Slope.Deg) {
			over.Slope = sh.Slope
		}
		if sh.Heading.By != own.Heading.By || !slices.Equal(sh.Heading.Values, own.Heading.Values) {
			over.Heading = sh.Heading
		}
		if over.Slope.Entered() || over.Heading.Entered() {
			pose.Shafts = append(pose.Shafts, over)
		}
	}
	for k, j := range posed.Joints {
		if at := j.At; at != nil && *at != *base.Joints[k].At {
			pose.Joints = append(pose.Joints, survey.PoseJoint{Name: j.Name, At: at})
		}
	}
	return pose
}

// rounded drops what lies below a millionth of a degree, mm or in.
func rounded(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }
