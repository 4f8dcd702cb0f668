package page

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
)

// TestPDFIsTheSameAsSVG reads both files of a figure and compares all that they show, in
// the order in which it is drawn.
func TestPDFIsTheSameAsSVG(t *testing.T) {
	t.Parallel()
	for name, f := range demos() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			pdf, err := Encode(f, PDF, Options{})
			if err != nil {
				t.Fatal(err)
			}
			svg, err := Encode(f, SVG, Options{})
			if err != nil {
				t.Fatal(err)
			}
			r := readPDF(t, pdf)
			got := r.marks(r.pages()[0])
			at, texts := 0, 0
			for _, want := range svgMarks(t, svg, f.size().Height.Points()) {
				if at >= len(got) {
					t.Fatalf("%d marks: want more, such as %+v", len(got), want)
				}
				if want.kind == "S" || want.kind == "f" {
					comparePath(t, want, got[at])
				} else {
					compareText(t, want, got[at])
					texts++
				}
				at++
			}
			if at != len(got) || texts < 10 {
				t.Errorf("%d marks: want %d; %d texts compared", len(got), at, texts)
			}
		})
	}
}

func compareText(t *testing.T, want, got mark) {
	t.Helper()
	if got.kind != "text" {
		t.Fatalf("got %+v, want %+v", got, want)
	}
	across := map[string]vg.Length{"start": atStart, "middle": atMiddle, "end": atEnd}[want.kind]
	at := between(got.points[0], got.points[1], across)
	// Both files round lengths to 0.01, one the widths of letters to a thousandth of their
	// size.
	off := apart(at, want.points[0])
	if got.text != want.text || off > 0.015+0.001*want.size || got.size != want.size || got.colour != want.colour {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

func comparePath(t *testing.T, want, got mark) {
	t.Helper()
	if want.kind != got.kind || want.colour != got.colour || want.size != got.size || !slices.Equal(want.dashes, got.dashes) {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if want.curved { // in other pieces
		want.points = []vg.Point{want.points[0], want.points[len(want.points)-1]}
		got.points = []vg.Point{got.points[0], got.points[len(got.points)-1]}
	}
	if !slices.EqualFunc(want.points, got.points, func(p, q vg.Point) bool { return apart(p, q) < 0.0201 }) { // both rounded
		t.Errorf("points %v, want %v", got.points, want.points)
	}
}

// pageOf reads a document of one page on which draw drew.
func pageOf(t *testing.T, draw func(c vg.Canvas)) (r *pdfReader, page any, contents string) {
	t.Helper()
	d := newDocument()
	d.page(100, 100, draw)
	r = readPDF(t, d.file(""))
	page = r.pages()[0]
	return r, page, string(r.streams[r.at(page, "Contents").(reference)])
}

// TestPDFTransforms holds that what stands on a canvas is turned, moved and stretched as
// on any other, and that Pop brings back the width without which nothing is stroked.
func TestPDFTransforms(t *testing.T) {
	t.Parallel()
	_, _, got := pageOf(t, func(c vg.Canvas) {
		c.Push()
		c.SetLineWidth(0)
		c.Translate(vg.Point{X: 10, Y: 20})
		c.Rotate(math.Pi / 2)
		c.Scale(2, 3)
		c.Stroke(vg.Rectangle{Max: vg.Point{X: 1, Y: 1}}.Path())
		c.Pop()
		c.Stroke(vg.Path{{Type: vg.MoveComp}, {Type: vg.LineComp, Pos: vg.Point{X: 4.005, Y: -1}}})
		c.Fill(nil)
	})
	const want = `q
0 w
1.000000 0.000000 0.000000 1.000000 10.000000 20.000000 cm
0.000000 1.000000 -1.000000 0.000000 0.000000 0.000000 cm
2.000000 0.000000 0.000000 3.000000 0.000000 0.000000 cm
Q
0 0 m
4.01 -1 l
S
`
	if !strings.HasSuffix(got, want) {
		t.Errorf("got\n%s\nwant at its end\n%s", got, want)
	}
}

func TestPDFColoursAreStraight(t *testing.T) {
	t.Parallel()
	r, page, contents := pageOf(t, func(c vg.Canvas) { c.SetColor(color.NRGBA{R: 255, A: 64}) })
	if want := "/A64 gs\n1.000 0.000 0.000 rg 1.000 0.000 0.000 RG\n"; !strings.Contains(contents, want) {
		t.Errorf("a quarter of red: want %q in\n%s", want, contents)
	}
	for _, of := range []string{"ca", "CA"} {
		if got := r.at(page, "Resources", "ExtGState", "A64", of); got != 0.251 {
			t.Errorf("opacity of a quarter: %s is %v", of, got)
		}
	}
}

// TestPDFImagesStandUpright holds that rows go downward, as PDF has them (ISO 32000-1,
// 8.9.5.1), and fill their rectangle.
func TestPDFImagesStandUpright(t *testing.T) {
	t.Parallel()
	img := image.NewNRGBA(image.Rect(3, 5, 4, 7))
	img.Set(3, 5, color.NRGBA{R: 255, A: 255})
	img.Set(3, 6, color.NRGBA{B: 255, A: 128})
	r, page, contents := pageOf(t, func(c vg.Canvas) {
		c.DrawImage(vg.Rectangle{Min: vg.Point{X: 10, Y: 20}, Max: vg.Point{X: 40, Y: 60}}, img)
		c.DrawImage(vg.Rectangle{Max: vg.Point{X: 1, Y: 1}}, image.NewNRGBA(image.Rectangle{}))
	})
	if want := "30.000000 0.000000 0.000000 40.000000 10.000000 20.000000 cm\n/I1 Do\n"; !strings.Contains(contents, want) {
		t.Errorf("want %q in\n%s", want, contents)
	}
	ref := r.at(page, "Resources", "XObject", "I1").(reference)
	if got := r.streams[ref]; string(got) != "\xFF\x00\x00\x00\x00\xFF" {
		t.Errorf("colours % X, want the red row first", got)
	}
	if got := r.streams[r.at(ref, "SMask").(reference)]; string(got) != "\xFF\x80" {
		t.Errorf("opacities % X, want FF 80", got)
	}
	if got := fmt.Sprint(r.at(ref, "Width"), r.at(ref, "Height"), r.at(ref, "SMask", "Height")); got != "1 2 2" {
		t.Errorf("width, height and that of the mask: %s", got)
	}
}
