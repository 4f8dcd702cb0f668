package page

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"
)

// ink is a text on a page and the rectangle of its capitals and descenders.
type ink struct {
	text string
	vg.Rectangle
}

// inks returns all texts that a page draws.
func inks(p *layout) []ink {
	var c recorder.Canvas
	p.draw(&c)
	l := lettersFor(p.size)
	var out []ink
	for _, a := range c.Actions {
		f, ok := a.(*recorder.FillString)
		if !ok {
			continue
		}
		face := font.Face{Font: f.Font, Face: l.Name.face.Face}
		if f.Font.Weight == l.Title.face.Font.Weight {
			face.Face = l.Title.face.Face
		}
		face.Font.Size = f.Size
		_, width := layOut(face, f.String)
		out = append(out, ink{f.String, vg.Rectangle{
			Min: vg.Point{X: f.Point.X, Y: f.Point.Y - descent*f.Size},
			Max: vg.Point{X: f.Point.X + width, Y: f.Point.Y + capHeight*f.Size},
		}})
	}
	return out
}

func overlap(a, b vg.Rectangle) bool {
	const slack = 0.01 // pt: roundings, far below what can be seen
	return min(a.Max.X, b.Max.X)-max(a.Min.X, b.Min.X) > slack && min(a.Max.Y, b.Max.Y)-max(a.Min.Y, b.Min.Y) > slack
}

func within(a, b vg.Rectangle) bool {
	const slack = 0.01
	return a.Min.X > b.Min.X-slack && a.Max.X < b.Max.X+slack && a.Min.Y > b.Min.Y-slack && a.Max.Y < b.Max.Y+slack
}

// checkPage holds that no text leaves the page, covers another text or covers data, and
// that data areas line up.
func checkPage(t *testing.T, f *Figure, p *layout) {
	t.Helper()
	texts := inks(p)
	for i, a := range texts {
		if !within(a.Rectangle, f.size().inner()) {
			t.Errorf("text %q at %v leaves the page %v", a.text, a.Rectangle, f.size().inner())
		}
		for _, b := range texts[:i] {
			if overlap(a.Rectangle, b.Rectangle) {
				t.Errorf("texts %q at %v and %q at %v overlap", a.text, a.Rectangle, b.text, b.Rectangle)
			}
		}
		for _, cell := range p.cells {
			if overlap(a.Rectangle, cell.area) {
				t.Errorf("text %q at %v covers the data area %v", a.text, a.Rectangle, cell.area)
			}
		}
	}
	n := 0
	for _, row := range f.Rows {
		first := p.cells[n]
		for range row.Panels {
			if a := p.cells[n].area; a.Min.Y != first.area.Min.Y || a.Max.Y != first.area.Max.Y {
				t.Errorf("data areas %v and %v of one row do not line up", a, first.area)
			}
			n++
		}
		if a, b := first.area.Min.X, p.cells[0].area.Min.X; a != b {
			t.Errorf("first data areas begin at %v and %v: want them to line up", a, b)
		}
	}
}

// invented returns a figure of random make-up.
func invented(rnd *rand.Rand) *Figure {
	words := strings.Fields("front rear shaft pinion β₂ ω what is left of it intermediate axle Zwischenlager ±0.1° acceleration —")
	phrase := func(most int) string {
		var s []string
		for range rnd.IntN(most + 1) {
			s = append(s, words[rnd.IntN(len(words))])
		}
		return strings.Join(s, " ")
	}
	f := &Figure{
		Title: phrase(14), Subtitle: phrase(12), Caption: phrase(60),
		Legend: Placement(rnd.IntN(4)),
		Size:   []Size{{}, Slide, A4, landscape(Letter)}[rnd.IntN(4)],
	}
	for range rnd.IntN(6) {
		f.Facts = append(f.Facts, Fact{phrase(4), phrase(8)})
	}
	for range 1 + rnd.IntN(3) {
		var row Row
		for range 1 + rnd.IntN(3) {
			row.Panels = append(row.Panels, inventedPanel(rnd, phrase))
		}
		row.Height = 2 * rnd.Float64()
		f.Rows = append(f.Rows, row)
	}
	return f
}

func inventedPanel(rnd *rand.Rand, phrase func(int) string) *Panel {
	p := demoTurn(phrase(6), phrase(6))
	p.X.Bare, p.Y.Bare = rnd.IntN(4) == 0, rnd.IntN(6) == 0
	if rnd.IntN(5) == 0 {
		field := sampled(5, func(x, y float64) float64 { return x * y * 1e4 })
		field.Label = phrase(5)
		field.Void = phrase(5)
		p.X, p.Y.Least, p.Y.Ticker = Axis{Label: phrase(3)}, Interval{}, nil
		p.Add(field)
		return p
	}
	x := turn(8)
	scale := 1e-6 + 1e4*rnd.Float64()*rnd.Float64()
	for i := range 1 + rnd.IntN(12) {
		p.Add(Curve{Name: phrase(10), Points: columns(x, wave(x, scale*rnd.Float64(), 360*rnd.Float64())), Pen: Pen(i), End: phrase(2)})
	}
	if rnd.IntN(2) == 0 {
		p.Add(Rule{At: scale, Label: phrase(4), Pen: Limit()})
	}
	for range rnd.IntN(3) {
		p.Add(Rule{At: 360 * rnd.Float64(), Upright: true, Label: phrase(5), Pen: Aid()})
	}
	return p
}

func TestNoTextIsClippedOrCovered(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	small, drawn := 0, 0
	for i := range 120 {
		f := invented(rnd)
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			p, err := f.arrange()
			switch {
			case err != nil && strings.Contains(err.Error(), "larger page"):
				small++
			case err != nil:
				t.Error(err)
			default:
				drawn++
				checkPage(t, f, p)
			}
		})
	}
	if drawn < 50 {
		t.Errorf("%d figures drawn, %d refused for their size: want at least 50 drawn", drawn, small)
	}
}

func TestDemoPages(t *testing.T) {
	t.Parallel()
	for name, f := range demos() {
		if name == "sheet" || name == "slide" || name == "stack" {
			continue // they write on their data on purpose: names in drawings and marks
		}
		t.Run(name, func(t *testing.T) {
			p, err := f.arrange()
			if err != nil {
				t.Fatal(err)
			}
			checkPage(t, f, p)
		})
	}
}

func TestEqualUnitsAreEqual(t *testing.T) {
	t.Parallel()
	f := &Figure{}
	f.Add(demoVectors(), demoDrawing())
	p, err := f.arrange()
	if err != nil {
		t.Fatal(err)
	}
	for _, cell := range p.cells {
		cell.widen(cell.area.Size())
		x := cell.area.Size().X.Points() / (cell.x.Max - cell.x.Min)
		y := cell.area.Size().Y.Points() / (cell.y.Max - cell.y.Min)
		if x/y < 1-1e-12 || x/y > 1+1e-12 {
			t.Errorf("%s: %v pt a unit of x, %v of y: want equal", cell.Title, x, y)
		}
		for _, reach := range cell.Layers[0].(Drawing).Reach {
			if reach.X < cell.x.Min || reach.X > cell.x.Max || reach.Y < cell.y.Min || reach.Y > cell.y.Max {
				t.Errorf("%s: %v is not in view", cell.Title, reach)
			}
		}
	}
}

// Where equal units widen an axis, its numbers go on as far as it does.
func TestNumbersGoOnToTheEndsOfAWidenedAxis(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range 300 {
		f := &Figure{Title: "widened", Size: []Size{{}, Slide, A4}[rnd.IntN(3)]}
		for range 1 + rnd.IntN(2) {
			p := &Panel{Equal: true, X: Axis{Label: "x"}, Y: Axis{Label: "y"}}
			scale := math.Exp(6 * rnd.Float64())
			var points plotter.XYs
			for range 3 {
				points = append(points, plotter.XY{X: scale * rnd.NormFloat64(), Y: scale * rnd.NormFloat64()})
			}
			p.Add(Curve{Points: points, Pen: Pen(0)})
			f.Add(p)
		}
		l, err := f.arrange()
		if err != nil {
			t.Fatal(err)
		}
		for _, cell := range l.cells {
			cell.widen(cell.area.Size())
			for _, axis := range []scale{cell.x, cell.y} {
				ticks := axis.ticks
				step := ticks[1].Value - ticks[0].Value
				if first, last := ticks[0].Value-step, ticks[len(ticks)-1].Value+step; first >= axis.Min || last <= axis.Max {
					t.Errorf("axis from %g to %g has ticks from %g to %g only", axis.Min, axis.Max, ticks[0].Value, ticks[len(ticks)-1].Value)
				}
			}
		}
	}
}
