package page

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// pdfCanvas is a canvas that writes a page of a PDF document (ISO 32000-1). That of the
// drawing library writes the letters of Western Europe alone, turns arcs and images about
// and darkens what is translucent.
type pdfCanvas struct {
	doc    *document
	buf    []byte
	widths []vg.Length // of lines: the one in use, after those that Pop brings back
}

func newPDFCanvas(d *document) *pdfCanvas {
	c := &pdfCanvas{doc: d, widths: make([]vg.Length, 1)}
	c.add("1 j\n") // round joins do not overshoot at sharp turns
	vg.Initialize(c)
	return c
}

func (c *pdfCanvas) SetColor(clr color.Color) {
	if clr == nil {
		clr = color.Black
	}
	p := color.NRGBAModel.Convert(clr).(color.NRGBA)
	c.opacity(p.A)
	r, g, b := float64(p.R)/0xFF, float64(p.G)/0xFF, float64(p.B)/0xFF
	c.buf = fmt.Appendf(c.buf, "%.3f %.3f %.3f rg %.3[1]f %.3[2]f %.3[3]f RG\n", r, g, b)
}

func (c *pdfCanvas) opacity(a uint8) {
	c.doc.opacities[a] = true
	c.add("/A", strconv.Itoa(int(a)), " gs\n")
}

func (c *pdfCanvas) SetLineWidth(w vg.Length) {
	c.widths[len(c.widths)-1] = w
	c.numbers(max(w, 0).Points())
	c.add("w\n")
}

func (c *pdfCanvas) SetLineDash(dashes []vg.Length, offset vg.Length) {
	c.add("[ ")
	for _, d := range dashes {
		c.numbers(d.Points())
	}
	c.add("] ")
	c.numbers(offset.Points())
	c.add("d\n")
}

func (c *pdfCanvas) Rotate(angle float64) {
	sin, cos := math.Sincos(angle)
	c.transform(cos, sin, -sin, cos, 0, 0)
}

func (c *pdfCanvas) Translate(p vg.Point) { c.transform(1, 0, 0, 1, p.X.Points(), p.Y.Points()) }
func (c *pdfCanvas) Scale(x, y float64)   { c.transform(x, 0, 0, y, 0, 0) }

func (c *pdfCanvas) transform(matrix ...float64) {
	for _, v := range matrix {
		c.buf = strconv.AppendFloat(c.buf, v, 'f', 6, 64)
		c.add(" ")
	}
	c.add("cm\n")
}

func (c *pdfCanvas) Push() {
	c.widths = append(c.widths, c.widths[len(c.widths)-1])
	c.add("q\n")
}

func (c *pdfCanvas) Pop() {
	c.widths = c.widths[:len(c.widths)-1]
	c.add("Q\n")
}

func (c *pdfCanvas) Fill(path vg.Path) { c.paint(path, "f\n") }

func (c *pdfCanvas) Stroke(path vg.Path) {
	if c.widths[len(c.widths)-1] > 0 {
		c.paint(path, "S\n")
	}
}

// paint writes a path and the operator that paints it.
func (c *pdfCanvas) paint(path vg.Path, operator string) {
	if len(path) == 0 {
		return
	}
	for _, comp := range cubic(path) {
		switch comp.Type {
		case vg.MoveComp:
			c.points("m\n", comp.Pos)
		case vg.LineComp:
			c.points("l\n", comp.Pos)
		case vg.CurveComp:
			c.points("c\n", comp.Control[0], comp.Control[1], comp.Pos)
		case vg.CloseComp:
			c.add("h\n")
		}
	}
	c.add(operator)
}

// points writes points and the operator that takes them.
func (c *pdfCanvas) points(operator string, points ...vg.Point) {
	for _, p := range points {
		c.numbers(p.X.Points(), p.Y.Points())
	}
	c.add(operator)
}

// FillString writes a line of text. A font that cannot be embedded is drawn.
func (c *pdfCanvas) FillString(f font.Face, at vg.Point, s string) {
	font := c.doc.font(f)
	if font == nil {
		c.Fill(outline(f, at, s))
		return
	}
	c.add("BT /", font.name, " ")
	c.numbers(f.Font.Size.Points())
	c.add("Tf ")
	c.points("Td [<", at)
	s = clean(s)
	places, _ := layOut(f, s)
	unit := f.Font.Size / 1000 // of widths and of what is set closer
	var pen vg.Length          // where the next character would stand
	for i, char := range []rune(s) {
		p := places[i]
		if closer := math.Round(float64((pen - p.x) / unit)); closer != 0 {
			c.buf = fmt.Appendf(c.buf, ">%.0f<", closer)
			pen -= vg.Length(closer) * unit
		}
		code := font.code(char, p.char)
		c.buf = fmt.Appendf(c.buf, "%04X", code)
		pen += vg.Length(font.widths[code]) * unit
	}
	c.add(">] TJ ET\n")
}

// DrawImage implements vg.Canvas.
func (c *pdfCanvas) DrawImage(r vg.Rectangle, img image.Image) {
	if img.Bounds().Empty() {
		return
	}
	c.Push()
	c.opacity(0xFF)
	c.transform(r.Size().X.Points(), 0, 0, r.Size().Y.Points(), r.Min.X.Points(), r.Min.Y.Points())
	c.add("/", c.doc.image(img), " Do\n")
	c.Pop()
}

// numbers writes numbers to a hundredth, each with a space behind it.
func (c *pdfCanvas) numbers(values ...float64) {
	for _, v := range values {
		c.buf = append(appendNumber(c.buf, v), ' ')
	}
}

func (c *pdfCanvas) add(parts ...string) {
	for _, p := range parts {
		c.buf = append(c.buf, p...)
	}
}
