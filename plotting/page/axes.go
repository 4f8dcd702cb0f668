package page

import (
	"fmt"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawStill draws what of the panel, the n-th of its figure, does not move, with its data
// in one rectangle and its texts in the cell around it.
func (f *fitted) drawStill(c vg.Canvas, area, cell vg.Rectangle, n int) {
	s := f.sketch(draw.Canvas{Canvas: c, Rectangle: area})
	f.drawTop(c, area, cell)
	f.drawHeads(c, area, cell, false)
	f.drawXLabel(c, area, cell)
	if !f.Bare {
		f.drawGrid(s)
	}
	f.drawLayers(c, s, n, 0, len(f.Layers))
	if !f.Bare {
		f.drawAxes(s)
	}
	f.drawSides(s, false)
	if f.bar != nil {
		f.bar.draw(c, f.letters, area.Max.X+f.sidesWidth(), area.Min.Y, area.Max.Y)
	}
}

// drawMoving draws the rest.
func (f *fitted) drawMoving(c vg.Canvas, area, cell vg.Rectangle, n int) {
	if len(f.Moving) == 0 {
		return
	}
	s := f.sketch(draw.Canvas{Canvas: c, Rectangle: area})
	f.drawHeads(c, area, cell, true)
	f.drawLayers(c, s, n, len(f.Layers), len(s.layers))
	f.drawSides(s, true)
}

// drawLayers draws the layers from first up to end, that one left out.
func (f *fitted) drawLayers(c vg.Canvas, s *Sketch, n, first, end int) {
	for i, l := range s.layers[first:end] {
		inGroup(c, fmt.Sprintf("panel-%d-layer-%d", n, first+i+1), func() { l.draw(s) })
	}
}

// sketch returns the data area to draw on.
func (f *fitted) sketch(c draw.Canvas) *Sketch {
	if f.Equal {
		f.widen(c.Size())
	}
	axes := plot.New()
	axes.X.Min, axes.X.Max, axes.X.Scale = f.x.Min, f.x.Max, f.x.normalizer()
	axes.Y.Min, axes.Y.Max, axes.Y.Scale = f.y.Min, f.y.Max, f.y.normalizer()
	s := &Sketch{Canvas: c, plot: axes, Letters: f.letters}
	for _, l := range f.all() {
		s.layers = append(s.layers, layerOf(l))
	}
	return s
}

// drawTop draws heading, label of y and note.
func (f *fitted) drawTop(c vg.Canvas, area, cell vg.Rectangle) {
	if !f.heading.empty() {
		f.heading.draw(c, vg.Point{X: cell.Min.X, Y: cell.Max.Y})
	}
	bottom := area.Max.Y + labelGap*f.letters.Em() + f.headsHeight()
	noteBottom := bottom
	if !f.yLabel.empty() {
		f.yLabel.draw(c, vg.Point{X: cell.Min.X, Y: bottom + f.yLabel.height})
		if !f.sameLine(cell.Size().X) {
			noteBottom += f.yLabel.height
		}
	}
	if !f.note.empty() {
		f.note.draw(c, vg.Point{X: cell.Max.X - f.note.width, Y: noteBottom + f.note.height})
	}
}

// drawHeads draws the labels above the data area that move, or those that do not.
func (f *fitted) drawHeads(c vg.Canvas, area, cell vg.Rectangle, moving bool) {
	wanted, sizes := make([]vg.Length, len(f.heads)), make([]vg.Length, len(f.heads))
	for i, h := range f.heads {
		wanted[i] = area.Min.X + vg.Length(f.x.norm(h.at))*area.Size().X
		sizes[i] = h.width + headSpace*f.letters.Em()
	}
	for i, x := range spread(wanted, sizes, cell.Min.X, cell.Max.X) {
		h := f.heads[i]
		if h.moving != moving {
			continue
		}
		h.draw(c, vg.Point{X: x - h.width/2, Y: area.Max.Y + headLift*f.letters.Em() + h.height})
	}
}

// drawXLabel centres the label of x below its numbers, as far as the cell allows.
func (f *fitted) drawXLabel(c vg.Canvas, area, cell vg.Rectangle) {
	if f.xLabel.empty() {
		return
	}
	x := (area.Min.X + area.Max.X - f.xLabel.width) / 2
	x = max(min(x, cell.Max.X-f.xLabel.width), cell.Min.X)
	f.xLabel.draw(c, vg.Point{X: x, Y: area.Min.Y - (tickLength+tickGap)*f.letters.Em() - f.letters.Number.line()})
}

func (f *fitted) drawGrid(s *Sketch) {
	pen := f.letters.Scaled(draw.LineStyle{Color: Faint, Width: 0.6})
	for _, t := range f.x.ticks {
		if x := s.X(f.x.norm(t.Value)); t.Label != "" && s.ContainsX(x) {
			s.StrokeLine2(pen, x, s.Min.Y, x, s.Max.Y)
		}
	}
	for _, t := range f.y.ticks {
		if y := s.Y(f.y.norm(t.Value)); t.Label != "" && s.ContainsY(y) {
			s.StrokeLine2(pen, s.Min.X, y, s.Max.X, y)
		}
	}
}

// drawAxes draws both axis lines, their ticks and numbers.
func (f *fitted) drawAxes(s *Sketch) {
	l, em := f.letters, f.letters.Em()
	pen := l.Scaled(draw.LineStyle{Color: Line, Width: 0.7})
	s.StrokeLine2(pen, s.Min.X, s.Min.Y, s.Max.X, s.Min.Y)
	s.StrokeLine2(pen, s.Min.X, s.Min.Y, s.Min.X, s.Max.Y)

	for _, t := range f.x.ticks {
		x := s.X(f.x.norm(t.Value))
		if !s.ContainsX(x) {
			continue
		}
		s.StrokeLine2(pen, x, s.Min.Y, x, s.Min.Y-lengthOf(t)*em)
		if !f.X.Bare {
			l.Number.Draw(s, vg.Point{X: x, Y: s.Min.Y - (tickLength+tickGap)*em}, atMiddle, atEnd, t.Label)
		}
	}
	for _, t := range f.y.ticks {
		y := s.Y(f.y.norm(t.Value))
		if !s.ContainsY(y) {
			continue
		}
		s.StrokeLine2(pen, s.Min.X, y, s.Min.X-lengthOf(t)*em, y)
		if !f.Y.Bare {
			l.Number.Draw(s, vg.Point{X: s.Min.X - (tickLength+tickGap)*em, Y: y}, atEnd, atMiddle, t.Label)
		}
	}
}

// lengthOf is that of a tick in em: minor ticks are shorter.
func lengthOf(t plot.Tick) vg.Length {
	if t.IsMinor() {
		return tickLength / 2
	}
	return tickLength
}

// drawSides draws the labels beside the data area that move, or those that do not, each
// joined to its value by a piece of its line.
func (f *fitted) drawSides(s *Sketch, moving bool) {
	em := f.letters.Em()
	wanted, sizes := make([]vg.Length, len(f.sides)), make([]vg.Length, len(f.sides))
	for i, label := range f.sides {
		wanted[i] = s.Y(f.y.norm(label.at))
		sizes[i] = label.height + sideSpace*em
	}
	bottom, top := s.Min.Y-f.sideReach(-1), s.Max.Y+f.sideReach(1)
	for i, y := range spread(wanted, sizes, bottom, top) {
		label := f.sides[i]
		if label.moving != moving {
			continue
		}
		left := s.Max.X + leaderWidth*em
		pen := f.letters.Scaled(draw.LineStyle{Color: label.pen.Color, Width: 0.8})
		s.StrokeLines(pen, []vg.Point{
			{X: s.Max.X + 0.15*em, Y: wanted[i]},
			{X: s.Max.X + 0.45*em, Y: wanted[i]},
			{X: left - 0.3*em, Y: y},
			{X: left, Y: y},
		})
		label.draw(s, vg.Point{X: left + leaderGap*em, Y: y + label.height/2})
	}
}
