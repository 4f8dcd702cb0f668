package plotting

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// newCase returns a driveline of slopes (down, right) and phases in degrees with short
// names.
func newCase(t testing.TB, rpm float64, slopes [][2]float64, phases ...float64) *Case {
	t.Helper()
	shafts := make([]kinematics.Shaft, len(slopes))
	c := &Case{Name: "a case", RPM: rpm}
	for k, s := range slopes {
		shafts[k].Axis = kinematics.AxisFromSlopes(s[0]*kinematics.Degree, s[1]*kinematics.Degree)
		if 0 < k && k <= len(phases) {
			shafts[k].Phase = phases[k-1] * kinematics.Degree
		}
		c.Shafts = append(c.Shafts, "shaft "+string(rune('A'+k)))
		if k > 0 {
			c.Joints = append(c.Joints, "joint "+string(rune('a'+k-1)))
		}
	}
	var err error
	if c.Driveline, err = kinematics.New(shafts, nil); err != nil {
		t.Fatal(err)
	}
	c.Analysis = c.Driveline.Analyse()
	return c
}

// twoPiece is a driveline with a twisted plane and a phase.
func twoPiece(t testing.TB) *Case {
	return newCase(t, 2800, [][2]float64{{3.4, 0}, {3.8, 0}, {6.1, 1.2}, {4, 0}}, 0, 5)
}

// curve returns the curve of a panel that has a name.
func curve(t *testing.T, p *page.Panel, name string) page.Curve {
	t.Helper()
	for _, layer := range p.Layers {
		if c, ok := layer.(page.Curve); ok && c.Name == name {
			return c
		}
	}
	t.Fatalf("panel %q: no curve %q", p.Title, name)
	return page.Curve{}
}

// turningCases are drivelines of all kinds of joints.
func turningCases(t testing.TB) map[string]*Case {
	t.Helper()
	twelve := make([][2]float64, 12)
	for k := range twelve {
		twelve[k] = [2]float64{float64(k*k%7) * 1.5, float64(k*5%9) - 4}
	}
	return map[string]*Case{
		"single, 35°":       newCase(t, 500, [][2]float64{{0, 0}, {35, 0}}),
		"two-piece":         twoPiece(t),
		"planes twisted":    newCase(t, 1000, [][2]float64{{0, 0}, {20, 0}, {20, 25}, {5, 0}}, 30, -50),
		"double-cardan":     ofKinds(t, newCase(t, 0, [][2]float64{{0, 0}, {30, 8}, {25, 8}}), kinematics.Joint{Kind: kinematics.DoubleCardan, Synchronous: 0.5}, kinematics.Joint{}),
		"constant-velocity": ofKinds(t, newCase(t, 3000, [][2]float64{{2, 0}, {20, 0}, {4, 3}}), kinematics.Joint{Kind: kinematics.ConstantVelocity}, kinematics.Joint{}),
		"straight":          newCase(t, 0, [][2]float64{{0, 0}, {0, 0}, {0, 0}}),
		"twelve shafts":     newCase(t, 2800, twelve),
	}
}

// ofKinds returns a case with other joints.
func ofKinds(t testing.TB, c *Case, joints ...kinematics.Joint) *Case {
	t.Helper()
	var err error
	if c.Driveline, err = kinematics.New(c.Driveline.Shafts(), joints); err != nil {
		t.Fatal(err)
	}
	c.Analysis = c.Driveline.Analyse()
	return c
}

// drawn returns a figure as SVG.
func drawn(t *testing.T, f *page.Figure) string {
	t.Helper()
	svg, err := page.Encode(f, page.SVG, page.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return string(svg)
}

// columns returns the points of a curve as two lists.
func columns(c page.Curve) (x, y []float64) {
	for i := range c.Points.Len() {
		px, py := c.Points.XY(i)
		x, y = append(x, px), append(y, py)
	}
	return x, y
}

// ink is a text on a page and the rectangle of its capitals and descenders.
type ink struct {
	text string
	vg.Rectangle
}

// inks returns the texts of a figure, as its SVG file holds them, but those in bold.
func inks(t *testing.T, f *page.Figure) []ink {
	t.Helper()
	var sketch *page.Sketch
	probe := &page.Figure{}
	probe.Add(&page.Panel{Layers: []plot.Plotter{page.Drawing{Reach: ownPlace, Draw: func(s *page.Sketch) { sketch = s }}}})
	drawn(t, probe)

	height := f.Size.Height
	if f.Size == (page.Size{}) {
		height = page.Single.Height
	}
	var out []ink
	for d := xml.NewDecoder(strings.NewReader(drawn(t, f))); ; {
		token, err := d.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "text" {
			continue
		}
		var text struct {
			X      vg.Length `xml:"x,attr"`
			Y      vg.Length `xml:"y,attr"`
			Size   vg.Length `xml:"font-size,attr"`
			Anchor string    `xml:"text-anchor,attr"`
			Weight string    `xml:"font-weight,attr"`
			Text   string    `xml:",chardata"`
		}
		if err := d.DecodeElement(&text, &start); err != nil {
			t.Fatal(err)
		}
		if text.Weight != "" {
			continue
		}
		const nameSize = 0.95 // of the text size
		width := sketch.Name.Width(text.Text) * text.Size / (nameSize * sketch.Em())
		left := text.X - width*map[string]vg.Length{"middle": 0.5, "end": 1}[text.Anchor]
		out = append(out, ink{text.Text, vg.Rectangle{
			Min: vg.Point{X: left, Y: height - text.Y - 0.21*text.Size},
			Max: vg.Point{X: left + width, Y: height - text.Y + 0.69*text.Size},
		}})
	}
}

const slack = 0.05 // pt: roundings of the file, far below what can be seen

func overlap(a, b vg.Rectangle) bool {
	return min(a.Max.X, b.Max.X)-max(a.Min.X, b.Min.X) > slack && min(a.Max.Y, b.Max.Y)-max(a.Min.Y, b.Min.Y) > slack
}

// keepApart holds that no text stands on another.
func keepApart(t *testing.T, texts []ink) {
	t.Helper()
	for i, a := range texts {
		for _, b := range texts[:i] {
			if overlap(a.Rectangle, b.Rectangle) {
				t.Errorf("texts %q and %q overlap", a.text, b.text)
			}
		}
	}
}

// onPage reports whether a rectangle is within the border of a page.
func onPage(r vg.Rectangle, s page.Size) bool {
	return r.Min.X > s.Border-slack && r.Max.X < s.Width-s.Border+slack && r.Min.Y > s.Border-slack && r.Max.Y < s.Height-s.Border+slack
}

// strokes returns the lines that a drawing strokes.
func strokes(t *testing.T, d page.Drawing) []vg.Path {
	t.Helper()
	var c recorder.Canvas
	f := &page.Figure{}
	f.Add(&page.Panel{Bare: true, Layers: []plot.Plotter{d}})
	if err := f.Draw(draw.NewCanvas(&c, 640, 400)); err != nil {
		t.Fatal(err)
	}
	var lines []vg.Path
	for _, a := range c.Actions {
		if s, ok := a.(*recorder.Stroke); ok {
			lines = append(lines, s.Path)
		}
	}
	return lines
}
