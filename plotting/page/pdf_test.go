package page

import (
	"bytes"
	"compress/zlib"
	"image"
	"image/color"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgpdf"
)

// pdfStreams returns the contents of all compressed streams in a PDF file.
func pdfStreams(t *testing.T, pdf []byte) []string {
	t.Helper()
	var streams []string
	for _, part := range bytes.Split(pdf, []byte("\nstream\n"))[1:] {
		r, err := zlib.NewReader(bytes.NewReader(part))
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		streams = append(streams, string(content))
	}
	return streams
}

// pdfOf returns the streams of a page on which draw drew.
func pdfOf(t *testing.T, draw func(c pdfCanvas)) []string {
	t.Helper()
	c := vgpdf.New(100, 100)
	draw(pdfCanvas{c})
	var buf bytes.Buffer
	if _, err := c.WriteTo(&buf); err != nil {
		t.Fatal(err)
	}
	return pdfStreams(t, buf.Bytes())
}

func TestPDFColoursAreStraight(t *testing.T) {
	t.Parallel()
	page := pdfOf(t, func(c pdfCanvas) { c.SetColor(color.NRGBA{R: 255, A: 64}) })[0]
	if want := "1.000 0.000 0.000 rg"; !strings.Contains(page, want) {
		t.Errorf("a quarter of red: want %q in\n%s", want, page)
	}
}

func TestPDFImagesStandUpright(t *testing.T) {
	t.Parallel()
	img := image.NewRGBA(image.Rect(0, 0, 1, 2))
	img.Set(0, 0, color.RGBA{R: 255, A: 255})
	img.Set(0, 1, color.RGBA{B: 255, A: 255})
	var pixels string
	for _, s := range pdfOf(t, func(c pdfCanvas) {
		c.DrawImage(vg.Rectangle{Max: vg.Point{X: 10, Y: 20}}, img)
	}) {
		if len(s) == 8 { // two rows of a filter byte and one pixel
			pixels = s
		}
	}
	// The page itself is drawn upside down, so the first row of the image is the lower
	// one. It has no row above from which a PNG filter could take differences.
	if len(pixels) != 8 || pixels[1:4] != "\x00\x00\xff" {
		t.Errorf("rows of the image: got %q, want the blue one first", pixels)
	}
}

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

// TestPDFHoldsNoText holds that no string reaches the canvas of the drawing library,
// whose encoding garbles it, that quadratic curves do not, and that nothing in the file
// tells when it was made.
func TestPDFHoldsNoText(t *testing.T) {
	t.Parallel()
	pdf, err := Encode(demos()["sheet"], PDF, Options{})
	if err != nil {
		t.Fatal(err)
	}
	page := strings.Join(pdfStreams(t, pdf), "\n")
	for _, operator := range []string{" Tj", " TJ", " v\n"} {
		if strings.Contains(page, operator) {
			t.Errorf("operator %q in the page: want none", operator)
		}
	}
	if curves := strings.Count(page, " c\n"); curves < 1000 {
		t.Errorf("%d curves in the page: want the outlines of all text", curves)
	}
	if bytes.Contains(pdf, []byte("/FontFile")) {
		t.Error("a font in the file: want none")
	}
	dates := regexp.MustCompile(`D:\d+`).FindAllString(string(pdf), -1)
	if len(dates) == 0 {
		t.Error("no dates found: the pattern that fixes them may no longer match")
	}
	for _, d := range dates {
		if d != "D:20000101000000" {
			t.Errorf("date %s: want the fixed one", d)
		}
	}
}
