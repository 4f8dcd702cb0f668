package plotting_test

import (
	"bytes"
	"fmt"
	"math"

	"halfturn/plotting"
)

func Example() {
	theta, deviation := make([]float64, 361), make([]float64, 361)
	for i := range theta {
		theta[i] = float64(i)
		deviation[i] = 0.8 * math.Cos(2*theta[i]*math.Pi/180)
	}
	panel := &plotting.Panel{
		X: plotting.Axis{Label: "rotation of the first shaft θ, °", Range: plotting.Interval{Max: 360}, Ticker: plotting.Turn{}},
		Y: plotting.Axis{Label: "speed deviation, %", Least: plotting.Around(0, 0.1)},
	}
	panel.Add(
		plotting.Curve{Name: "axle pinion", X: theta, Y: deviation, Pen: plotting.Accent(), End: "shaft 4"},
		plotting.Rule{At: 1, Label: "limit 1 %", Pen: plotting.Limit()},
	)
	figure := &plotting.Figure{Title: "How evenly does the pinion turn?", Caption: "It shakes twice per turn."}
	figure.Add(panel)

	svg, err := plotting.Encode(figure, plotting.SVG, plotting.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(bytes.Contains(svg, []byte("limit 1 %")))
	fmt.Println(plotting.Save("figure.bmp", figure, plotting.Options{}))
	// Output:
	// true
	// figure file "figure.bmp": ending ".bmp": want .png, .svg or .pdf
}
