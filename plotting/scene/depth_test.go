package scene

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

func TestBackToFrontOfBricks(t *testing.T) {
	t.Parallel()
	fromSide := From(0, 0) // what has the lower y is nearer
	near, far := brick(r3.Vec{Y: -2}, 1, 1, 1), brick(r3.Vec{Y: 2}, 1, 1, 1)
	// A long plank whose middle is nearer to the eye than that of the post which stands
	// before one end of it.
	plank := lathe(colours.Steel, false,
		[]r3.Vec{{X: 0, Y: 0, Z: -1}, {X: 0, Y: 0.5, Z: -1}, {X: 0, Y: 0.5, Z: 1}, {X: 0, Y: 0, Z: 1}},
		[]r3.Vec{{X: 20, Y: -10, Z: -1}, {X: 20, Y: -9.5, Z: -1}, {X: 20, Y: -9.5, Z: 1}, {X: 20, Y: -10, Z: 1}})
	post := brick(r3.Vec{X: 1, Y: -2}, 0.5, 0.5, 3)
	for _, test := range []struct {
		name           string
		behind, before *solid
	}{
		{"one before the other", far, near},
		{"touching", far, brick(r3.Vec{}, 1, 1, 1)},
		{"a post before a plank that comes nearer", plank, post},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			for _, solids := range [][]*solid{{test.behind, test.before}, {test.before, test.behind}} {
				if got := fromSide.backToFront(solids); got[0] != test.behind || got[1] != test.before {
					t.Error("got the nearer one first")
				}
			}
		})
	}
}

// In a driveline that fits together a plane parts any two solids, and none is drawn
// before one that it hides.
func TestBackToFrontOfDrivelines(t *testing.T) {
	t.Parallel()
	for name, row := range rows(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for i := range 24 {
				ordered := fromRight.backToFront(row.solids(2 * math.Pi * float64(i) / 24))
				outlines := make([]polygon, len(ordered))
				for k, s := range ordered {
					outlines[k] = fromRight.outline(s)
				}
				for k, b := range ordered {
					for j, a := range ordered[:k] {
						if !outlines[j].overlaps(outlines[k]) {
							continue
						}
						_, parted := a.parting(b)
						if _, also := b.parting(a); !parted && !also {
							t.Errorf("position %d: no face parts the solids drawn as %d and %d", i, j, k)
						}
						if fromRight.hides(a, b) {
							t.Errorf("position %d: the solid drawn as %d hides that drawn as %d", i, j, k)
						}
					}
				}
			}
		})
	}
}

// Parts of a joint that could not be built, since they run through each other, are still
// all drawn.
func TestBackToFrontOfCollidingParts(t *testing.T) {
	t.Parallel()
	parts := newRow(t, [][2]float64{{0, 0}, {80, 0}}, nil).solids(30 * kinematics.Degree)
	ordered := fromRight.backToFront(parts)
	for i, p := range parts {
		if !slices.Contains(ordered, p) {
			t.Errorf("solid %d is left out", i)
		}
	}
	if len(ordered) != len(parts) {
		t.Errorf("got %d solids, want %d", len(ordered), len(parts))
	}
}
