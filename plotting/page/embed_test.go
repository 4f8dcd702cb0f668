package page

import (
	"bytes"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
)

// abroad has letters of several scripts, composed ones, signs, small figures, and
// characters that the font lacks.
const abroad = "AVÄéñçø β₁·ω² = −10⁻⁷° Вал Άξονας 車 🚗 Å"

// TestPDFTextCanBeSearched holds that characters are read back as they were, also where
// another is drawn in their place, and that they take the room that is theirs.
func TestPDFTextCanBeSearched(t *testing.T) {
	t.Parallel()
	l := lettersFor(Single).Title
	r, page, _ := pageOf(t, func(c vg.Canvas) { l.Draw(c, vg.Point{X: 10, Y: 50}, atStart, 0, abroad) })
	got := r.marks(page)[0]
	if got.text != abroad {
		t.Errorf("got %q, want %q", got.text, abroad)
	}
	// Widths are in thousandths of the size, places in hundredths of a point.
	if end, want := got.points[1], (vg.Point{X: 10 + l.Width(abroad), Y: 50}); apart(end, want) > 0.005+0.001*got.size {
		t.Errorf("the text ends at %v, want %v", end, want)
	}
}

// TestFontThatIsNotTrueTypeIsDrawn: those of other layers may be of any kind.
func TestFontThatIsNotTrueTypeIsDrawn(t *testing.T) {
	t.Parallel()
	face := lettersFor(Single).Name.face
	d := newDocument()
	unsized := face
	unsized.Font.Size = 0
	d.fontOf[unsized] = nil
	d.page(100, 100, func(c vg.Canvas) { c.FillString(face, vg.Point{}, "H") })
	r := readPDF(t, d.file(""))
	marks := r.marks(r.pages()[0])
	if len(marks) != 1 || marks[0].kind != "f" || len(marks[0].points) < 12 {
		t.Errorf("got %+v, want the outline of a letter", marks)
	}
}

// TestSubset reads a font of some glyphs back and holds it against the one it is from.
func TestSubset(t *testing.T) {
	t.Parallel()
	e := embed(lettersFor(Single).Name.face)
	for _, char := range abroad {
		e.code(char, placeOf(char, 1).char)
	}
	file := e.tables.subset(e.glyphs)
	if sum := checksum(file); sum != 0xB1B0AFBA { // OpenType 1.9, "head"
		t.Errorf("sum of the file %X", sum)
	}
	got := readTrueType(file)
	n := bigEndian.Uint16(got["maxp"][4:])
	if int(n) <= len(e.glyphs) || bigEndian.Uint16(got["hhea"][34:]) != n || len(got["loca"]) != 4*(int(n)+1) || len(got["hmtx"]) != 4*int(n) {
		t.Fatalf("%d glyphs, want more than %d, and tables for each", n, len(e.glyphs))
	}
	composed := 0
	var compare func(i uint16, g setGlyph)
	compare = func(i uint16, g setGlyph) {
		glyph := bytes.Clone(got.glyph(i))
		want, metrics := e.tables.set(g)
		if !bytes.Equal(got.metrics(i), metrics) {
			t.Errorf("glyph %d: metrics % X, want % X", i, got.metrics(i), metrics)
		}
		pieces := parts(want)
		for k, part := range parts(glyph) {
			composed++
			compare(bigEndian.Uint16(part), setGlyph{index: bigEndian.Uint16(pieces[k]), size: 1})
			copy(part, pieces[k])
		}
		if !bytes.Equal(bytes.TrimRight(glyph, "\x00"), bytes.TrimRight(want, "\x00")) {
			t.Errorf("glyph %d is not %v of the font", i, g)
		}
	}
	for i, g := range e.glyphs {
		compare(uint16(i), g)
	}
	if composed < 14 {
		t.Errorf("%d parts of composed glyphs compared, want those of Ä, é, ñ, ç, Å and four small figures", composed)
	}
}

// TestSmallFigures holds glyphs that are composed of a full one against the outlines that
// other canvases fill.
func TestSmallFigures(t *testing.T) {
	t.Parallel()
	face := lettersFor(Single).Name.face
	e := embed(face)
	face.Font.Size = vg.Length(e.tables.perEm())
	for _, char := range "₁²⁻" {
		g := e.glyphs[e.code(char, placeOf(char, 1).char)]
		left, bottom, right, top := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, c := range outline(face, vg.Point{}, string(char)) {
			if c.Type == vg.CloseComp {
				continue
			}
			for _, p := range append(c.Control, c.Pos) {
				left, bottom = min(left, float64(p.X)), min(bottom, float64(p.Y))
				right, top = max(right, float64(p.X)), max(top, float64(p.Y))
			}
		}
		glyph, metrics := e.tables.set(g)
		full := e.tables.glyph(g.index)
		number := func(b []byte) float64 { return float64(int16(bigEndian.Uint16(b))) }
		scale := number(glyph[18:]) / (1 << 14)
		for i, want := range []float64{left, bottom, right, top} {
			shift := number(glyph[14+2*(i%2):])
			// The numbers of a font are whole.
			if box, part := number(glyph[2+2*i:]), scale*number(full[2+2*i:])+shift; math.Abs(box-want) > 0.51 || math.Abs(part-want) > 1 {
				t.Errorf("%c: corner %d at %v and, of the part, at %v, want %v", char, i, box, part, want)
			}
		}
		if bearing := number(metrics[2:]); math.Abs(bearing-left) > 0.51 {
			t.Errorf("%c: left bearing %v, want %v", char, bearing, left)
		}
	}
}

// TestPopplerDrawsAndReadsText has another program draw letters by the font in a file,
// and by their outlines, and read them.
func TestPopplerDrawsAndReadsText(t *testing.T) {
	t.Parallel()
	for _, program := range []string{"pdftoppm", "pdftotext"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skip(err)
		}
	}
	l := lettersFor(Size{Text: 30}).Title
	d := newDocument()
	d.page(1000, 100, func(c vg.Canvas) { c.FillString(l.face, vg.Point{X: 10, Y: 30}, abroad) })
	d.page(1000, 100, func(c vg.Canvas) { c.Fill(outline(l.face, vg.Point{X: 10, Y: 30}, abroad)) })
	file := filepath.Join(t.TempDir(), "text.pdf")
	if err := os.WriteFile(file, d.file("text"), 0o600); err != nil {
		t.Fatal(err)
	}
	run := func(name string, args ...string) []byte {
		var faults bytes.Buffer
		cmd := exec.Command(name, args...)
		cmd.Stderr = &faults
		out, err := cmd.Output()
		if err != nil || faults.Len() > 0 {
			t.Fatalf("%s: %v %s", name, err, &faults)
		}
		return out
	}
	if text := strings.Join(strings.Fields(string(run("pdftotext", file, "-"))), " "); text != abroad {
		t.Errorf("read %q, want %q", text, abroad)
	}
	draw := func(page string) func(x, y int) uint32 {
		img, err := png.Decode(bytes.NewReader(run("pdftoppm", "-r", "216", "-f", page, "-l", page, "-png", file)))
		if err != nil {
			t.Fatal(err)
		}
		return func(x, y int) uint32 { g, _, _, _ := img.At(x, y).RGBA(); return 255 - g>>8 }
	}
	text, outlines := draw("1"), draw("2")
	var ink, off uint32
	for y := range 300 {
		for x := range 3000 {
			a, b := text(x, y), outlines(x, y)
			ink, off = ink+b, off+max(a, b)-min(a, b)
		}
	}
	// The edges of letters are blended otherwise than those of areas.
	if ink == 0 || float64(off) > 0.1*float64(ink) {
		t.Errorf("the two differ by %d of %d", off, ink)
	}
}
