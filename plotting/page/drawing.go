package page

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// A Drawing is anything else: what Draw paints in data coordinates.
type Drawing struct {
	Reach []plotter.XY // points that the axes must reach, such as two corners; may be empty
	Keys  []Key        // entries in the legend; may be empty
	Draw  func(s *Sketch)
}

func (d Drawing) check() error {
	if d.Draw == nil {
		return errors.New("drawing: nothing to draw: want a function")
	}
	for _, p := range d.Reach {
		if sum := p.X + p.Y; math.IsNaN(sum) || math.IsInf(sum, 0) {
			return fmt.Errorf("drawing: reach (%g, %g): want finite values", p.X, p.Y)
		}
	}
	return nil
}

func (d Drawing) reach(add func(x, y float64)) {
	for _, p := range d.Reach {
		add(p.X, p.Y)
	}
}

func (d Drawing) draw(s *Sketch) { d.Draw(s) }

func (d Drawing) keys() []Key { return d.Keys }

// Plot implements plot.Plotter.
func (d Drawing) Plot(dc draw.Canvas, p *plot.Plot) { plotOn(d, dc, p) }

// DataRange implements plot.DataRanger.
func (d Drawing) DataRange() (xmin, xmax, ymin, ymax float64) { return rangeOf(d) }
