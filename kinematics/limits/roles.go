package limits

import (
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Roles says which Cardan joints are meant to cancel each other, by their index
// along the power flow. Constant-velocity joints take no part, and a double-cardan
// joint is its own pair.
type Roles struct {
	Companions [][]int // pairs and groups, each in the order of the power flow
	Odd        []int   // Cardan joints without a companion beside others
	Lone       []int   // the only Cardan joint of the driveline; empty where there are others
}

// Pairs returns the companions that are two.
func (r Roles) Pairs() [][2]int {
	var pairs [][2]int
	for _, c := range r.Companions {
		if len(c) == 2 {
			pairs = append(pairs, [2]int(c))
		}
	}
	return pairs
}

// hasCompanion reports whether joint k is one of a pair or group.
func (r Roles) hasCompanion(k int) bool {
	return slices.ContainsFunc(r.Companions, func(c []int) bool { return slices.Contains(c, k) })
}

// phaseMatters reports whether shaft i lies between companions that have a
// constant-velocity joint between them: only its phase tells how their yokes stand to
// each other.
func (r Roles) phaseMatters(s *survey.Survey, i int) bool {
	for _, c := range r.Companions {
		first, last := c[0], c[len(c)-1]
		if first < i && i <= last && slices.ContainsFunc(s.Joints[first:last], func(j survey.Joint) bool {
			return j.Kind == kinematics.ConstantVelocity
		}) {
			return true
		}
	}
	return false
}

// RolesOf returns the roles of the joints of a valid driveline with its names
// filled in. Of the Cardan joints for which the file names no companion, the last
// two, at the last free shaft, are companions and those before them odd; where they
// are four or more that match two by two from the rear, they are so many pairs.
func RolesOf(s *survey.Survey) (Roles, error) {
	set, err := Of(s)
	if err != nil {
		return Roles{}, err
	}
	return rolesOf(s, set)
}

func rolesOf(s *survey.Survey, set Set) (Roles, error) {
	cardan := jointsOf(s, kinematics.Cardan)
	if len(cardan) == 1 {
		return Roles{Lone: cardan}, nil
	}
	r := Roles{Companions: s.Groups()}
	free := slices.DeleteFunc(cardan, r.hasCompanion)
	named, n := len(r.Companions), len(free)
	r.Odd = free[:n%2]
	for ; n >= 2; n -= 2 {
		r.Companions = append(r.Companions, free[n-2:n])
	}
	if n = len(free); n < 4 {
		return r, nil
	}
	if match, err := r.match(s, set, named); match || err != nil {
		return r, err
	}
	r.Companions = append(r.Companions[:named:named], free[n-2:])
	r.Odd = free[:n-2]
	return r, nil
}

// match reports whether all companions from the given ones on keep the set's limit
// as measured.
func (r Roles) match(s *survey.Survey, set Set, from int) (bool, error) {
	limit, ok := set.Limit(survey.LimitCompanionDifference, 0)
	if !ok {
		return false, nil
	}
	d, err := s.Driveline()
	if err != nil {
		return false, err
	}
	g := &Gauge{Roles: r, layout: layout{s, r}}
	for i := range r.Companions[from:] {
		g.judgePart(limit, part{matching, from + i})
	}
	return !slices.ContainsFunc(g.Measure(d, nil), func(v float64) bool { return !limit.Kept(v) }), nil
}
