package page

import (
	"math"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// strokes returns the lines that a layer strokes on a sketch of 0 to 1 over 100 pt in
// both directions, and how many areas it fills.
func strokes(layer plot.Plotter) (lines []vg.Path, fills int) {
	var c recorder.Canvas
	s := unit()
	s.Canvas.Canvas = &c
	layerOf(layer).draw(s)
	for _, a := range c.Actions {
		switch a := a.(type) {
		case *recorder.Stroke:
			lines = append(lines, a.Path)
		case *recorder.Fill:
			fills++
		}
	}
	return lines, fills
}

func TestCurveIsPartedAtGaps(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	c := Curve{
		Points: columns(
			[]float64{0, 0.1, 0.2, 0.3, 0.4, 0.5, nan, 0.7, 0.8},
			[]float64{0, 0.1, nan, 0.3, nan, 0.5, 0.6, 0.7, 0.8}),
		Pen: Pen(0),
	}
	lines, dots := strokes(c)
	if len(lines) != 2 || dots != 2 {
		t.Fatalf("got %d lines and %d dots, want 2 lines and a dot for each of the 2 single points", len(lines), dots)
	}
	for i, want := range [][2]vg.Point{{{X: 0, Y: 0}, {X: 10, Y: 10}}, {{X: 70, Y: 70}, {X: 80, Y: 80}}} {
		if a, b := lines[i][0].Pos, lines[i][len(lines[i])-1].Pos; apart(a, want[0]) > 1e-9 || apart(b, want[1]) > 1e-9 {
			t.Errorf("line %d from %v to %v, want %v", i+1, a, b, want)
		}
	}
	if end := c.withEnd("end").sideLabels()[0].at; end != 0.8 {
		t.Errorf("label at %v, want the last value, 0.8", end)
	}
}

func (c Curve) withEnd(end string) Curve {
	c.End = end
	return c
}

func TestCurveStaysInTheDataArea(t *testing.T) {
	t.Parallel()
	lines, _ := strokes(Curve{Points: columns([]float64{-1, 0.5, 2}, []float64{0.5, 3, 0.5}), Pen: Pen(0), Marker: draw.CircleGlyph{}})
	for _, line := range lines {
		for _, c := range line {
			if c.Pos.X < -1e-9 || c.Pos.X > 100+1e-9 || c.Pos.Y < -1e-9 || c.Pos.Y > 100+1e-9 {
				t.Errorf("line through %v leaves the data area", c.Pos)
			}
		}
	}
	if _, markers := strokes(Curve{Points: columns([]float64{0.5, 2}, []float64{0.5, 0.5}), Pen: draw.LineStyle{Color: Ink}, Marker: draw.CircleGlyph{}}); markers != 1 {
		t.Errorf("got %d markers, want the one in the data area", markers)
	}
	if lines, _ := strokes(Rule{At: 1.5, Pen: Aid()}); len(lines) != 0 {
		t.Errorf("rule beyond the axis: got %v, want none", lines)
	}
}

func TestLabelsOfWhatIsNotShownAreLeftOut(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		y     Axis
		layer plot.Plotter
		want  int
	}{
		{"rule in view", Axis{Range: Interval{0, 1}}, Rule{At: 1, Label: "here", Pen: Limit()}, 1},
		{"rule beyond the axis", Axis{Range: Interval{0, 1}}, Rule{At: 2, Label: "here", Pen: Limit()}, 0},
		{"curve that ends beyond the axis", Axis{Range: Interval{0, 1}}, Curve{Points: columns([]float64{0, 1}, []float64{0, 2}), End: "here", Pen: Pen(0)}, 0},
		{"rule that a logarithmic axis cannot show", Axis{Log: true, Range: Interval{0.1, 10}}, Rule{At: 0, Label: "here", Pen: Limit()}, 0},
	} {
		f := &Figure{}
		f.Add(&Panel{X: Axis{Range: Interval{0, 1}}, Y: test.y, Layers: []plot.Plotter{test.layer}})
		p, err := f.arrange()
		if err != nil {
			t.Fatal(err)
		}
		got := 0
		for _, text := range inks(p) {
			if text.text == "here" {
				got++
			}
		}
		if got != test.want {
			t.Errorf("%s: got %d labels, want %d", test.name, got, test.want)
		}
	}
}

// TestCancelledLooksFlat holds that rounding noise stays below what can be seen once a
// floor is stated.
func TestCancelledLooksFlat(t *testing.T) {
	t.Parallel()
	f := &Figure{}
	f.Add(demoFlat())
	p, err := f.arrange()
	if err != nil {
		t.Fatal(err)
	}
	cell := p.cells[0]
	for _, p := range cell.Layers[0].(Curve).all() {
		v := p.Y
		if height := cell.y.norm(v) * cell.area.Size().Y.Points(); math.Abs(height-cell.area.Size().Y.Points()/2) > 1e-6 {
			t.Fatalf("value %v stands at %v pt, want the middle", v, height)
		}
	}
	found := false
	for _, text := range inks(p) {
		found = found || text.text == "axis no finer than ±0.1"
	}
	if !found {
		t.Error("the floor is not stated on the figure")
	}
}

func TestMarkKeepsItsNameInTheDataArea(t *testing.T) {
	t.Parallel()
	for _, side := range []Side{Middle, Right, Left, Above, Below, RightAbove, RightBelow, LeftAbove, LeftBelow} {
		for _, at := range []plotter.XY{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 0, Y: 1}, {X: 1, Y: 1}, {X: 0.5, Y: 0.5}} {
			if side == Middle {
				continue // centred on its point, it cannot but cross an edge there
			}
			var c recorder.Canvas
			s := unit()
			s.Canvas.Canvas = &c
			Mark{At: at, Text: "a name", Side: side, Color: Ink, Marker: draw.CircleGlyph{}}.draw(s)
			for _, a := range c.Actions {
				f, ok := a.(*recorder.FillString)
				if !ok {
					continue
				}
				box := vg.Rectangle{Min: f.Point, Max: vg.Point{X: f.Point.X + s.Name.Width(f.String), Y: f.Point.Y + capHeight*f.Size}}
				// Beside a point on the lower or upper edge, half a line stands beyond
				// it.
				area := vg.Rectangle{Min: vg.Point{Y: -f.Size / 2}, Max: vg.Point{X: 100, Y: 100 + f.Size/2}}
				if !within(box, area) {
					t.Errorf("side %v at %v: name at %v leaves %v", side, at, box, area)
				}
			}
		}
	}
}

// The label of a curve that ends within the axes stands there, not beside the data area.
func TestEndLabelStandsAtTheEnd(t *testing.T) {
	t.Parallel()
	p := &Panel{X: Axis{Range: Interval{Min: 0, Max: 10}}}
	p.Add(
		Curve{Points: plotter.XYs{{X: 0, Y: 1}, {X: 10, Y: 2}}, Pen: Pen(0), End: "far"},
		Curve{Points: plotter.XYs{{X: 0, Y: 3}, {X: 5, Y: 4}}, Pen: Pen(1), End: "near"},
	)
	f := &Figure{}
	f.Add(p)
	l, err := f.arrange()
	if err != nil {
		t.Fatal(err)
	}
	area, em := l.cells[0].area, lettersFor(l.size).Em()
	found := 0
	for _, ink := range inks(l) {
		gap := ink.Min.X - area.Max.X
		if ink.text == "near" {
			gap = ink.Min.X - (area.Min.X+area.Max.X)/2
		}
		if ink.text == "near" || ink.text == "far" {
			found++
			if gap < 0 || gap > 2*em {
				t.Errorf("%q stands %.1f pt behind the end of its curve, want 0 to %.1f", ink.text, gap.Points(), (2 * em).Points())
			}
		}
	}
	if found < 2 {
		t.Errorf("%d labels, want both", found)
	}
}
