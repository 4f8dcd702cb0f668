package survey

import "slices"

// In returns the driveline in a pose: the Survey with the overrides of the pose
// and without other poses. The speed of a pose goes before that of the Survey and
// of its road; a pose that stands still has no speed. Single limits of the pose go
// before those of the Survey, and all before the set, which may be another. Shafts
// and joints that the Survey does not have are passed over; Validate reports them.
func (s *Survey) In(pose Pose) *Survey {
	c := s.Complete()
	c.Poses = nil
	if pose.RPM != nil {
		c.SetRPM(*pose.RPM)
	}
	c.Limits = s.Limits.with(pose.Limits)
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
	if over.Slope.Entered() {
		sh.Slope = over.Slope
	}
	if over.Heading.Entered() {
		sh.Heading = over.Heading
	}
	return sh
}

func (s *Survey) checkPoses(c *collector) {
	names := make([]string, len(s.Poses))
	for i, pose := range s.Poses {
		names[i] = pose.Name
	}
	checkUnique(c, "poses", names)
	for i, pose := range s.Poses {
		s.checkPose(c, element("poses", i), pose)
	}
}

func (s *Survey) checkPose(c *collector, path string, pose Pose) {
	checkLimits(c, member(path, "limits"), pose.Limits)
	var shafts, joints []string
	list := member(path, "shafts")
	for k, over := range pose.Shafts {
		shafts = append(shafts, over.Name)
		at := element(list, k)
		checkKnown(c, member(at, "name"), over.Name, s.shaftNames())
		checkMethods(c, at, over.Slope, over.Heading)
		if s.Positioned() && s.between(s.ShaftIndex(over.Name)) {
			checkNoDirection(c, at, over.Slope, over.Heading)
		}
		if i := s.ShaftIndex(over.Name); i >= 0 && c.sound(element("shafts", i), at) {
			by := over.Slope.By // which leaves less reach for the run of the Survey
			if over.Heading.Entered() {
				by = over.Heading.By
			}
			s.checkOffset(c, member(at, string(by)), s.Shafts[i].in(over))
		}
	}
	checkUnique(c, list, shafts)
	list = member(path, "joints")
	for k, over := range pose.Joints {
		joints = append(joints, over.Name)
		at := element(list, k)
		checkKnown(c, member(at, "name"), over.Name, s.jointNames())
		if !s.Positioned() && c.sound("joints") {
			c.report(member(at, "at"), "a position", "none: the joints of the driveline have none")
		}
	}
	checkUnique(c, list, joints)

	if c.sound("shafts", "joints", path) {
		posed := s.In(pose)
		posed.checkBends(c, func(list string, k int) string {
			over := slices.Index(shafts, posed.Shafts[k].Name)
			if list == "joints" {
				over = slices.Index(joints, posed.Joints[k].Name)
			}
			if over < 0 {
				return path
			}
			return element(member(path, list), over)
		})
		posed.checkReach(c, path)
	}
}

// checkKnown holds that name is one of those known.
func checkKnown(c *collector, path, name string, known []string) {
	if !slices.Contains(known, name) {
		c.report(path, quoted(name), oneOf(known))
	}
}
