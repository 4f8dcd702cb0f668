package plotting

import (
	"errors"
	"fmt"
)

// A Panel is one pair of axes, level X and upright Y, with layers drawn on it in order.
type Panel struct {
	Title  string // heading, short; may be empty
	X, Y   Axis
	Equal  bool // to scale: one unit of X is as long as one of Y, ranges widened to fill the panel
	Bare   bool // no axes, grid and numbers
	Layers []Layer
}

// A Layer is something drawn in the data area of a panel: Curve, Rule, Mark, Field or Drawing. It may also implement
// keyed, sideLabelled, headLabelled, coloured and lined.
type Layer interface {
	check() error                 // what about it cannot be drawn
	reach(add func(x, y float64)) // adds the points that the axes must reach; NaN adds nothing in its direction
	draw(s *Sketch)
}

// keyed is a layer with entries in the legend.
type keyed interface {
	keys() []Key
}

// sideLabelled is a layer with labels to the right of the data area, at heights of the y axis.
type sideLabelled interface {
	sideLabels() []label
}

// headLabelled is a layer with labels above the data area, at places of the x axis.
type headLabelled interface {
	headLabels() []label
}

// coloured is a layer with a scale of colours, which stands to the right of the data area.
type coloured interface {
	colourBar() (colourBar, error)
}

// Add puts layers on top of those the panel has.
func (p *Panel) Add(layers ...Layer) {
	p.Layers = append(p.Layers, layers...)
}

func (p *Panel) check() error {
	if p.Equal && (p.X.Log || p.Y.Log) {
		return errors.New("equal units on a logarithmic axis: want one or the other")
	}
	for i, layer := range p.Layers {
		if layer == nil {
			return fmt.Errorf("layer %d: is nil: want a layer", i+1)
		}
		if err := layer.check(); err != nil {
			return fmt.Errorf("layer %d: %w", i+1, err)
		}
	}
	return nil
}

// data returns the range of all layers in both directions.
func (p *Panel) data() (x, y Interval) {
	x, y = nothing, nothing
	shown := func(a Axis, i Interval, v float64) Interval {
		if a.Log && v <= 0 {
			return i
		}
		return i.including(v)
	}
	for _, layer := range p.Layers {
		layer.reach(func(px, py float64) {
			x, y = shown(p.X, x, px), shown(p.Y, y, py)
		})
	}
	return x, y
}

func (p *Panel) keys() []Key {
	var keys []Key
	for _, layer := range p.Layers {
		if k, ok := layer.(keyed); ok {
			keys = append(keys, k.keys()...)
		}
	}
	return merged(keys)
}
