package page

import (
	"math"
	"testing"

	"gonum.org/v1/plot/vg"
)

func TestCubicKeepsQuadraticCurves(t *testing.T) {
	t.Parallel()
	a, q, b := vg.Point{X: 1, Y: 2}, vg.Point{X: 30, Y: 50}, vg.Point{X: 60, Y: -7}
	var path vg.Path
	path.Move(a)
	path.QuadTo(q, b)
	got := cubic(path)
	if len(got) != 2 || len(got[1].Control) != 2 {
		t.Fatalf("got %v, want a move and a cubic curve", got)
	}
	c1, c2 := got[1].Control[0], got[1].Control[1]
	for _, f := range []vg.Length{0, 0.1, 0.5, 0.9, 1} {
		want := between(between(a, q, f), between(q, b, f), f)
		ab, bc, cd := between(a, c1, f), between(c1, c2, f), between(c2, b, f)
		if at := between(between(ab, bc, f), between(bc, cd, f), f); apart(at, want) > 1e-12 {
			t.Errorf("at %v: got %v, want %v", f, at, want)
		}
	}
}

func TestCubicKeepsArcs(t *testing.T) {
	t.Parallel()
	centre := vg.Point{X: 5, Y: -3}
	const radius = 40
	for _, arc := range []struct{ start, sweep float64 }{
		{0, 2 * math.Pi}, {0.3, 0.1}, {-1, -2}, {2, 4}, {0, -2 * math.Pi}, {1, 0},
	} {
		var path vg.Path
		path.Move(vg.Point{X: 100, Y: 100})
		path.Arc(centre, radius, arc.start, arc.sweep)
		got := cubic(path)
		at := vg.Point{X: centre.X + radius*vg.Length(math.Cos(arc.start)), Y: centre.Y + radius*vg.Length(math.Sin(arc.start))}
		if got[1].Type != vg.LineComp || apart(got[1].Pos, at) > 1e-12*radius {
			t.Errorf("arc %v: begins with %v, want a line to %v", arc, got[1], at)
		}
		for _, c := range got[2:] {
			for f := vg.Length(0); f <= 1; f += 1. / 16 {
				ab, bc, cd := between(at, c.Control[0], f), between(c.Control[0], c.Control[1], f), between(c.Control[1], c.Pos, f)
				r := apart(between(between(ab, bc, f), between(bc, cd, f), f), centre)
				if math.Abs(r/radius-1) > 3e-4 { // the known error of a quarter turn is 2.7e-4
					t.Errorf("arc %v: radius %v, want %v", arc, r, radius)
				}
			}
			at = c.Pos
		}
		end := arc.start + arc.sweep
		if want := (vg.Point{X: centre.X + radius*vg.Length(math.Cos(end)), Y: centre.Y + radius*vg.Length(math.Sin(end))}); apart(at, want) > 1e-12*radius {
			t.Errorf("arc %v: ends at %v, want %v", arc, at, want)
		}
	}
}

func apart(p, q vg.Point) float64 {
	return math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y))
}
