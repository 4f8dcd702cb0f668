package limits

import (
	"slices"
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
	straight := func(n int) []float64 { return make([]float64, n) }
	for _, test := range []struct {
		name       string
		joints     []string
		slopes     []float64
		companions [][]int
		odd        []int
		lone       []int
	}{
		{"one joint alone", []string{"c"}, straight(2), nil, nil, []int{0}},
		{"one-piece shaft", []string{"c", "c"}, straight(3), [][]int{{0, 1}}, nil, nil},
		{"two-piece shaft", []string{"c", "c", "c"}, straight(4), [][]int{{1, 2}}, []int{0}, nil},
		{"three-piece shaft, 0.4 and 3.0, 2.9 and 3.1", []string{"c", "c", "c", "c"}, []float64{1.5, 1.9, 4.9, 7.8, 4.7},
			[][]int{{2, 3}}, []int{0, 1}, nil},
		{"three-piece shaft, 2 and 2, 3 and 3", []string{"c", "c", "c", "c"}, []float64{1, 3, 1, 4, 1},
			[][]int{{2, 3}, {0, 1}}, nil, nil},
		{"five joints, matching from the rear", []string{"c", "c", "c", "c", "c"}, []float64{1, 1.3, 3.3, 1.3, 4.3, 1.3},
			[][]int{{3, 4}, {1, 2}}, []int{0}, nil},
		{"constant-velocity joint between", []string{"c", "v", "c"}, straight(4), [][]int{{0, 2}}, nil, nil},
		{"constant-velocity joint behind", []string{"c", "c", "v"}, straight(4), [][]int{{0, 1}}, nil, nil},
		{"double-cardan joint and one more", []string{"d", "c"}, straight(3), nil, nil, []int{1}},
		{"double-cardan joint and three more", []string{"d", "c", "c", "c"}, straight(5), [][]int{{2, 3}}, []int{1}, nil},
		{"no Cardan joint", []string{"v", "d"}, straight(3), nil, nil, nil},
		{"named", []string{"c=3", "c", "c"}, straight(4), [][]int{{0, 2}}, []int{1}, nil},
		{"named by both", []string{"c=2", "c=1", "c"}, straight(4), [][]int{{0, 1}}, []int{2}, nil},
		{"named by the latter", []string{"c", "c=1", "c", "c"}, straight(5), [][]int{{0, 1}, {2, 3}}, nil, nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := jointed(test.joints...)
			for i, slope := range test.slopes {
				s.Shafts[i].Slope = survey.Down(slope)
			}
			got, err := RolesOf(s)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.EqualFunc(got.Companions, test.companions, slices.Equal[[]int]) || !slices.Equal(got.Odd, test.odd) || !slices.Equal(got.Lone, test.lone) {
				t.Errorf("%+v, want companions %v, odd %v, lone %v", got, test.companions, test.odd, test.lone)
			}
		})
	}
}
