package page

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// The files can be looked at: go test -run SameBytes -artifacts.
func TestSameFigureGivesSameBytes(t *testing.T) {
	t.Parallel()
	for name := range demos() {
		for _, format := range []Format{PNG, SVG, PDF} {
			t.Run(name+"/"+string(format), func(t *testing.T) {
				t.Parallel()
				coarse := Options{DPI: 96}
				first, err := Encode(demos()[name], format, coarse)
				if err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(filepath.Join(t.ArtifactDir(), name+"."+string(format)), first, 0o644); err != nil {
					t.Fatal(err)
				}
				if second, err := Encode(demos()[name], format, coarse); err != nil || !bytes.Equal(first, second) {
					t.Errorf("a second run gave other bytes, %v", err)
				}
			})
		}
	}
}

// svgTexts parses an SVG file, which must be well formed, and returns all that it shows
// as text.
func svgTexts(t *testing.T, svg []byte) []string {
	t.Helper()
	var texts []string
	decoder := xml.NewDecoder(bytes.NewReader(svg))
	inside := false
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return texts
		}
		if err != nil {
			t.Fatalf("SVG is not well formed: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			inside = token.Name.Local == "text"
		case xml.EndElement:
			inside = false
		case xml.CharData:
			if inside {
				texts = append(texts, string(token))
			}
		}
	}
}

func TestSVGHoldsText(t *testing.T) {
	t.Parallel()
	svg, err := Encode(demos()["sheet"], SVG, Options{})
	if err != nil {
		t.Fatal(err)
	}
	texts := "\n" + strings.Join(svgTexts(t, svg), "\n") + "\n"
	for _, want := range []string{
		"What is left at the axle, and why", "Two-piece rear driveline, invented", "2800 rpm", "0.1°",
		"speed deviation (ω − ω₁)/ω₁, %", "rotation of the first shaft θ, °", "0", "90", "180", "270", "360",
		"−0.5", "0.5", "1.0", "limit 1 %", "shaft 4", "axle pinion: what is left",
		"β₁ = 2.1°", "along, deg²", "amplitude, °", "10⁻⁷",
	} {
		if !strings.Contains(texts, "\n"+want+"\n") {
			t.Errorf("text %q is missing", want)
		}
	}
	if n := bytes.Count(svg, []byte("font-family=")); n != 1 || !bytes.Contains(svg, []byte(`font-family="'Liberation Sans',Arial,Helvetica,sans-serif"`)) {
		t.Errorf("%d fonts named, want the sans one with fallbacks, once", n)
	}
	if !bytes.Contains(svg, []byte(`aria-label="What is left at the axle, and why"`)) {
		t.Error("the root has no name for readers that speak")
	}
}

func TestSVGWithOutlinesHoldsNoText(t *testing.T) {
	t.Parallel()
	svg, err := Encode(demos()["sheet"], SVG, Options{Outlines: true})
	if err != nil {
		t.Fatal(err)
	}
	if texts := svgTexts(t, svg); len(texts) > 0 || bytes.Contains(svg, []byte("font-")) {
		t.Errorf("got texts %q, want none and no fonts", texts)
	}
}

// A fragment can stand in a page twice, under a policy that refuses style attributes.
func TestSVGFragment(t *testing.T) {
	t.Parallel()
	f := demos()["four"]
	file, err := Encode(f, SVG, Options{})
	if err != nil {
		t.Fatal(err)
	}
	fragment, err := Encode(f, SVG, Options{Fragment: "speed-"})
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(fragment, []byte("<svg ")) || bytes.Contains(fragment, []byte(" width=\"720")) {
		t.Errorf("got %.120q, want the element alone and no size", fragment)
	}
	ids := regexp.MustCompile(`id="([^"]*)"`)
	got, plain := ids.FindAllSubmatch(fragment, -1), ids.FindAllSubmatch(file, -1)
	seen := make(map[string]bool)
	for i, id := range got {
		if want := "speed-" + string(plain[i][1]); string(id[1]) != want || seen[want] {
			t.Errorf("id %q, want %q, once", id[1], want)
		}
		seen[string(id[1])] = true
	}
	if !seen["speed-panel-4"] || !seen["speed-panel-1-layer-2"] {
		t.Errorf("ids %v: want one for every panel and layer", seen)
	}
	if bytes.Contains(file, []byte("style=")) {
		t.Error("style attributes: want presentation attributes alone")
	}
}

// Whatever stands on a canvas is turned, moved and stretched as on any other.
func TestSVGTransforms(t *testing.T) {
	t.Parallel()
	c := newSVGCanvas(100, "")
	c.Push()
	c.Translate(vg.Point{X: 10, Y: 20})
	c.Rotate(math.Pi / 2)
	c.Scale(2, 3)
	var path vg.Path
	path.Move(vg.Point{X: 1, Y: 1})
	path.Line(vg.Point{X: 4, Y: 1})
	c.Fill(path)
	c.Pop()
	c.Fill(path)
	// Groups from the outside: up by 20 is −20; a quarter turn counterclockwise about the
	// lower left corner of the page; stretched from that corner.
	const want = `<g transform="translate(10 -20)">
<g transform="rotate(-90 0 100)">
<g transform="matrix(2 0 0 3 0 -200)">
<path d="M1 99L4 99" fill="#000000"/>
</g>
</g>
</g>
<path d="M1 99L4 99" fill="#000000"/>
`
	if got := string(c.buf); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestNamesFromOutsideCannotBreakAFile(t *testing.T) {
	t.Parallel()
	const name = "font-family:Liberation Sans;<b>&\"'\x00\x1b\n\xff\uFFFE車</text>"
	f := &Figure{Title: name, Subtitle: name, Caption: name, Facts: []Fact{{name, name}}}
	p := demoTurn(name, name)
	p.X.Label = name
	p.X.Ticker = plot.ConstantTicks{{Value: 0, Label: name}, {Value: 360, Label: "360"}}
	p.Add(
		Curve{Name: name, Points: columns([]float64{0, 360}, []float64{0, 1}), Pen: Accent(), End: name},
		Rule{At: 0.5, Label: name, Pen: Aid()},
		Rule{At: 90, Upright: true, Label: name, Pen: Aid()},
		Mark{At: plotter.XY{X: 180, Y: 0.5}, Text: name, Color: Ink, Marker: draw.CircleGlyph{}},
	)
	f.Add(p)
	for _, format := range []Format{PNG, SVG, PDF} {
		data, err := Encode(f, format, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if format == SVG {
			if texts := strings.Join(svgTexts(t, data), "\n"); !strings.Contains(texts, "font-family:Liberation Sans;<b>&\"' \uFFFD 車</text>") {
				t.Errorf("got texts %q, want the name without its control characters", texts)
			}
		}
	}
}

func TestPNGPixels(t *testing.T) {
	t.Parallel()
	f := demos()["flat"]
	data, err := Encode(f, PNG, Options{DPI: 72})
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := img.Bounds(), image.Rect(0, 0, 640, 400); got != want {
		t.Fatalf("got an image of %v, want %v", got, want)
	}
	p, err := f.arrange()
	if err != nil {
		t.Fatal(err)
	}
	area := p.cells[0].area
	middle := int(p.size.Height - (area.Min.Y+area.Max.Y)/2)
	for _, test := range []struct {
		name string
		x, y int
		want color.RGBA
	}{
		{"corner of the page", 0, 0, Paper},
		{"cancelled curve at its left end", int(area.Min.X) + 3, middle, Signal},
		{"cancelled curve at its right end", int(area.Max.X) - 3, middle, Signal},
		{"data area below the curve", int(area.Min.X) + 30, middle + 20, Paper},
	} {
		got := color.RGBAModel.Convert(img.At(test.x, test.y)).(color.RGBA)
		for _, d := range []int{int(got.R) - int(test.want.R), int(got.G) - int(test.want.G), int(got.B) - int(test.want.B)} {
			if max(d, -d) > 3 { // rounding of colours when lines are blended, not visible
				t.Errorf("%s: got %v, want %v", test.name, got, test.want)
			}
		}
	}
}

func TestMapPixels(t *testing.T) {
	t.Parallel()
	f := &Figure{}
	field := sampled(21, func(x, y float64) float64 { return 10 * x })
	p := &Panel{}
	p.Add(field)
	f.Add(p)
	img, err := f.render(72, (*layout).draw)
	if err != nil {
		t.Fatal(err)
	}
	arranged, err := f.arrange()
	if err != nil {
		t.Fatal(err)
	}
	cell := arranged.cells[0]
	y := img.Bounds().Max.Y - int((cell.area.Min.Y+cell.area.Max.Y)/2)
	for k := range cell.bar.bands() {
		x := cell.area.Min.X + cell.area.Size().X*vg.Length(2*k+1)/vg.Length(2*cell.bar.bands())
		got := color.RGBAModel.Convert(img.At(int(x), y))
		want := color.RGBAModel.Convert(cell.bar.colour(k))
		if got != want {
			t.Errorf("band %d at x = %v: got %v, want %v with no seam or smoothing", k, x, got, want)
		}
	}
}

func TestFormatOf(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		path string
		want Format
	}{{"a.png", PNG}, {"dir.svg/a.PDF", PDF}, {"x.y.Svg", SVG}, {"a.bmp", ""}, {"png", ""}, {"", ""}, {"a.", ""}, {"a.svg.gz", ""}} {
		got, err := FormatOf(test.path)
		if got != test.want || (err == nil) != (test.want != "") {
			t.Errorf("%q: got %q, %v, want %q", test.path, got, err, test.want)
		}
		if err != nil && !strings.Contains(err.Error(), "want .png, .svg or .pdf") {
			t.Errorf("%q: got %v, want an error that lists the endings", test.path, err)
		}
	}
}

func TestSave(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	good, bad := demos()["flat"], &Figure{Title: "no panels"}
	for _, test := range []struct {
		name, file string
		figure     *Figure
		options    Options
		want       string // in the error; empty for none
	}{
		{"png", "a.png", good, Options{}, ""},
		{"svg", "a.svg", good, Options{}, ""},
		{"pdf", "a.pdf", good, Options{}, ""},
		{"unknown ending", "b.jpeg", good, Options{}, "want .png, .svg or .pdf"},
		{"no such folder", "none/b.svg", good, Options{}, "no such file or directory"},
		{"figure that cannot be drawn", "b.svg", bad, Options{}, `figure "no panels": no panels`},
		{"resolution too low", "b.png", good, Options{DPI: 3}, "resolution: 3 dpi: want 20 to 1200 dpi"},
	} {
		err := Save(filepath.Join(dir, test.file), test.figure, test.options)
		if (err == nil) != (test.want == "") || (err != nil && !strings.Contains(err.Error(), test.want)) {
			t.Errorf("%s: got %v, want %q", test.name, err, test.want)
		}
	}
	if got := fmt.Sprint(names(t, dir)); got != "[a.pdf a.png a.svg]" {
		t.Errorf("folder holds %s, want the three good files alone", got)
	}
	for ending, start := range map[string]string{"png": "\x89PNG", "svg": "<?xml", "pdf": "%PDF-"} {
		if data, err := os.ReadFile(filepath.Join(dir, "a."+ending)); err != nil || !bytes.HasPrefix(data, []byte(start)) {
			t.Errorf("%s file begins with %.5q, %v, want %q", ending, data, err, start)
		}
	}
}

// TestWhatCannotBeDrawnIsAnError gives figures that the drawing library would hang or
// panic on, or draw wrongly.
func TestWhatCannotBeDrawnIsAnError(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	curve := func(x, y []float64) Curve { return Curve{Name: "c", Points: columns(x, y), Pen: Accent()} }
	good := curve([]float64{0, 1}, []float64{0, 1})
	square := sampled(3, func(x, y float64) float64 { return x })
	layer := func(layers ...plot.Plotter) *Figure {
		return &Figure{Rows: []Row{{Panels: []*Panel{{Layers: layers}}}}}
	}
	axis := func(x, y Axis) *Figure {
		return &Figure{Rows: []Row{{Panels: []*Panel{{X: x, Y: y, Layers: []plot.Plotter{good}}}}}}
	}
	page := func(s Size) *Figure { return &Figure{Size: s, Rows: layer(good).Rows} }
	field := func(change func(*Field)) *Figure {
		f := square
		change(&f)
		return layer(f)
	}
	for _, test := range []struct {
		name   string
		figure *Figure
		want   string
	}{
		{"no figure", nil, "figure: is nil"},
		{"no rows", &Figure{}, "no panels"},
		{"no panels in a row", &Figure{Rows: []Row{{}}}, "row 1: no panels"},
		{"no panel", &Figure{Rows: []Row{{Panels: []*Panel{nil}}}}, "panel 1: is nil"},
		{"no layers", layer(), "x axis: nothing to draw"},
		{"no layer", layer(nil), "layer 1: is nil"},
		{"no points", layer(curve(nil, nil)), `curve "c": no points`},
		{"gaps alone", layer(curve([]float64{0, 1}, []float64{nan, nan})), "no points"},
		{"no list of points", layer(Curve{Name: "c", Pen: Accent()}), `curve "c": no points`},
		{"infinite value", layer(curve([]float64{0, 1}, []float64{0, inf})), "point 2: (1, +Inf)"},
		{"huge values", layer(curve([]float64{0, 1}, []float64{-1e308, 1e308})), "y axis: data from -1e+308 to 1e+308"},
		{"no pen", layer(Curve{Points: columns([]float64{0}, []float64{0})}), "no pen"},
		{"NaN limit", axis(Axis{Range: Interval{nan, 1}}, Axis{}), "x axis: range: NaN to 1"},
		{"infinite limit", axis(Axis{}, Axis{Range: Interval{0, inf}}), "y axis: range: 0 to +Inf"},
		{"one number on an axis", axis(Axis{Ticker: plot.ConstantTicks{{Value: 0.5, Label: "a half"}}}, Axis{}), "1 numbers on the axis"},
		{"no value > 0 on a logarithmic axis", axis(Axis{}, Axis{Log: true, Range: Interval{-1, 1}}), "want values > 0"},
		{"rule at NaN", layer(good, Rule{At: nan, Pen: Aid()}), "layer 2: rule"},
		{"mark at NaN", layer(good, Mark{At: plotter.XY{X: 0, Y: nan}, Color: Ink, Marker: draw.RingGlyph{}}), "layer 2: mark"},
		{"mark without marker", layer(good, Mark{Color: Ink}), "no marker"},
		{"empty drawing", layer(Drawing{}), "drawing: nothing to draw"},
		{"drawing at infinity", layer(Drawing{Reach: []plotter.XY{{X: inf, Y: 0}}, Draw: func(*Sketch) {}}), "drawing: reach"},
		{"drawing at NaN", layer(good, Drawing{Draw: func(s *Sketch) { s.Polyline(Aid(), plotter.XY{X: 0, Y: nan}, plotter.XY{X: 1, Y: 1}) }}), "point (0, NaN): want finite"},
		{"equal units on a logarithmic axis", &Figure{Rows: []Row{{Panels: []*Panel{{Equal: true, Y: Axis{Log: true}, Layers: []plot.Plotter{good}}}}}}, "equal units"},
		{"field of one line", field(func(f *Field) { f.X = f.X[:1] }), "1 grid lines of x"},
		{"field of falling lines", field(func(f *Field) { f.Y = []float64{0, 2, 1} }), "grid line 3 of y"},
		{"field of too few rows", field(func(f *Field) { f.Z = f.Z[:2] }), "2 rows of values: want 3"},
		{"field of ragged rows", field(func(f *Field) { f.Z = [][]float64{{1, 2, 3}, {1}, {1, 2, 3}} }), "row 2: 1 values"},
		{"field of gaps", field(func(f *Field) { f.Z = [][]float64{{nan, nan, nan}, {nan, nan, nan}, {nan, nan, nan}} }), "colour scale: nothing to draw"},
		{"infinite field", field(func(f *Field) { f.Z = [][]float64{{1, 2, inf}, {1, 2, 3}, {1, 2, 3}} }), "want finite values"},
		{"contour at NaN", field(func(f *Field) { f.Contours = []Contour{{Level: nan, Pen: Limit()}} }), "contour"},
		{"page of no size", page(Size{Width: vg.Length(nan), Height: 400, Text: 10}), "page width: NaN pt"},
		{"page without text size", page(Size{Width: 400, Height: 400}), "text size: 0 pt"},
		{"border wider than the page", page(Size{Width: 400, Height: 400, Text: 10, Border: 300}), "page border: 300 pt"},
		{"page too small", &Figure{Title: "much too long", Size: Size{Width: 80, Height: 80, Text: 10}, Rows: layer(good).Rows}, "larger page"},
		{"image too large", page(Size{Width: 14400, Height: 14400, Text: 10}), "pixels: want at most"},
		{"a place for another number of panels", &Figure{Rows: layer(good).Rows, Held: make([]Place, 2)}, "2 held places: want 1"},
		{"a place off the page", &Figure{Rows: layer(good).Rows, Held: []Place{{
			Area: vg.Rectangle{Max: vg.Point{X: 700, Y: 100}}, Cell: vg.Rectangle{Max: vg.Point{X: 700, Y: 100}},
		}}}, "held place 1"},
		{"a place of no size", &Figure{Rows: layer(good).Rows, Held: make([]Place, 1)}, "held place 1"},
		{"no such place for a legend", &Figure{Legend: 9, Rows: layer(good).Rows}, "legend: 9"},
		{"negative height", &Figure{Rows: []Row{{Panels: layer(good).Rows[0].Panels, Height: -1}}}, "row 1: height: -1"},
		{"too many widths", &Figure{Rows: []Row{{Panels: layer(good).Rows[0].Panels, Widths: []float64{1, 2}}}}, "row 1: 2 widths"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			data, err := Encode(test.figure, PNG, Options{})
			if err == nil || data != nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %d bytes, %v, want an error with %q", len(data), err, test.want)
			}
		})
	}
	if _, err := Encode(layer(good), "gif", Options{}); err == nil || !strings.Contains(err.Error(), `"gif"`) {
		t.Errorf("unknown format: got %v, want an error that names it", err)
	}
}
