package scene

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func TestProject(t *testing.T) {
	t.Parallel()
	const quarter = math.Pi / 2
	for _, test := range []struct {
		name          string
		behind, above float64
		point         r3.Vec
		want          r2.Vec
		depth         float64
	}{
		{"along the flow, from the right", 0, 0, r3.Vec{X: 1}, r2.Vec{X: 1, Y: 0}, 0},
		{"up, from the right", 0, 0, r3.Vec{Z: 1}, r2.Vec{X: 0, Y: 1}, 0},
		{"to the right is nearer, from the right", 0, 0, r3.Vec{Y: -1}, r2.Vec{X: 0, Y: 0}, 1},
		{"to the right, looking along the flow", quarter, 0, r3.Vec{Y: -1}, r2.Vec{X: 1, Y: 0}, 0},
		{"down, looking along the flow", quarter, 0, r3.Vec{Z: -1}, r2.Vec{X: 0, Y: -1}, 0},
		{"along the flow is farther, looking along it", quarter, 0, r3.Vec{X: 1}, r2.Vec{X: 0, Y: 0}, -1},
		{"along the flow, from the top", 0, quarter, r3.Vec{X: 1}, r2.Vec{X: 1, Y: 0}, 0},
		{"to the right, from the top", 0, quarter, r3.Vec{Y: -1}, r2.Vec{X: 0, Y: -1}, 0},
		{"up is nearer, from the top", 0, quarter, r3.Vec{Z: 1}, r2.Vec{X: 0, Y: 0}, 1},
		// A quarter turn shared out evenly: the direction (1, −1, 0)/√2 runs square
		// across the picture.
		{"half way round", quarter / 2, 0, r3.Vec{X: 1, Y: -1}, r2.Vec{X: math.Sqrt2, Y: 0}, 0},
		{"half way up", 0, quarter / 2, r3.Vec{Z: 1}, r2.Vec{X: 0, Y: math.Sqrt2 / 2}, math.Sqrt2 / 2},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			v := From(test.behind, test.above)
			got, depth := v.project(test.point), v.depth(test.point)
			// A few roundings of numbers about 1.
			if math.Hypot(got.X-test.want.X, got.Y-test.want.Y) > 1e-15 || math.Abs(depth-test.depth) > 1e-15 {
				t.Errorf("got %v at depth %v, want %v at %v", got, depth, test.want, test.depth)
			}
		})
	}
}

// A parallel projection square to the picture keeps all lengths, of which depth is one
// part, and does not mirror.
func TestProjectIsARotation(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		v := From(rnd.Float64()*7-3, rnd.Float64()*3-1.5)
		p := r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()}
		q := v.project(p)
		got := math.Sqrt(q.X*q.X + q.Y*q.Y + v.depth(p)*v.depth(p))
		if math.Abs(got-r3.Norm(p)) > 2e-15*r3.Norm(p) { // some roundings
			t.Errorf("%+v: a length of %v shows as %v", v, r3.Norm(p), got)
		}
		if mirrored := r3.Dot(r3.Cross(v.right, v.up), v.toward); math.Abs(mirrored-1) > 1e-15 {
			t.Errorf("%+v: right × up · toward = %v, want 1", v, mirrored)
		}
	}
}
