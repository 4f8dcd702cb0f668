package plotting

import (
	"strings"
	"testing"

	"gonum.org/v1/plot/plotter"

	"halfturn/plotting/page"
)

func TestTravelCurve(t *testing.T) {
	t.Parallel()
	travel := Travel{
		Name: "a van", Shaft: "rear shaft", Joints: []string{"front joint", "rear joint"}, Limit: 3,
		Poses: []Pose{
			{"as measured", 4, 0, []float64{4, 4}},
			{"full droop", 9, 5, []float64{9, 7}},
			{"full bump", -1, 2, []float64{1, 2}},
		},
	}
	f, err := TravelCurve(travel)
	if err != nil {
		t.Fatal(err)
	}
	x, y := columns(f.Rows[0].Panels[0].Layers[0].(page.Curve))
	for i, want := range []plotter.XY{{X: -1, Y: 2}, {X: 4, Y: 0}, {X: 9, Y: 5}} { // in the order of the slopes
		if got := (plotter.XY{X: x[i], Y: y[i]}); got != want {
			t.Errorf("point %d: got %v, want %v", i, got, want)
		}
	}
	svg := drawn(t, f)
	for _, want := range []string{"full droop", "full bump", "as measured", "limit 3", "slope of rear shaft", "front joint"} {
		if !strings.Contains(svg, want) {
			t.Errorf("figure does not say %q", want)
		}
	}
}

func TestTravelCurveRefuses(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		poses []Pose
		want  string
	}{
		{"no pose", nil, "no poses"},
		{"another number of joints", []Pose{{"x", 1, 1, []float64{1, 2}}}, "working angles of 2 joints"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			_, err := TravelCurve(Travel{Joints: []string{"a"}, Poses: test.poses})
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got error %v, want one with %q", err, test.want)
			}
		})
	}
}
