package limits

import (
	"reflect"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// jointed returns a driveline of straight joints with kinds and companions
// written as "c", "v", "d" for a Cardan, constant-velocity and double-cardan
// joint, and "c=3" for one that names the third joint.
func jointed(joints ...string) *survey.Survey {
	s := inPlane(make([]float64, len(joints)+1)...)
	for i, text := range joints {
		kind, companion, named := strings.Cut(text, "=")
		s.Joints[i].Kind = map[string]kinematics.Kind{
			"c": kinematics.Cardan, "v": kinematics.ConstantVelocity, "d": kinematics.DoubleCardan,
		}[kind]
		if named {
			s.Joints[i].Companions = []string{"joint " + companion}
		}
	}
	return s
}

func TestRoles(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name   string
		joints []string
		pairs  [][2]int
		odd    []int
	}{
		{"one joint alone", []string{"c"}, nil, []int{0}},
		{"one-piece shaft", []string{"c", "c"}, [][2]int{{0, 1}}, nil},
		{"two-piece shaft", []string{"c", "c", "c"}, [][2]int{{1, 2}}, []int{0}},
		{"three-piece shaft", []string{"c", "c", "c", "c"}, [][2]int{{2, 3}}, []int{0, 1}},
		{"constant-velocity joint between", []string{"c", "v", "c"}, [][2]int{{0, 2}}, nil},
		{"constant-velocity joint behind", []string{"c", "c", "v"}, [][2]int{{0, 1}}, nil},
		{"double-cardan joint and one more", []string{"d", "c"}, nil, []int{1}},
		{"no Cardan joint", []string{"v", "d"}, nil, nil},
		{"named", []string{"c=3", "c", "c"}, [][2]int{{0, 2}}, []int{1}},
		{"named by both", []string{"c=2", "c=1", "c"}, [][2]int{{0, 1}}, []int{2}},
		{"named by the latter", []string{"c", "c=1", "c", "c"}, [][2]int{{0, 1}, {2, 3}}, nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			got := RolesOf(jointed(test.joints...))
			if !reflect.DeepEqual(got.Pairs, test.pairs) || len(got.Odd) != len(test.odd) ||
				len(test.odd) > 0 && !reflect.DeepEqual(got.Odd, test.odd) {
				t.Errorf("pairs %v and odd %v, want %v and %v", got.Pairs, got.Odd, test.pairs, test.odd)
			}
		})
	}
}
