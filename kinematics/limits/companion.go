package limits

import (
	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Roles says which Cardan joints are meant to cancel each other, by their index
// along the power flow.
type Roles struct {
	Pairs [][2]int // companion joints, each in the order of the power flow
	Odd   []int    // Cardan joints without a companion
}

// RolesOf returns the roles of the joints of a valid driveline with its names
// filled in. Constant-velocity joints take no part, and a double-cardan joint is
// its own pair. Of the Cardan joints that the file pairs with no other, the last
// two, at the last free shaft, are companions and those before them odd.
func RolesOf(s *survey.Survey) Roles {
	var r Roles
	paired := make([]bool, len(s.Joints))
	for _, group := range s.Groups() {
		for _, i := range group {
			paired[i] = true
		}
		if len(group) == 2 {
			r.Pairs = append(r.Pairs, [2]int(group))
		}
	}
	for i, j := range s.Joints {
		if !paired[i] && j.Kind == kinematics.Cardan {
			r.Odd = append(r.Odd, i)
		}
	}
	if n := len(r.Odd); n >= 2 {
		r.Pairs = append(r.Pairs, [2]int(r.Odd[n-2:]))
		r.Odd = r.Odd[:n-2]
	}
	return r
}
