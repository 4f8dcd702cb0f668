package scene

import (
	"image/color"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

var standard = newFrame(r3.Vec{}, r3.Vec{X: 1}, r3.Vec{Y: 1})

// brick returns a cuboid about a centre.
func brick(centre r3.Vec, halfX, halfY, halfZ float64) *solid {
	f := standard
	f.at = centre
	return lathe(colours.Steel, false, f.rectangle(-halfX, halfY, halfZ), f.rectangle(halfX, halfY, halfZ))
}

// Of a convex solid every corner lies behind every face, and its faces close: their areas
// times normals sum to zero.
func TestSolidsAreConvexAndClosed(t *testing.T) {
	t.Parallel()
	solids := map[string][]*solid{
		"brick":      {brick(r3.Vec{X: 1, Y: 2, Z: 3}, 1, 2, 3)},
		"yoke":       colours.yoke(r3.Vec{X: 5}, r3.Vec{X: -1}, r3.Vec{Z: 1}, blue),
		"cross":      colours.cross(r3.Vec{Y: 5}, r3.Vec{Y: 1}, r3.Vec{Z: 1}),
		"ball joint": colours.ballJoint(r3.Vec{}, r3.Vec{X: 1}, r3.Unit(r3.Vec{X: 1, Z: -0.3}), blue, red),
		"shaft":      {colours.shaft(r3.Vec{}, r3.Vec{X: 2, Y: 1}, r3.Vec{Z: 1}, blue)},
	}
	for name, parts := range solids {
		for i, s := range parts {
			var sum r3.Vec
			for j, f := range s.faces {
				if length := r3.Norm(f.normal); math.Abs(length-1) > 1e-14 {
					t.Errorf("%s: part %d: normal of face %d has length %v, want 1", name, i, j, length)
				}
				sum = r3.Add(sum, r3.Scale(areaVector(f), f.normal))
				for _, g := range s.faces {
					for _, p := range g.corners {
						// Coordinates up to 6 and their rounding.
						if ahead := r3.Dot(f.normal, r3.Sub(p, f.corners[0])); ahead > 1e-14 {
							t.Errorf("%s: part %d: a corner lies %v before face %d", name, i, ahead, j)
						}
					}
				}
			}
			if r3.Norm(sum) > 1e-13 { // of some hundred faces of area up to 24
				t.Errorf("%s: part %d: areas times normals sum to %v, want 0", name, i, sum)
			}
		}
	}
}

// areaVector returns the area of a face.
func areaVector(f face) float64 {
	var sum r3.Vec
	for i := 2; i < len(f.corners); i++ {
		sum = r3.Add(sum, r3.Cross(r3.Sub(f.corners[i-1], f.corners[0]), r3.Sub(f.corners[i], f.corners[0])))
	}
	return r3.Norm(sum) / 2
}

func TestHull(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name         string
		points, want []r2.Vec
	}{
		{"triangle", []r2.Vec{{X: 0, Y: 0}, {X: 0, Y: 1}, {X: 1, Y: 0}}, []r2.Vec{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 0, Y: 1}}},
		{
			"square with points inside, on its edge and twice",
			[]r2.Vec{{X: 2, Y: 2}, {X: 1, Y: 1}, {X: 0, Y: 0}, {X: 2, Y: 0}, {X: 1, Y: 0}, {X: 0, Y: 2}, {X: 2, Y: 0}, {X: 0.5, Y: 1.5}},
			[]r2.Vec{{X: 0, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 2}, {X: 0, Y: 2}},
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			got := hull(test.points)
			if len(got) != len(test.want) {
				t.Fatalf("got %v, want %v", got, test.want)
			}
			for i := range got {
				if got[i] != test.want[i] {
					t.Fatalf("got %v, want %v", got, test.want)
				}
			}
		})
	}
}

func TestTone(t *testing.T) {
	t.Parallel()
	for _, c := range []color.RGBA{blue, red, colours.Ink, colours.Steel} {
		if got := Tone(c, 0); got != c {
			t.Errorf("no lighter: got %v, want %v", got, c)
		}
		white := color.RGBA{0xFF, 0xFF, 0xFF, 0xFF}
		if got := Tone(c, 1); got != white {
			t.Errorf("as light as can be: got %v, want %v", got, white)
		}
		sum := func(c color.RGBA) int { return int(c.R) + int(c.G) + int(c.B) }
		last := sum(c)
		for k := 1; k <= Tones; k++ {
			lightness := sum(Tone(c, float64(k)/Tones))
			if lightness <= last {
				t.Errorf("%v: step %d is not lighter than the one before: %v after %v", c, k, lightness, last)
			}
			last = lightness
		}
	}
}

// What is nearer is darker, and what faces the light is lighter.
func TestLightness(t *testing.T) {
	t.Parallel()
	v := fromRight
	near, far := brick(v.toward, 0.1, 0.1, 0.1), brick(r3.Scale(-1, v.toward), 0.1, 0.1, 0.1)
	about(r3.Vec{}, []*solid{near, far})
	if a, b := near.lightness(v, v.light()), far.lightness(v, v.light()); a >= b {
		t.Errorf("near %v, far %v: want the near one darker", a, b)
	}
	if a, b := near.lightness(v, v.light()), near.lightness(v, r3.Scale(-1, v.light())); a <= b {
		t.Errorf("in the light %v, in the shade %v: want the first lighter", a, b)
	}
}
