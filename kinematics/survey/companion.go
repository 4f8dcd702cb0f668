package survey

import (
	"fmt"
	"slices"

	"halfturn/kinematics"
)

// Groups returns the joints that are meant to cancel together, as the file names
// them with companions: each group by the indices of its joints along the power
// flow, two for a pair. The Survey must be valid.
func (s *Survey) Groups() [][]int {
	var groups [][]int
	for i := range s.Joints {
		g := s.group(i)
		if len(g) > 1 && !slices.ContainsFunc(groups, func(h []int) bool { return slices.Equal(g, h) }) {
			groups = append(groups, g)
		}
	}
	return groups
}

// group returns joint i and the companions that it names, sorted and without
// repetition; names that are none are passed over.
func (s *Survey) group(i int) []int {
	g := []int{i}
	for _, name := range s.Joints[i].Companions {
		if k := s.JointIndex(name); k >= 0 {
			g = append(g, k)
		}
	}
	slices.Sort(g)
	return slices.Compact(g)
}

// checkCompanions holds that joint i, if it names companions, makes a group of
// different Cardan joints with them, and that no other group has one of these.
func (s *Survey) checkCompanions(c *collector, path string, i int) {
	named := s.Joints[i].Companions
	if len(named) == 0 || !c.sound(path) {
		return
	}
	refuse := func(want string) { c.report(path, listed(named), want) }
	group := s.group(i)
	if len(group) != 1+len(named) {
		want := "the name of another joint"
		if len(named) > 1 {
			want = "the names of other joints, each once"
		}
		refuse(want)
		return
	}
	for _, k := range group {
		if j := s.Joints[k]; j.Kind != kinematics.Cardan && c.sound(member(element("joints", k), "kind")) {
			refuse(fmt.Sprintf("Cardan joints; %s is %s", quoted(j.Name), j.Kind))
		}
	}
	for k, j := range s.Joints {
		other := s.group(k)
		shared := func(joint int) bool { return slices.Contains(group, joint) }
		if len(other) > 1 && !slices.Equal(other, group) && slices.ContainsFunc(other, shared) {
			refuse(fmt.Sprintf("joints of one pair or group only; %s names %s", quoted(j.Name), listed(j.Companions)))
		}
	}
}
