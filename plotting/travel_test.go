package plotting

import (
	"strings"
	"testing"

	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics"
	"halfturn/kinematics/adjust"
	"halfturn/plotting/page"
)

func travelOf() *adjust.Travel {
	return &adjust.Travel{
		Shaft:  "rear shaft",
		States: []adjust.State{{}, {Pose: "full droop"}, {Pose: "full bump"}},
		Positions: []adjust.Position{
			{SlopeDeg: -1, State: 2, ExactEquivalentDeg: 2, WorkingAngleDeg: []float64{1, 2}},
			{SlopeDeg: 4, State: 0, ExactEquivalentDeg: 0, WorkingAngleDeg: []float64{4, 4}},
			{SlopeDeg: 6, State: -1, ExactEquivalentDeg: 1, WorkingAngleDeg: []float64{6, 5}},
			{SlopeDeg: 9, State: 1, ExactEquivalentDeg: 5, WorkingAngleDeg: []float64{9, 7}},
		},
	}
}

func TestTravel(t *testing.T) {
	t.Parallel()
	f, err := Travel(newCase(t, 0, [][2]float64{{0, 0}, {4, 0}, {0, 0}}), travelOf(), 3*kinematics.Degree)
	if err != nil {
		t.Fatal(err)
	}
	x, y := columns(f.Rows[0].Panels[0].Layers[0].(page.Curve))
	for i, want := range []plotter.XY{{X: -1, Y: 2}, {X: 4, Y: 0}, {X: 6, Y: 1}, {X: 9, Y: 5}} {
		if got := (plotter.XY{X: x[i], Y: y[i]}); got != want {
			t.Errorf("point %d: got %v, want %v", i, got, want)
		}
	}
	svg := drawn(t, f)
	for _, want := range []string{"full droop", "full bump", "as measured", "limit 3", "slope of rear shaft", "joint a", "a case"} {
		if !strings.Contains(svg, want) {
			t.Errorf("figure does not say %q", want)
		}
	}
}

// Poses of one slope have their names side by side.
func TestNamesOfPosesKeepApart(t *testing.T) {
	t.Parallel()
	travel := travelOf()
	for i := range travel.Positions {
		travel.Positions[i].SlopeDeg = min(travel.Positions[i].SlopeDeg, travel.Positions[1].SlopeDeg)
	}
	f, err := Travel(newCase(t, 0, [][2]float64{{0, 0}, {4, 0}, {0, 0}}), travel, 3*kinematics.Degree)
	if err != nil {
		t.Fatal(err)
	}
	keepApart(t, inks(t, f))
}

func TestTravelRefuses(t *testing.T) {
	t.Parallel()
	c := newCase(t, 0, [][2]float64{{0, 0}, {4, 0}})
	for _, test := range []struct {
		name   string
		travel *adjust.Travel
		want   string
	}{
		{"nothing", nil, "fewer than two poses"},
		{"no pose", &adjust.Travel{States: make([]adjust.State, 1), Positions: make([]adjust.Position, 1)}, "fewer than two poses"},
		{"another number of joints", travelOf(), "working angles of 2 joints: want 1"},
	} {
		if _, err := Travel(c, test.travel, 0); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got error %v, want one with %q", test.name, err, test.want)
		}
	}
}
