package page

import (
	"image/color"
	"math"
	"reflect"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A Key is an entry of a legend: a name and a sample of what it looks like.
type Key struct {
	Name   string
	Pen    draw.LineStyle   // a sample line, if its width is not 0
	Marker draw.GlyphDrawer // a sample marker in the colour of the pen, or nil
	Fill   color.Color      // a sample area, or nil
}

// Placement is where a figure has its legend. None of the places is on the data.
type Placement int

const (
	LegendTop    Placement = iota // in rows between title and panels
	LegendRight                   // in a column to the right of the panels, or on top if it is too tall for that
	LegendBottom                  // in rows below the panels
	LegendPanels                  // each panel has its own, between its heading and its data
)

// legendBlock returns a legend for rows within a width.
func legendBlock(l Letters, keys []Key, width vg.Length) block {
	items := make([]func(vg.Length) block, len(keys))
	for i, k := range keys {
		items[i] = func(w vg.Length) block { return k.block(l, w) }
	}
	return flow(items, width, 1.8*l.Em())
}

// legendColumn returns a legend of one entry per line, at most of a width.
func legendColumn(l Letters, keys []Key, width vg.Length) block {
	blocks := make([]block, len(keys))
	for i, k := range keys {
		blocks[i] = k.block(l, width)
	}
	return stack(0.25*l.Em(), blocks...)
}

// block returns the entry with its name wrapped to a width.
func (k Key) block(l Letters, width vg.Length) block {
	const sample, gap = 2.6, 0.5 // in em
	indent := (sample + gap) * l.Em()
	name := paragraph(l.Name, k.Name, max(width-indent, l.Em()))
	return block{
		width:  indent + name.width,
		height: name.height,
		draw: func(c vg.Canvas, at vg.Point) {
			name.draw(c, vg.Point{X: at.X + indent, Y: at.Y})
			k.sample(l, c, vg.Rectangle{
				Min: vg.Point{X: at.X, Y: at.Y - l.Name.line()},
				Max: vg.Point{X: at.X + sample*l.Em(), Y: at.Y},
			})
		},
	}
}

// sample draws the sample in a box as high as a line of text.
func (k Key) sample(l Letters, c vg.Canvas, box vg.Rectangle) {
	middle := (box.Min.Y + box.Max.Y) / 2
	if k.Fill != nil {
		c.SetColor(k.Fill)
		half := 0.4 * l.Em()
		c.Fill(vg.Rectangle{Min: vg.Point{X: box.Min.X, Y: middle - half}, Max: vg.Point{X: box.Max.X, Y: middle + half}}.Path())
	}
	cell := draw.Canvas{Canvas: c, Rectangle: box}
	if k.Pen.Width > 0 {
		cell.StrokeLine2(l.Scaled(k.Pen), box.Min.X, middle, box.Max.X, middle)
	}
	if k.Marker != nil {
		l.marker(cell, k.Pen.Color, k.Marker, vg.Point{X: (box.Min.X + box.Max.X) / 2, Y: middle})
	}
}

// merged returns the keys with equal ones only once, where the last of them is: the curve
// that a figure is about is the last of each panel.
func merged(keys []Key) []Key {
	var unique []Key
	for _, k := range keys {
		unique = slices.DeleteFunc(unique, func(u Key) bool { return reflect.DeepEqual(k, u) })
		unique = append(unique, k)
	}
	return unique
}

// Scaled returns a pen fit for the text size of the page.
func (l Letters) Scaled(pen draw.LineStyle) draw.LineStyle {
	k := l.Em() / 10
	pen.Width *= k
	pen.DashOffs *= k
	dashes := make([]vg.Length, len(pen.Dashes))
	for i, d := range pen.Dashes {
		dashes[i] = d * k
	}
	pen.Dashes = dashes
	return pen
}

// marker draws a marker of ordinary size.
func (l Letters) marker(c draw.Canvas, clr color.Color, shape draw.GlyphDrawer, at vg.Point) {
	c.DrawGlyphNoClip(draw.GlyphStyle{Color: clr, Radius: markerRadius * l.Em(), Shape: shape}, at)
}

// A Ring is a marker like draw.RingGlyph, with a line that grows with the text of the page.
type Ring struct{}

// DrawGlyph implements draw.GlyphDrawer.
func (Ring) DrawGlyph(c *draw.Canvas, style draw.GlyphStyle, at vg.Point) {
	c.SetLineStyle(draw.LineStyle{Color: style.Color, Width: 0.2 * style.Radius})
	var circle vg.Path
	circle.Move(vg.Point{X: at.X + style.Radius, Y: at.Y})
	circle.Arc(at, style.Radius, 0, 2*math.Pi)
	circle.Close()
	c.Stroke(circle)
}

// markerRadius is that of a marker, in em.
const markerRadius = 0.32
