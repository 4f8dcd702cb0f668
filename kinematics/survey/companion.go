package survey

import (
	"fmt"

	"halfturn/kinematics"
)

// checkCompanion holds that joint i, if it names a companion, makes a pair of two
// Cardan joints with it and no other pair has one of them.
func (s *Survey) checkCompanion(a *audit, path string, i int) {
	pair, ok := s.pair(i)
	if !ok {
		if name := s.Joints[i].Companion; name != "" {
			a.report(path, quoted(name), "the name of another joint")
		}
		return
	}
	refuse := func(want string) { a.report(path, quoted(s.Joints[i].Companion), want) }
	for _, k := range pair {
		if j := s.Joints[k]; j.Kind != kinematics.Cardan && a.sound(member(element("joints", k), "kind")) {
			refuse(fmt.Sprintf("two Cardan joints; %s is %s", quoted(j.Name), j.Kind))
		}
	}
	for k, j := range s.Joints {
		other, ok := s.pair(k)
		if ok && other != pair && (other.has(pair[0]) || other.has(pair[1])) {
			refuse(fmt.Sprintf("joints with one companion each; %s names %s", quoted(j.Name), quoted(j.Companion)))
		}
	}
}

// companions are two joints by their index, in the order of the power flow.
type companions [2]int

func (p companions) has(joint int) bool { return p[0] == joint || p[1] == joint }

// pair returns the pair that joint i makes with the companion it names; ok is
// false where it names no other joint.
func (s *Survey) pair(i int) (p companions, ok bool) {
	k := s.JointIndex(s.Joints[i].Companion)
	return companions{min(i, k), max(i, k)}, k >= 0 && k != i
}
