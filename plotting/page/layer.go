package page

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A layer is something that stands in the data area of a panel. It may also implement
// keyed, sideLabelled, headLabelled, coloured and lined.
type layer interface {
	check() error // what about it cannot be drawn
	// reach adds the points that the axes must reach; NaN adds nothing in its direction.
	reach(add func(x, y float64))
	draw(s *Sketch)
}

// keyed is a layer with entries in the legend.
type keyed interface {
	keys() []Key
}

// sideLabelled is a layer with labels to the right of the data area, at heights of the
// y axis.
type sideLabelled interface {
	sideLabels() []label
}

// headLabelled is a layer with labels above the data area, at places of the x axis.
type headLabelled interface {
	headLabels() []label
}

// coloured is a layer with a scale of colours, which stands to the right of the data
// area.
type coloured interface {
	colourBar() (colourBar, error)
}

// lined is a layer with lines on the page that text is better kept off.
type lined interface {
	lines(s *Sketch) [][]vg.Point
}

// layerOf returns how a panel sees what is drawn on it.
func layerOf(p plot.Plotter) layer {
	if l, ok := p.(layer); ok {
		return l
	}
	return foreign{p}
}

// foreign is a layer that another package has made.
type foreign struct{ plot.Plotter }

func (foreign) check() error { return nil }

func (f foreign) reach(add func(x, y float64)) {
	r, ok := f.Plotter.(plot.DataRanger)
	if !ok {
		return
	}
	finite := func(v float64) float64 {
		if math.IsInf(v, 0) { // what says nothing about a direction ranges from +Inf to −Inf
			return math.NaN()
		}
		return v
	}
	xmin, xmax, ymin, ymax := r.DataRange()
	add(finite(xmin), finite(ymin))
	add(finite(xmax), finite(ymax))
}

func (f foreign) draw(s *Sketch) { f.Plot(s.Canvas, s.plot) }

// plotOn draws a layer of this package on the axes of any plot, in proportion to the
// text of its ticks. It panics on a layer that a Panel refuses.
func plotOn(l layer, c draw.Canvas, p *plot.Plot) {
	if err := l.check(); err != nil {
		panic(err)
	}
	size := p.X.Tick.Label.Font.Size
	l.draw(&Sketch{Canvas: c, plot: p, Letters: lettersFor(Size{Text: size})})
}

// rangeOf returns the range of a layer as plot.DataRanger wants it.
func rangeOf(l layer) (xmin, xmax, ymin, ymax float64) {
	x, y := nothing, nothing
	l.reach(func(px, py float64) { x, y = x.including(px), y.including(py) })
	return x.Min, x.Max, y.Min, y.Max
}
