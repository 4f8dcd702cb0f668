package page

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"regexp"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgpdf"
)

// pdfCanvas is the PDF canvas of the drawing library with its faults mended: as it comes,
// text outside Western European letters turns into other characters ("β = 10°" shows "Î²
// = 10Â°"), so text must reach it as outlines; quadratic curves are written with an
// operator for another curve; arcs are drawn apart from their path and turned;
// translucent colours come out too dark; images stand on their heads. These two only
// layers of other packages draw.
type pdfCanvas struct {
	*vgpdf.Canvas
}

func (c pdfCanvas) SetColor(clr color.Color) {
	if clr == nil {
		clr = color.Black
	}
	c.Canvas.SetColor(straight(color.NRGBAModel.Convert(clr).(color.NRGBA)))
}

func (c pdfCanvas) Stroke(p vg.Path) {
	c.Canvas.Stroke(cubic(p))
}

func (c pdfCanvas) Fill(p vg.Path) {
	c.Canvas.Fill(cubic(p))
}

func (c pdfCanvas) DrawImage(rect vg.Rectangle, img image.Image) {
	b := img.Bounds()
	flipped := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		row := image.Rect(0, y, b.Dx(), y+1)
		draw.Draw(flipped, row, img, image.Pt(b.Min.X, b.Max.Y-1-y), draw.Src)
	}
	c.Canvas.DrawImage(rect, flipped)
}

// straight is a colour that reports its channels unmultiplied by alpha, as PDF wants
// them.
type straight color.NRGBA

func (s straight) RGBA() (r, g, b, a uint32) {
	return uint32(s.R) * 0x101, uint32(s.G) * 0x101, uint32(s.B) * 0x101, uint32(s.A) * 0x101
}

// cubic returns the same path with its quadratic curves and arcs as cubic curves. A
// quadratic curve becomes the same curve; an arc keeps its radius to 3e-4 of it, since no
// piece is longer than a quarter turn.
func cubic(p vg.Path) vg.Path {
	out := make(vg.Path, 0, len(p))
	var at vg.Point
	for _, comp := range p {
		switch {
		case comp.Type == vg.CurveComp && len(comp.Control) == 1:
			q := comp.Control[0]
			out.CubeTo(between(at, q, 2./3), between(comp.Pos, q, 2./3), comp.Pos)
		case comp.Type == vg.ArcComp:
			out = appendArc(out, comp)
		default:
			out = append(out, comp)
		}
		if len(out) > 0 && comp.Type != vg.CloseComp {
			at = out[len(out)-1].Pos
		}
	}
	return out
}

func appendArc(out vg.Path, arc vg.PathComp) vg.Path {
	point := func(r vg.Length, angle float64) vg.Point {
		sin, cos := math.Sincos(angle)
		return vg.Point{X: arc.Pos.X + r*vg.Length(cos), Y: arc.Pos.Y + r*vg.Length(sin)}
	}
	if start := point(arc.Radius, arc.Start); len(out) == 0 {
		out.Move(start)
	} else {
		out.Line(start)
	}
	pieces := math.Ceil(math.Abs(arc.Angle) / (math.Pi / 2))
	step := arc.Angle / pieces
	// The control points stand on the tangents at the ends, where a cubic of the same
	// middle point has them.
	reach := 4. / 3 * math.Tan(step/4)
	hull := arc.Radius * vg.Length(math.Hypot(1, reach))
	lead := math.Atan(reach)
	for i := range int(pieces) {
		a := arc.Start + float64(i)*step
		out.CubeTo(point(hull, a+lead), point(hull, a+step-lead), point(arc.Radius, a+step))
	}
	return out
}

var pdfDate = regexp.MustCompile(`/(CreationDate|ModDate) \(D:\d{14}`)

// fixedDate is one day for all PDF files, so that the same figure gives the same bytes.
const fixedDate = "20000101000000"

// undated sets the dates in a PDF file to the fixed one. The length stays the same, since
// the file holds offsets of what follows.
func undated(pdf []byte) []byte {
	return pdfDate.ReplaceAll(pdf, []byte("/$1 (D:"+fixedDate))
}
