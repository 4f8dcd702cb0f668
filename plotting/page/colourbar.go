package page

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A colourBar is the scale of a Field: bands of colour between rising edges.
type colourBar struct {
	label    string
	scale    scale
	edges    []float64
	contours []Contour
}

// colourBar returns the scale of the field, from one round level to another.
func (f Field) colourBar() (colourBar, error) {
	data := nothing
	for _, row := range f.Z {
		data = data.including(row...)
	}
	s, err := Axis{}.settle(data, 0)
	if err != nil {
		return colourBar{}, fmt.Errorf("field: colour scale: %w", err)
	}
	step := niceStep((s.Max - s.Min) / 12) // 5 to 12 bands
	s.Min = step.times(math.Floor(s.Min/step.times(1) + edge))
	s.Max = step.times(math.Ceil(s.Max/step.times(1) - edge))
	s.ticks = step.within(s.Min, s.Max)

	bar := colourBar{label: f.Label, scale: s, contours: f.Contours}
	for _, t := range s.ticks {
		bar.edges = append(bar.edges, t.Value)
	}
	return bar, nil
}

func (b colourBar) bands() int {
	return len(b.edges) - 1
}

// colour returns the colour of the k-th band. All steps of lightness are alike, whatever
// the widths of the bands.
func (b colourBar) colour(k int) color.Color {
	return band((float64(k) + 0.5) / float64(b.bands()))
}

// Parts of the bar from left to right, in em.
const (
	barGap    = 1.2
	barWidth  = 1.1
	barNumber = 0.45 // between bar and number
)

// width returns the room that the bar needs beside the data area.
func (b colourBar) width(l Letters) vg.Length {
	var widest vg.Length
	for _, t := range b.scale.ticks {
		widest = max(widest, l.Number.Width(t.Label))
	}
	return (barGap+barWidth+barNumber)*l.Em() + widest
}

// draw draws the bar to the right of x, as high as the data area.
func (b colourBar) draw(c vg.Canvas, l Letters, x, bottom, top vg.Length) {
	bar := draw.Canvas{Canvas: c, Rectangle: vg.Rectangle{
		Min: vg.Point{X: x + barGap*l.Em(), Y: bottom},
		Max: vg.Point{X: x + (barGap+barWidth)*l.Em(), Y: top},
	}}
	for k := range b.bands() {
		part := bar.Rectangle
		part.Min.Y = bar.Y(b.scale.norm(b.edges[k])) // each band covers all above it: no seams
		bar.SetColor(b.colour(k))
		bar.Fill(part.Path())
	}
	for _, contour := range b.contours {
		if y := bar.Y(b.scale.norm(contour.Level)); bar.ContainsY(y) {
			bar.StrokeLine2(l.Scaled(contour.Pen), bar.Min.X, y, bar.Max.X, y)
		}
	}
	for b.scale.labels() > 2 && !b.scale.fits(top-bottom, func(string) extent { return extent{size: l.Number.line()} }) {
		b.scale.thin()
	}
	for _, t := range b.scale.ticks {
		at := vg.Point{X: bar.Max.X + barNumber*l.Em(), Y: bar.Y(b.scale.norm(t.Value))}
		l.Number.Draw(c, at, atStart, atMiddle, t.Label)
	}
}
