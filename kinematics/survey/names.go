package survey

import "slices"

// ShaftIndex returns the index of the shaft of that name, −1 if there is none.
func (s *Survey) ShaftIndex(name string) int { return slices.Index(s.shaftNames(), name) }

// JointIndex returns the index of the joint of that name, −1 if there is none.
func (s *Survey) JointIndex(name string) int { return slices.Index(s.jointNames(), name) }

// shaftNames returns the names of all shafts, jointNames those of all joints.
func (s *Survey) shaftNames() []string {
	names := make([]string, len(s.Shafts))
	for i, sh := range s.Shafts {
		names[i] = sh.Name
	}
	return names
}

func (s *Survey) jointNames() []string {
	names := make([]string, len(s.Joints))
	for i, j := range s.Joints {
		names[i] = j.Name
	}
	return names
}
