package plotting

import (
	"errors"
	"fmt"
	"image/color"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics/limits"
	"halfturn/plotting/page"
)

// Residual returns the figure of the torsional acceleration left at the last shaft against speed, with its uncertainty,
// its limit and the speed at which it reaches that. name is that of the driveline.
func Residual(name string, r *limits.ResidualFigure) (*page.Figure, error) {
	if r == nil || len(r.Accel.RPM) == 0 {
		return nil, errors.New("residual: no data: want the acceleration against speed")
	}
	p := &page.Panel{
		X: page.Axis{Label: "speed, rev/min"},
		Y: page.Axis{Label: "peak torsional acceleration at the last shaft, rad/s²", Least: page.Interval{Min: 0, Max: 10}},
	}
	band, err := areaBetween(r.Low, r.High)
	if err != nil {
		return nil, err
	}
	p.Add(band, page.Curve{Name: "left at the last shaft", Points: pairs(r.Accel.RPM, r.Accel.Value), Pen: page.Accent()})
	if r.RPM > 0 {
		p.Add(page.Mark{At: plotter.XY{X: r.RPM, Y: r.Now.Value}, Text: significant(r.Now.Value) + " rad/s² at " + revolutions(r.RPM),
			Side: page.LeftAbove, Color: page.Signal, Marker: draw.CircleGlyph{}})
	}
	caption := "No limit of the acceleration applies."
	if r.Limit.Value > 0 {
		p.Add(page.Rule{At: r.Limit.Value, Label: "limit " + significant(r.Limit.Value), Pen: page.Limit()})
		caption = fmt.Sprintf("Limit: %s rad/s² (%s)", significant(r.Limit.Value), r.Limit.Basis)
		switch top := r.Accel.RPM[len(r.Accel.RPM)-1]; {
		case r.CrossingRPM == 0:
			caption += "; no speed reaches it."
		case r.CrossingRPM <= top:
			p.Add(page.Rule{At: r.CrossingRPM, Upright: true, Label: revolutions(r.CrossingRPM), Pen: page.Aid()})
			fallthrough
		default:
			caption += fmt.Sprintf("; it is reached at %s.", revolutions(r.CrossingRPM))
		}
	}
	return &page.Figure{
		Title:    "From which speed is it too much?",
		Subtitle: brief(name, 90),
		Rows:     []page.Row{{Panels: []*page.Panel{p}}},
		Caption:  caption + " The acceleration grows with the square of the speed; the band is its uncertainty.",
	}, nil
}

// areaBetween fills the area between two curves over the same speeds.
func areaBetween(low, high limits.Curve) (page.Drawing, error) {
	if len(low.RPM) != len(high.RPM) || len(low.RPM) != len(low.Value) || len(high.RPM) != len(high.Value) {
		return page.Drawing{}, errors.New("residual: ends of the uncertainty at different speeds: want the same")
	}
	var edge []plotter.XY
	for i, x := range low.RPM {
		edge = append(edge, plotter.XY{X: x, Y: low.Value[i]})
	}
	for i := len(high.RPM) - 1; i >= 0; i-- {
		edge = append(edge, plotter.XY{X: high.RPM[i], Y: high.Value[i]})
	}
	return page.Drawing{
		Reach: edge,
		Keys:  []page.Key{{Name: "uncertainty", Fill: bandFill}},
		Draw:  func(s *page.Sketch) { s.Polygon(bandFill, draw.LineStyle{}, edge...) },
	}, nil
}

var bandFill = color.RGBA{0xF3, 0xDD, 0xD3, 0xFF}
