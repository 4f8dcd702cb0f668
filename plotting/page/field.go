package page

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg/draw"
)

// A Field is a quantity over a grid, drawn as bands of colour between round levels, light
// for low and dark for high values, with a scale beside the data area. Between grid
// points it is interpolated linearly.
type Field struct {
	X, Y     []float64   // rising grid lines, at least 2 each
	Z        [][]float64 // Z[j][i] is the value at X[i], Y[j]; NaN where there is none
	Label    string      // quantity and unit
	Void     string      // what the area without values means, in the legend; may be empty
	Contours []Contour
}

// A Contour is a line of one value drawn over a Field.
type Contour struct {
	Level float64
	Name  string // in the legend; may be empty
	Pen   draw.LineStyle
}

func (f Field) check() error {
	for _, grid := range []struct {
		name  string
		lines []float64
	}{{"x", f.X}, {"y", f.Y}} {
		if len(grid.lines) < 2 {
			return fmt.Errorf("field: %d grid lines of %s: want at least 2", len(grid.lines), grid.name)
		}
		for i, v := range grid.lines {
			if math.IsNaN(v) || math.IsInf(v, 0) || (i > 0 && v <= grid.lines[i-1]) {
				return fmt.Errorf("field: grid line %d of %s: %g: want finite rising values", i+1, grid.name, v)
			}
		}
	}
	if len(f.Z) != len(f.Y) {
		return fmt.Errorf("field: %d rows of values: want %d, one for each y", len(f.Z), len(f.Y))
	}
	for j, row := range f.Z {
		if len(row) != len(f.X) {
			return fmt.Errorf("field: row %d: %d values: want %d, one for each x", j+1, len(row), len(f.X))
		}
	}
	for _, c := range f.Contours {
		if math.IsNaN(c.Level) || math.IsInf(c.Level, 0) || c.Pen.Color == nil {
			return fmt.Errorf("field: contour %q at %g: want a finite level and a pen", c.Name, c.Level)
		}
	}
	_, err := f.colourBar()
	return err
}

func (f Field) reach(add func(x, y float64)) {
	add(f.X[0], f.Y[0])
	add(f.X[len(f.X)-1], f.Y[len(f.Y)-1])
}

func (f Field) keys() []Key {
	var keys []Key
	if f.Void != "" {
		keys = append(keys, Key{Name: f.Void, Fill: Shade})
	}
	for _, c := range f.Contours {
		if c.Name != "" {
			keys = append(keys, Key{Name: c.Name, Pen: c.Pen})
		}
	}
	return keys
}

// draw paints each band over all the lower ones, so that no seam shows between bands, and
// all cells of a band as one path, so that none shows between cells.
func (f Field) draw(s *Sketch) {
	bar, err := f.colourBar()
	if err != nil {
		return // check has refused it
	}
	s.SetColor(Shade)
	s.Fill(s.Rectangle.Path())
	for k := range bar.bands() {
		level := bar.edges[k]
		if k == 0 {
			level = math.Inf(-1)
		}
		area, _ := f.above(s, level)
		s.SetColor(bar.colour(k))
		s.Fill(area)
	}
	for _, c := range f.Contours {
		s.SetLineStyle(s.Scaled(c.Pen))
		_, line := f.above(s, c.Level)
		for _, path := range chained(line) {
			s.Stroke(path)
		}
	}
}

// Plot implements plot.Plotter.
func (f Field) Plot(dc draw.Canvas, p *plot.Plot) { plotOn(f, dc, p) }

// DataRange implements plot.DataRanger.
func (f Field) DataRange() (xmin, xmax, ymin, ymax float64) { return rangeOf(f) }
