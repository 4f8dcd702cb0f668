package page

import (
	"errors"
	"fmt"
	"slices"

	"gonum.org/v1/plot"
)

// A Panel is one pair of axes, level X and upright Y, with layers drawn on it in order.
type Panel struct {
	Title string // heading, short; may be empty
	X, Y  Axis
	Equal bool // to scale: one unit of X is as long as one of Y, ranges widened to fill the panel
	Bare  bool // no axes, grid and numbers
	// Layers are those of this package, Curve, Rule, Mark, Field and Drawing, or any
	// others. The range of these is their DataRange, if they have one; a legend names
	// them only through the Keys of a Drawing.
	Layers []plot.Plotter
	// Moving are layers on top of all else, axes included: what a GIF has that differs
	// from frame to frame.
	Moving []plot.Plotter
}

// Add puts layers on top of those the panel has.
func (p *Panel) Add(layers ...plot.Plotter) {
	p.Layers = append(p.Layers, layers...)
}

// all returns the layers from the lowest to the topmost.
func (p *Panel) all() []plot.Plotter {
	return slices.Concat(p.Layers, p.Moving)
}

func (p *Panel) check() error {
	if p.Equal && (p.X.Log || p.Y.Log) {
		return errors.New("equal units on a logarithmic axis: want one or the other")
	}
	for i, l := range p.all() {
		if l == nil {
			return fmt.Errorf("layer %d: is nil: want a layer", i+1)
		}
		if err := layerOf(l).check(); err != nil {
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
	for _, l := range p.all() {
		layerOf(l).reach(func(px, py float64) {
			x, y = shown(p.X, x, px), shown(p.Y, y, py)
		})
	}
	return x, y
}

func (p *Panel) keys() []Key {
	var keys []Key
	for _, l := range p.all() {
		if k, ok := l.(keyed); ok {
			keys = append(keys, k.keys()...)
		}
	}
	return merged(keys)
}
