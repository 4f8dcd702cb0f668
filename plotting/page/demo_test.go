package page

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// turn returns the degrees 0 to 360 in even steps.
func turn(steps int) []float64 {
	x := make([]float64, steps+1)
	for i := range x {
		x[i] = 360 * float64(i) / float64(steps)
	}
	return x
}

// wave returns amplitude·cos(2x − phase) for x in degrees.
func wave(x []float64, amplitude, phase float64) []float64 {
	y := make([]float64, len(x))
	for i, v := range x {
		y[i] = amplitude * math.Cos((2*v-phase)*math.Pi/180)
	}
	return y
}

// columns returns the points of two lists of equal length.
func columns(x, y []float64) plotter.XYs {
	points := make(plotter.XYs, len(x))
	for i := range x {
		points[i] = plotter.XY{X: x[i], Y: y[i]}
	}
	return points
}

// landscape returns a page turned on its side.
func landscape(s Size) Size {
	s.Width, s.Height = s.Height, s.Width
	return s
}

func demoTurn(title, label string) *Panel {
	return &Panel{
		Title: title,
		X:     Axis{Label: "rotation of the first shaft θ, °", Range: Interval{0, 360}, Ticker: Turn{}},
		Y:     Axis{Label: label, Least: Around(0, 0.1)},
	}
}

func demoSpeed(title string) *Panel {
	x := turn(360)
	p := demoTurn(title, "speed deviation (ω − ω₁)/ω₁, %")
	p.Add(
		Rule{At: 0, Pen: draw.LineStyle{Color: Line, Width: 0.8}},
		Curve{Name: "gearbox output", Points: columns(x, wave(x, 0, 0)), Pen: Pen(0), End: "shaft 1"},
		Curve{Name: "front shaft", Points: columns(x, wave(x, 0.22, 0)), Pen: Pen(1), End: "shaft 2"},
		Curve{Name: "rear shaft", Points: columns(x, wave(x, 0.6, 180)), Pen: Pen(2), End: "shaft 3"},
		Curve{Name: "second-order part of axle pinion", Points: columns(x, wave(x, 0.78, 36)), Pen: Aid()},
		Curve{Name: "axle pinion: what is left", Points: columns(x, wave(x, 0.8, 40)), Pen: Accent(), End: "shaft 4"},
		Rule{At: 1, Label: "limit 1 %", Pen: Limit()},
	)
	return p
}

func demoFlat() *Panel {
	x := turn(360)
	p := demoTurn("Cancelled", "speed deviation, %")
	p.Add(Curve{Name: "axle pinion: what is left", Points: columns(x, wave(x, 3e-14, 10)), Pen: Accent()})
	return p
}

func demoOrders() *Panel {
	p := &Panel{
		Title: "Orders of the lead",
		X:     Axis{Label: "order, per turn of the first shaft", Range: Interval{1, 9}, Ticker: plot.ConstantTicks{{Value: 2, Label: "2"}, {Value: 4, Label: "4"}, {Value: 6, Label: "6"}, {Value: 8, Label: "8"}}},
		Y:     Axis{Label: "amplitude, °", Log: true},
	}
	o := []float64{2, 4, 6, 8}
	p.Add(
		Curve{Name: "exact", Points: columns(o, []float64{0.632, 0.00349, 2.57e-5, 2.1e-7}), Pen: draw.LineStyle{Color: Signal}, Marker: draw.CircleGlyph{}},
		Curve{Name: "small angles", Points: columns(o[:1], []float64{0.62}), Pen: draw.LineStyle{Color: Ink}, Marker: draw.RingGlyph{}},
	)
	return p
}

func demoMap() *Panel {
	const n = 101
	x, y := make([]float64, n), make([]float64, n)
	z := make([][]float64, n)
	for i := range n {
		x[i] = -6 + 12*float64(i)/(n-1)
		y[i] = 180 * float64(i) / (n - 1)
	}
	for j := range n {
		z[j] = make([]float64, n)
		for i := range n {
			z[j][i] = 120 * math.Hypot(x[i]-1, 4*math.Sin(y[j]*math.Pi/180)) / 2
			if x[i]+y[j]/60 > 7 {
				z[j][i] = math.NaN()
			}
		}
	}
	p := &Panel{Title: "How shim and phase act together",
		X: Axis{Label: "shim, mm"}, Y: Axis{Label: "phase of the rear shaft, °", Ticker: Turn{}}}
	p.Add(Field{X: x, Y: y, Z: z, Label: "peak acceleration, rad/s²", Void: "joint angle above 30°",
		Contours: []Contour{{Level: 200, Name: "limit 200 rad/s²", Pen: Limit()}}},
		Mark{At: plotter.XY{X: 1, Y: 0}, Text: "as it is", Side: RightAbove, Color: Signal, Marker: draw.CircleGlyph{}})
	return p
}

func demoDrawing() *Panel {
	p := &Panel{Title: "Side view, to scale", Equal: true, Bare: true}
	pts := []plotter.XY{{X: 0, Y: 0}, {X: 300, Y: -18}, {X: 1240, Y: -80}, {X: 2510, Y: -216}, {X: 2800, Y: -236}}
	p.Add(Drawing{Reach: []plotter.XY{{X: -50, Y: -300}, {X: 2900, Y: 150}}, Draw: func(s *Sketch) {
		s.Polyline(draw.LineStyle{Color: Line, Width: 0.7, Dashes: Aid().Dashes}, plotter.XY{X: 0, Y: 0}, plotter.XY{X: 2800, Y: 0})
		for i := range len(pts) - 1 {
			s.Polyline(draw.LineStyle{Color: Ink, Width: 3}, pts[i], pts[i+1])
		}
		for i, q := range pts[1:4] {
			s.Circle(Paper, draw.LineStyle{Color: Ink, Width: 1.2}, q, 0.4*s.Em())
			s.Text(q, Above, fmt.Sprintf("β%c = %.1f°", '₁'+rune(i), 2.1+float64(i)))
		}
		s.Arrow(draw.LineStyle{Color: Lagoon, Width: 1.4}, plotter.XY{X: 0, Y: 120}, plotter.XY{X: 500, Y: 120})
		s.Text(plotter.XY{X: 500, Y: 120}, Right, "power flow")
	}})
	return p
}

func demoVectors() *Panel {
	p := &Panel{Title: "Second-order vectors", Equal: true,
		X: Axis{Label: "along, deg²"}, Y: Axis{Label: "across, deg²"}}
	pts := []plotter.XY{{X: 0, Y: 0}, {X: 9, Y: 0}, {X: 1, Y: 3}, {X: 2.5, Y: 2.2}}
	p.Add(Drawing{Reach: []plotter.XY{{X: -3, Y: -3}, {X: 10, Y: 4}}, Draw: func(s *Sketch) {
		s.Circle(Shade, Limit(), plotter.XY{}, s.Length(3))
		for i := range 3 {
			s.Arrow(draw.LineStyle{Color: pens[i], Width: 1.6}, pts[i], pts[i+1])
			mid := plotter.XY{X: (pts[i].X + pts[i+1].X) / 2, Y: (pts[i].Y + pts[i+1].Y) / 2}
			s.Text(mid, Above, fmt.Sprintf("β%d²", i+1))
		}
		s.Arrow(Accent(), pts[0], pts[3])
	}, Keys: []Key{{Name: "what is left", Pen: Accent()}, {Name: "limit", Pen: Limit(), Fill: Shade}}})
	return p
}

func demos() map[string]*Figure {
	one := &Figure{
		Title:    "How evenly does each shaft turn?",
		Subtitle: "Two-piece rear driveline · 2800 rpm",
		Caption:  "The pinion shakes twice per turn, 93 times a second. Turning the rear shaft by 90° in its splines would cancel most of it: compare the dashed second-order part, which is nearly all there is.",
	}
	one.Add(demoSpeed(""))

	flat := &Figure{Title: "Does it cancel?", Subtitle: "Two equal angles in phase"}
	flat.Add(demoFlat())

	many := &Figure{Title: "Twelve cases, told apart", Subtitle: "An uncommonly long list", Legend: LegendTop}
	p := demoTurn("", "acceleration, rad/s²")
	x := turn(180)
	for i := range 12 {
		p.Add(Curve{Name: fmt.Sprintf("case %d with a name that goes on and on", i+1), Points: columns(x, wave(x, 20+30*float64(i), 15*float64(i))), Pen: Pen(i), End: fmt.Sprint(i + 1)})
	}
	many.Add(p)
	right := *many
	right.Legend = LegendRight

	sheet := &Figure{Title: "What is left at the axle, and why", Subtitle: "Two-piece rear driveline, invented", Size: A4, Legend: LegendPanels,
		Facts:   []Fact{{"speed", "2800 rpm"}, {"reading error", "0.1°"}, {"joints", "3 Cardan"}, {"second order", "93.3 Hz"}, {"sign rule", "look along the power flow: down, right, clockwise are positive"}},
		Caption: "Read from top to bottom: geometry, motion, the sum of the joints' contributions. What it leaves out: play, bending, unbalance, rubber and torsional resonance."}
	sheet.Rows = []Row{{Panels: []*Panel{demoDrawing()}, Height: 0.7}, {Panels: []*Panel{demoSpeed("Speed")}, Height: 1}, {Panels: []*Panel{demoVectors(), demoOrders()}}}

	slide := &Figure{Title: "Shim or clocking: which helps more?", Size: Slide, Legend: LegendTop}
	slide.Add(demoMap(), demoSpeed("Speed now"))

	stack := &Figure{Title: "Where in the turn is it worst?", Size: landscape(A4), Subtitle: "Stacked panels share one axis"}
	up, down := demoSpeed("Driving"), demoSpeed("Coasting")
	up.X.Bare = true
	up.Add(Rule{At: 20, Upright: true, Label: "fastest", Pen: Aid()}, Rule{At: 40, Upright: true, Label: "ears level", Pen: Aid()}, Rule{At: 355, Upright: true, Label: "a long label at the end", Pen: Aid()},
		Mark{At: plotter.XY{X: 110, Y: -0.8}, Text: "slowest, −0.80 %", Side: RightBelow, Color: Ink, Marker: draw.CircleGlyph{}})
	stack.Add(up)
	stack.Add(down)

	four := &Figure{Title: "Four panels", Size: Size{Width: 720, Height: 504, Text: 10, Border: 14}}
	four.Add(demoSpeed("a"), demoSpeed("b"))
	four.Add(demoSpeed("c"), demoFlat())
	return map[string]*Figure{"one": one, "flat": flat, "many": many, "right": &right, "sheet": sheet, "slide": slide, "four": four, "stack": stack}
}
