package page

import (
	"bytes"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"html"
	"image"
	"image/color"
	"image/png"
	"math"
	"strconv"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// svgCanvas is a canvas that writes SVG elements. It has what that of the drawing library
// has not: groups, text that is anchored where it must stay, and no style attributes,
// which a strict page refuses.
type svgCanvas struct {
	buf    []byte
	height float64 // of the page, in points: SVG counts downward
	prefix string  // of all ids
	states []svgState
}

// svgState is what Push keeps and Pop brings back.
type svgState struct {
	color  color.Color
	width  vg.Length
	dashes []vg.Length
	offset vg.Length
	groups int // opened since
}

// usualFamily is what text is set in unless it says otherwise; Arial is as wide.
const usualFamily, fallbacks = "Liberation Sans", "Arial,Helvetica,sans-serif"

// svg returns a figure as an SVG file or, with a prefix for its ids, as a fragment to
// stand in a page.
func (l *layout) svg(title string, o Options) []byte {
	c := newSVGCanvas(l.size.Height, o.Fragment)
	if o.Fragment == "" {
		c.add(`<?xml version="1.0" encoding="UTF-8"?>`, "\n")
	}
	c.add(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 `)
	c.number(l.size.Width.Points())
	c.add(" ")
	c.number(l.size.Height.Points())
	// Round joins do not overshoot at sharp turns.
	c.add(`" role="img" aria-label="`, html.EscapeString(clean(title)), `" stroke-linejoin="round"`)
	if o.Fragment == "" {
		c.add(` width="`)
		c.number(l.size.Width.Points())
		c.add(`pt" height="`)
		c.number(l.size.Height.Points())
		c.add(`pt"`)
	}
	var canvas vg.Canvas = outlineText{c}
	if !o.Outlines {
		canvas = c
		c.add(` font-family="'`, usualFamily, "',", fallbacks, `"`)
	}
	c.add(">\n")
	l.draw(canvas)
	c.add("</svg>\n")
	return c.buf
}

func newSVGCanvas(height vg.Length, prefix string) *svgCanvas {
	c := &svgCanvas{buf: make([]byte, 0, 1<<15), height: height.Points(), prefix: prefix, states: make([]svgState, 1)}
	vg.Initialize(c)
	return c
}

func (c *svgCanvas) state() *svgState { return &c.states[len(c.states)-1] }

func (c *svgCanvas) SetColor(clr color.Color) { c.state().color = clr }
func (c *svgCanvas) SetLineWidth(w vg.Length) { c.state().width = w }
func (c *svgCanvas) Rotate(angle float64)     { c.transform("rotate", -angle*180/math.Pi, 0, c.height) }
func (c *svgCanvas) Translate(p vg.Point)     { c.transform("translate", p.X.Points(), -p.Y.Points()) }
func (c *svgCanvas) Scale(x, y float64)       { c.transform("matrix", x, 0, 0, y, 0, c.height*(1-y)) }
func (c *svgCanvas) Push()                    { c.states = append(c.states, *c.state()); c.state().groups = 0 }
func (c *svgCanvas) SetLineDash(dashes []vg.Length, offset vg.Length) {
	c.state().dashes, c.state().offset = dashes, offset
}

func (c *svgCanvas) Pop() {
	for range c.state().groups {
		c.close()
	}
	c.states = c.states[:len(c.states)-1]
}

func (c *svgCanvas) transform(kind string, numbers ...float64) {
	c.add(`<g transform="`, kind, "(")
	for i, v := range numbers {
		if i > 0 {
			c.add(" ")
		}
		c.buf = strconv.AppendFloat(c.buf, v, 'g', 7, 64)
	}
	c.add(")\">\n")
	c.state().groups++
}

// open begins a group, which close ends.
func (c *svgCanvas) open(id string) { c.add(`<g id="`, html.EscapeString(c.prefix+id), "\">\n") }
func (c *svgCanvas) close()         { c.add("</g>\n") }

// inGroup draws something as a group where there are groups.
func inGroup(c vg.Canvas, id string, draw func()) {
	switch c := c.(type) {
	case *svgCanvas:
		c.open(id)
		defer c.close()
	case outlineText:
		inGroup(c.Canvas, id, draw)
		return
	}
	draw()
}

func (c *svgCanvas) Fill(path vg.Path) {
	c.path(path)
	c.paint("fill", c.state().color)
	c.add("/>\n")
}

func (c *svgCanvas) Stroke(path vg.Path) {
	s := c.state()
	if s.width <= 0 {
		return
	}
	c.path(path)
	c.add(` fill="none"`)
	c.paint("stroke", s.color)
	c.attribute("stroke-width", s.width)
	for i, d := range s.dashes {
		c.add([]string{` stroke-dasharray="`, " "}[min(i, 1)])
		c.number(d.Points())
	}
	if len(s.dashes) > 0 {
		c.add(`"`)
		if s.offset != 0 {
			c.attribute("stroke-dashoffset", s.offset)
		}
	}
	c.add("/>\n")
}

// path opens an element for a path.
func (c *svgCanvas) path(path vg.Path) {
	c.add(`<path d="`)
	var at vg.Point
	for _, comp := range path {
		switch comp.Type {
		case vg.MoveComp:
			c.points("M", comp.Pos)
		case vg.LineComp:
			c.points("L", comp.Pos)
		case vg.CurveComp:
			c.points([]string{"Q", "C"}[len(comp.Control)-1], append(comp.Control[:len(comp.Control):len(comp.Control)], comp.Pos)...)
		case vg.ArcComp:
			at = c.arc(comp, at)
			continue
		case vg.CloseComp:
			c.add("Z")
			continue
		}
		at = comp.Pos
	}
	c.add(`"`)
}

// arc writes an arc in two halves, so that none is more than half a turn, and returns its
// end.
func (c *svgCanvas) arc(arc vg.PathComp, at vg.Point) vg.Point {
	end := func(part float64) vg.Point {
		sin, cos := math.Sincos(arc.Start + part*arc.Angle)
		return vg.Point{X: arc.Pos.X + arc.Radius*vg.Length(cos), Y: arc.Pos.Y + arc.Radius*vg.Length(sin)}
	}
	if start := end(0); start != at {
		c.points("L", start)
	}
	sweep := " 0 0 0 " // counterclockwise
	if arc.Angle < 0 {
		sweep = " 0 0 1 "
	}
	for _, half := range []float64{0.5, 1} {
		c.add("A")
		c.number(arc.Radius.Points())
		c.add(" ")
		c.number(arc.Radius.Points())
		c.add(sweep)
		c.points("", end(half))
	}
	return end(1)
}

// points writes an operator of a path and its points.
func (c *svgCanvas) points(operator string, points ...vg.Point) {
	c.add(operator)
	for i, p := range points {
		if i > 0 {
			c.add(" ")
		}
		c.number(p.X.Points())
		c.add(" ")
		c.number(c.height - p.Y.Points())
	}
}

// FillString writes text from its left end.
func (c *svgCanvas) FillString(f font.Face, at vg.Point, s string) {
	c.text(f, at, atStart, s)
	c.paint("fill", c.state().color)
	c.textEnd(s)
}

// fillText writes text that stays in place, at its left end, middle or right end, also
// where another font is shown.
func (c *svgCanvas) fillText(l Lettering, at vg.Point, across float64, s string) {
	c.text(l.face, at, across, s)
	c.paint("fill", l.color)
	c.textEnd(s)
}

// text opens an element for text and textEnd ends it.
func (c *svgCanvas) text(f font.Face, at vg.Point, across float64, s string) {
	c.add("<text")
	c.attribute("x", at.X)
	c.attribute("y", vg.Length(c.height)-at.Y)
	switch across {
	case atMiddle:
		c.add(` text-anchor="middle"`)
	case atEnd:
		c.add(` text-anchor="end"`)
	}
	if family := string(f.Font.Typeface) + " " + string(f.Font.Variant); family != usualFamily {
		c.add(` font-family="`, html.EscapeString(family), `"`)
	}
	c.attribute("font-size", f.Font.Size)
	if f.Font.Weight != 0 {
		c.add(` font-weight="`, strconv.Itoa(400+100*int(f.Font.Weight)), `"`)
	}
	if f.Font.Style != 0 {
		c.add(` font-style="italic"`)
	}
}

func (c *svgCanvas) textEnd(s string) { c.add(">", html.EscapeString(isolated(clean(s))), "</text>\n") }

// DrawImage implements vg.Canvas.
func (c *svgCanvas) DrawImage(r vg.Rectangle, img image.Image) {
	var file bytes.Buffer
	must(png.Encode(&file, img))
	c.add(`<image preserveAspectRatio="none"`)
	c.attribute("x", r.Min.X)
	c.attribute("y", vg.Length(c.height)-r.Max.Y)
	c.attribute("width", r.Size().X)
	c.attribute("height", r.Size().Y)
	c.add(` href="data:image/png;base64,`, base64.StdEncoding.EncodeToString(file.Bytes()), "\"/>\n")
}

// paint writes what an area or a line is painted with.
func (c *svgCanvas) paint(what string, clr color.Color) {
	if clr == nil {
		clr = color.Black
	}
	p := color.NRGBAModel.Convert(clr).(color.NRGBA)
	c.add(" ", what, `="#`)
	c.buf = hex.AppendEncode(c.buf, []byte{p.R, p.G, p.B})
	c.add(`"`)
	if p.A < 0xFF {
		c.buf = fmt.Appendf(c.buf, ` %s-opacity="%.3g"`, what, float64(p.A)/0xFF)
	}
}

func (c *svgCanvas) attribute(name string, v vg.Length) {
	c.add(" ", name, `="`)
	c.number(v.Points())
	c.add(`"`)
}

// number writes a length to a hundredth of a point.
func (c *svgCanvas) number(v float64) { c.buf = appendNumber(c.buf, v) }

// appendNumber appends a decimal number to a hundredth.
func appendNumber(buf []byte, v float64) []byte {
	n := int64(math.Round(v * 100))
	if n < 0 {
		buf = append(buf, '-')
		n = -n
	}
	buf = strconv.AppendInt(buf, n/100, 10)
	if n %= 100; n == 0 {
		return buf
	}
	buf = append(buf, '.', byte('0'+n/10))
	if n%10 != 0 {
		buf = append(buf, byte('0'+n%10))
	}
	return buf
}

func (c *svgCanvas) add(parts ...string) {
	for _, p := range parts {
		c.buf = append(c.buf, p...)
	}
}
