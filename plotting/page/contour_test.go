package page

import (
	"math"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// sampled returns a field of n × n samples over 0 to 1 in both directions.
func sampled(n int, z func(x, y float64) float64) Field {
	f := Field{X: make([]float64, n), Y: make([]float64, n), Z: make([][]float64, n)}
	for i := range n {
		f.X[i] = float64(i) / float64(n-1)
		f.Y[i] = f.X[i]
	}
	for j := range n {
		f.Z[j] = make([]float64, n)
		for i := range n {
			f.Z[j][i] = z(f.X[i], f.Y[j])
		}
	}
	return f
}

// unit is a sketch on which 0 to 1 is 100 pt in both directions.
func unit() *Sketch {
	f := &fitted{Panel: new(Panel), letters: lettersFor(Single)}
	f.x.Interval, f.y.Interval = Interval{0, 1}, Interval{0, 1}
	return f.sketch(draw.Canvas{Rectangle: vg.Rectangle{Max: vg.Point{X: 100, Y: 100}}})
}

// areaOf sums the areas of closed polygons, counterclockwise ones positive.
func areaOf(path vg.Path) float64 {
	var sum float64
	var start, at vg.Point
	side := func(p vg.Point) { sum += float64(at.X*p.Y-p.X*at.Y) / 2 }
	for _, c := range path {
		switch c.Type {
		case vg.MoveComp:
			start = c.Pos
		case vg.LineComp:
			side(c.Pos)
		case vg.CloseComp:
			side(start)
		}
		at = c.Pos
	}
	return sum
}

func TestAboveHasTheRightArea(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for _, test := range []struct {
		name             string
		z                func(x, y float64) float64
		level            float64
		area, tolerance  float64 // of 1
		lines            int
		length, lengthTo float64
	}{
		// A plane is interpolated without error: only roundings are left.
		{"upright edge", func(x, y float64) float64 { return x }, 0.37, 0.63, 1e-12, 1, 1, 1e-12},
		{"slanting edge", func(x, y float64) float64 { return x + y }, 0.5, 0.875, 1e-12, 1, math.Sqrt(0.5), 1e-12},
		{"all", func(x, y float64) float64 { return 1 }, 0.5, 1, 1e-12, 0, 0, 0},
		{"nothing", func(x, y float64) float64 { return 1 }, 1.5, 0, 0, 0, 0, 0},
		// Chords of a circle of radius 0.3 between grid lines 0.01 apart cut off less
		// than h²/(8r) = 4e-5 of its radius.
		{"disc", func(x, y float64) float64 { return -math.Hypot(x-0.5, y-0.5) }, -0.3, math.Pi * 0.09, 1e-4, 1, 2 * math.Pi * 0.3, 1e-3},
		{"hole", func(x, y float64) float64 { return math.Hypot(x-0.5, y-0.5) }, 0.3, 1 - math.Pi*0.09, 1e-4, 1, 2 * math.Pi * 0.3, 1e-3},
		{"half missing", func(x, y float64) float64 {
			if x > 0.5 {
				return nan
			}
			return y
		}, 0.25, 0.375, 1e-12, 1, 0.5, 1e-12},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			area, pieces := sampled(101, test.z).above(unit(), test.level)
			if got := areaOf(area) / 1e4; math.Abs(got-test.area) > test.tolerance {
				t.Errorf("area: got %v, want %v ± %v", got, test.area, test.tolerance)
			}
			lines := chained(pieces)
			if len(lines) != test.lines {
				t.Errorf("got %d lines, want %d", len(lines), test.lines)
			}
			length := 0.
			for _, line := range lines {
				for i := range line[1:] {
					length += apart(line[i].Pos, line[i+1].Pos) / 100
				}
			}
			if math.Abs(length-test.length) > test.lengthTo {
				t.Errorf("length of the lines: got %v, want %v ± %v", length, test.length, test.lengthTo)
			}
		})
	}
}

func TestSaddleJoinsWhatIsAbove(t *testing.T) {
	t.Parallel()
	f := Field{X: []float64{0, 1}, Y: []float64{0, 1}, Z: [][]float64{{1, 0}, {0, 1}}}
	area, pieces := f.above(unit(), 0.5)
	if got := areaOf(area) / 1e4; math.Abs(got-0.75) > 1e-12 { // all but two corners of 1/8
		t.Errorf("area: got %v, want 0.75", got)
	}
	if len(chained(pieces)) != 2 {
		t.Errorf("got lines %v, want two", pieces)
	}
}

func TestColourBarHasRoundBands(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name        string
		z           func(x, y float64) float64
		first, last float64
		bands       int
	}{
		{"widened to round levels", func(x, y float64) float64 { return 3 + 94*x }, 0, 100, 10},
		{"round already", func(x, y float64) float64 { return 0.5 * x }, 0, 0.5, 10},
		{"about zero", func(x, y float64) float64 { return 3 - 5*x }, -2, 3, 10},
		{"one value, and noise", func(x, y float64) float64 { return 40 + 1e-12*x }, 38, 42, 8},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			bar, err := sampled(11, test.z).colourBar()
			if err != nil {
				t.Fatal(err)
			}
			if first, last := bar.edges[0], bar.edges[len(bar.edges)-1]; first != test.first || last != test.last || bar.bands() != test.bands {
				t.Errorf("got %d bands over %v, want %d from %v to %v", bar.bands(), bar.edges, test.bands, test.first, test.last)
			}
		})
	}
}
