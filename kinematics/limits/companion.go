package limits

import (
	"fmt"
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Roles says which Cardan joints are meant to cancel each other, by their index
// along the power flow.
type Roles struct {
	Pairs [][2]int // companion joints, each in the order of the power flow
	Odd   []int    // Cardan joints without a companion
}

// RolesOf returns the roles of the joints of a driveline with its names filled
// in. Constant-velocity joints take no part, and a double-cardan joint is its own
// pair. Of the Cardan joints that the file pairs with no other, the last two, at
// the last free shaft, are companions and those before them odd.
//
// A file that pairs a joint twice, or with one that is not a Cardan joint, is an
// error.
func RolesOf(s *survey.Survey) (Roles, error) {
	var r Roles
	companion := make(map[int]int)
	for i, j := range s.Joints {
		if j.Companion == "" {
			continue
		}
		k := slices.IndexFunc(s.Joints, func(other survey.Joint) bool { return other.Name == j.Companion })
		if err := checkPair(s, companion, i, k); err != nil {
			return Roles{}, err
		}
		if _, named := companion[i]; !named {
			companion[i], companion[k] = k, i
			r.Pairs = append(r.Pairs, [2]int{min(i, k), max(i, k)})
		}
	}
	for i, j := range s.Joints {
		if _, named := companion[i]; !named && j.Kind == kinematics.Cardan {
			r.Odd = append(r.Odd, i)
		}
	}
	if n := len(r.Odd); n >= 2 {
		r.Pairs = append(r.Pairs, [2]int(r.Odd[n-2:]))
		r.Odd = r.Odd[:n-2]
	}
	return r, nil
}

// checkPair checks that joint i may name joint k as its companion.
func checkPair(s *survey.Survey, companion map[int]int, i, k int) error {
	refuse := func(want string) error {
		return fmt.Errorf("joints[%d].companion: %q: want %s", i, s.Joints[i].Companion, want)
	}
	if k < 0 || k == i {
		return refuse("the name of another joint")
	}
	for _, j := range []survey.Joint{s.Joints[i], s.Joints[k]} {
		if j.Kind != kinematics.Cardan {
			return refuse(fmt.Sprintf("two Cardan joints; %q is %s", j.Name, j.Kind))
		}
	}
	for _, pair := range [][2]int{{i, k}, {k, i}} {
		if other, named := companion[pair[0]]; named && other != pair[1] {
			return refuse(fmt.Sprintf("joints with one companion each; %q has %q", s.Joints[pair[0]].Name, s.Joints[other].Name))
		}
	}
	return nil
}
