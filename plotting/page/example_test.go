package page_test

import (
	"bytes"
	"fmt"
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"halfturn/plotting/page"
)

// wave is a speed deviation over a turn. It is a plotter.XYer: where there are no lists
// of points, none need be made.
type wave struct{ amplitude float64 }

func (wave) Len() int { return 361 }

func (w wave) XY(i int) (x, y float64) {
	return float64(i), w.amplitude * math.Cos(float64(i)*math.Pi/90)
}

func newFigure() *page.Figure {
	panel := &page.Panel{
		X: page.Axis{Label: "rotation of the first shaft θ, °", Range: page.Interval{Max: 360}, Ticker: page.Turn{}},
		Y: page.Axis{Label: "speed deviation, %", Least: page.Around(0, 0.1)},
	}
	panel.Add(
		page.Curve{Name: "axle pinion", Points: wave{0.8}, Pen: page.Accent(), End: "shaft 4"},
		page.Rule{At: 1, Label: "limit 1 %", Pen: page.Limit()},
	)
	figure := &page.Figure{Title: "How evenly does the pinion turn?", Caption: "It shakes twice per turn."}
	figure.Add(panel)
	return figure
}

func Example() {
	svg, err := page.Encode(newFigure(), page.SVG, page.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(bytes.Contains(svg, []byte("limit 1 %")))
	fmt.Println(page.Save("figure.bmp", newFigure(), page.Options{}))
	// Output:
	// true
	// figure file "figure.bmp": ending ".bmp": want .png, .svg or .pdf
}

// Any plot.Ticker chooses the numbers of an axis, those of the drawing library too.
func ExampleAxis_ticker() {
	figure := newFigure()
	figure.Rows[0].Panels[0].X.Ticker = plot.ConstantTicks{{Value: 90, Label: "level"}, {Value: 180, Label: "upright"}}
	svg, err := page.Encode(figure, page.SVG, page.Options{})
	fmt.Println(strings.Contains(string(svg), ">upright<"), err)
	// Output: true <nil>
}

// Any plot.Plotter is a layer of a panel: here bars of the drawing library.
func ExamplePanel_Add() {
	bars, err := plotter.NewBarChart(plotter.Values{0.63, 0.0035}, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	bars.Color = page.Lagoon
	panel := &page.Panel{X: page.Axis{Label: "order"}, Y: page.Axis{Label: "lead, °"}}
	panel.Add(bars, page.Rule{At: 0.5, Label: "limit", Pen: page.Limit()})
	figure := &page.Figure{Title: "Which orders are left?"}
	figure.Add(panel)
	svg, err := page.Encode(figure, page.SVG, page.Options{})
	fmt.Println(strings.Count(string(svg), `fill="#208ea8"`), "bars,", err)
	// Output: 2 bars, <nil>
}

// The layers of this package are drawn in any plot.
func ExampleCurve_Plot() {
	p := plot.New()
	p.Add(page.Curve{Points: wave{0.8}, Pen: page.Accent()}, page.Rule{At: 1, Pen: page.Limit()})
	fmt.Println(p.X.Min, p.X.Max, p.Y.Min, p.Y.Max)
	p.Draw(draw.New(vgimg.New(200, 100)))
	// Output: 0 360 -0.8 1
}

// A figure is drawn on any canvas: here two of them side by side on one image.
func ExampleFigure_Draw() {
	canvas := vgimg.New(800, 250)
	whole := draw.New(canvas)
	for _, half := range []draw.Canvas{draw.Crop(whole, 0, -400, 0, 0), draw.Crop(whole, 400, 0, 0, 0)} {
		if err := newFigure().Draw(half); err != nil {
			fmt.Println(err)
			return
		}
	}
	red := 0 // pixels of the curve, in both halves
	for x := range canvas.Image().Bounds().Dx() {
		for y := range canvas.Image().Bounds().Dy() {
			if color.RGBAModel.Convert(canvas.Image().At(x, y)) == color.RGBAModel.Convert(page.Signal) {
				red++
			}
		}
	}
	fmt.Println(red > 100)
	// Output: true
}

// Held places keep a figure still while what it shows changes: its data areas stay, and
// axes grow but never shrink.
func ExampleFigure_Places() {
	figure := newFigure()
	before, err := figure.Places()
	if err != nil {
		fmt.Println(err)
		return
	}
	panel := figure.Rows[0].Panels[0]
	for _, amplitude := range []float64{0.2, 1500} {
		panel.Layers[0] = page.Curve{Name: "axle pinion", Points: wave{amplitude}, Pen: page.Accent(), End: "shaft 4"}
		figure.Held = before
		after, err := figure.Places()
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(after[0].Area == before[0].Area, after[0].Y == before[0].Y, after[0].Y.Max > 1500)
	}
	// Output:
	// true true false
	// true false true
}
