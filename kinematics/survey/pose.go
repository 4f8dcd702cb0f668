package survey

import "slices"

// In returns the driveline in a pose: the Survey with the overrides of the pose
// and without other poses. Shafts and joints that it does not have are passed
// over; Validate reports them.
func (s *Survey) In(pose Pose) *Survey {
	c := s.Complete()
	c.Poses = nil
	for _, over := range pose.Shafts {
		if i := c.ShaftIndex(over.Name); i >= 0 {
			c.Shafts[i] = c.Shafts[i].in(over)
		}
	}
	for _, over := range pose.Joints {
		if i := c.JointIndex(over.Name); i >= 0 && over.At != nil {
			at := *over.At
			c.Joints[i].At = &at
		}
	}
	return c
}

func (sh Shaft) in(over PoseShaft) Shaft {
	if over.DownDeg != nil || over.InclineDeg != nil {
		sh.DownDeg, sh.InclineDeg = over.DownDeg, over.InclineDeg
	}
	if over.RightDeg != nil {
		sh.RightDeg = over.RightDeg
	}
	return sh
}

func (s *Survey) checkPoses(a *audit) {
	names := make([]string, len(s.Poses))
	for i, pose := range s.Poses {
		names[i] = pose.Name
	}
	checkUnique(a, "poses", names)
	for i, pose := range s.Poses {
		s.checkPose(a, element("poses", i), pose)
	}
}

func (s *Survey) checkPose(a *audit, path string, pose Pose) {
	var shafts, joints []string
	list := member(path, "shafts")
	for k, over := range pose.Shafts {
		shafts = append(shafts, over.Name)
		at := element(list, k)
		checkKnown(a, member(at, "name"), over.Name, s.shaftNames())
		checkSlope(a, at, over.DownDeg, over.InclineDeg)
		if s.Positioned() && s.between(s.ShaftIndex(over.Name)) {
			checkNoSlopes(a, at, over.DownDeg, over.InclineDeg, over.RightDeg)
		}
	}
	checkUnique(a, list, shafts)
	list = member(path, "joints")
	for k, over := range pose.Joints {
		joints = append(joints, over.Name)
		at := element(list, k)
		checkKnown(a, member(at, "name"), over.Name, s.jointNames())
		if !s.Positioned() && a.sound("joints") {
			a.report(member(at, "at"), "a position", "none: the joints of the driveline have none")
		}
	}
	checkUnique(a, list, joints)

	if a.sound("shafts", "joints", path) {
		posed := s.In(pose)
		posed.checkBends(a, func(list string, k int) string {
			over := slices.Index(shafts, posed.Shafts[k].Name)
			if list == "joints" {
				over = slices.Index(joints, posed.Joints[k].Name)
			}
			if over < 0 {
				return path
			}
			return element(member(path, list), over)
		})
	}
}

// checkKnown holds that name is one of those known.
func checkKnown(a *audit, path, name string, known []string) {
	if !slices.Contains(known, name) {
		a.report(path, quoted(name), oneOf(known))
	}
}
