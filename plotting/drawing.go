package plotting

import (
	"errors"
	"fmt"
	"math"
)

// A Drawing is anything else: what Draw paints in data coordinates.
type Drawing struct {
	Reach []XY  // points that the axes must reach, such as two corners; may be empty
	Keys  []Key // entries in the legend; may be empty
	Draw  func(s *Sketch)
}

// ownPlace is the reach of a drawing that fits itself into its panel, whose axes it does not use.
var ownPlace = []XY{{0, 0}, {1, 1}}

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
