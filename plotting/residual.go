package plotting

import (
	"errors"
	"fmt"

	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics/limits"
)

// Residual returns the figure of the torsional acceleration left at the last shaft against speed, with its uncertainty,
// its limit and the speed at which it reaches that. name is that of the driveline.
func Residual(name string, r *limits.ResidualFigure) (*Figure, error) {
	if r == nil || len(r.Accel.RPM) == 0 {
		return nil, errors.New("residual: no data: want the acceleration against speed")
	}
	p := &Panel{
		X: Axis{Label: "speed, rev/min"},
		Y: Axis{Label: "peak torsional acceleration at the last shaft, rad/s²", Least: Interval{0, 10}},
	}
	band, err := areaBetween(r.Low, r.High)
	if err != nil {
		return nil, err
	}
	p.Add(band, Curve{Name: "left at the last shaft", X: r.Accel.RPM, Y: r.Accel.Value, Pen: Accent()})
	if r.RPM > 0 {
		p.Add(Mark{At: XY{r.RPM, r.Now.Value}, Text: significant(r.Now.Value) + " rad/s² at " + revolutions(r.RPM),
			Side: LeftAbove, Color: signal, Marker: draw.CircleGlyph{}})
	}
	caption := "No limit of the acceleration applies."
	if r.Limit.Value > 0 {
		p.Add(Rule{At: r.Limit.Value, Label: "limit " + significant(r.Limit.Value), Pen: Limit()})
		caption = fmt.Sprintf("Limit: %s rad/s² (%s)", significant(r.Limit.Value), r.Limit.Basis)
		switch top := r.Accel.RPM[len(r.Accel.RPM)-1]; {
		case r.CrossingRPM == 0:
			caption += "; no speed reaches it."
		case r.CrossingRPM <= top:
			p.Add(Rule{At: r.CrossingRPM, Upright: true, Label: revolutions(r.CrossingRPM), Pen: Aid()})
			fallthrough
		default:
			caption += fmt.Sprintf("; it is reached at %s.", revolutions(r.CrossingRPM))
		}
	}
	return &Figure{
		Title:    "From which speed is it too much?",
		Subtitle: brief(name, 90),
		Rows:     []Row{{Panels: []*Panel{p}}},
		Caption:  caption + " The acceleration grows with the square of the speed; the band is its uncertainty.",
	}, nil
}

// areaBetween fills the area between two curves over the same speeds.
func areaBetween(low, high limits.Curve) (Drawing, error) {
	if len(low.RPM) != len(high.RPM) || len(low.RPM) != len(low.Value) || len(high.RPM) != len(high.Value) {
		return Drawing{}, errors.New("residual: ends of the uncertainty at different speeds: want the same")
	}
	var edge []XY
	for i, x := range low.RPM {
		edge = append(edge, XY{x, low.Value[i]})
	}
	for i := len(high.RPM) - 1; i >= 0; i-- {
		edge = append(edge, XY{high.RPM[i], high.Value[i]})
	}
	return Drawing{
		Reach: edge,
		Keys:  []Key{{Name: "uncertainty", Fill: bandFill}},
		Draw:  func(s *Sketch) { s.Polygon(bandFill, draw.LineStyle{}, edge...) },
	}, nil
}

var bandFill = rgb(0xF3DDD3)
