package page_test

import (
	"bytes"
	"fmt"
	"math"

	"gonum.org/v1/plot/plotter"

	"halfturn/plotting/page"
)

func Example() {
	deviation := make(plotter.XYs, 361)
	for i := range deviation {
		theta := float64(i)
		deviation[i] = plotter.XY{X: theta, Y: 0.8 * math.Cos(2*theta*math.Pi/180)}
	}
	panel := &page.Panel{
		X: page.Axis{Label: "rotation of the first shaft θ, °", Range: page.Interval{Max: 360}, Ticker: page.Turn{}},
		Y: page.Axis{Label: "speed deviation, %", Least: page.Around(0, 0.1)},
	}
	panel.Add(
		page.Curve{Name: "axle pinion", Points: deviation, Pen: page.Accent(), End: "shaft 4"},
		page.Rule{At: 1, Label: "limit 1 %", Pen: page.Limit()},
	)
	figure := &page.Figure{Title: "How evenly does the pinion turn?", Caption: "It shakes twice per turn."}
	figure.Add(panel)

	svg, err := page.Encode(figure, page.SVG, page.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(bytes.Contains(svg, []byte("limit 1 %")))
	fmt.Println(page.Save("figure.bmp", figure, page.Options{}))
	// Output:
	// true
	// figure file "figure.bmp": ending ".bmp": want .png, .svg or .pdf
}
