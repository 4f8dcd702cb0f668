package plotting

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// Residual returns the figure of the torsional acceleration left at the last shaft
// against speed, with its limit and the speed at which it reaches that, and with its
// uncertainty if it was judged. j is the judgement of the driveline.
func Residual(c *Case, j *limits.Judgement) (*page.Figure, error) {
	if err := checkJudged(c, j); err != nil {
		return nil, err
	}
	top := topSpeed(j.RPM)
	left := newLeftOver(c, j)
	p := &page.Panel{
		X: page.Axis{Label: "speed, rev/min"},
		Y: page.Axis{Label: "peak torsional acceleration at the last shaft, rad/s²", Least: page.Interval{Min: 0, Max: 10}},
	}
	caption := "The acceleration grows with the square of the speed"
	if left.low < left.high {
		p.Add(areaBetween(left.against(left.low, top), left.against(left.high, top)))
		caption += "; the band is its uncertainty"
	}
	p.Add(page.Curve{Name: "left at the last shaft", Points: left.against(left.value, top), Pen: page.Accent()})
	if j.RPM > 0 {
		p.Add(
			page.Rule{At: j.RPM, Upright: true, Label: significant(left.value) + " rad/s² at " + revolutions(j.RPM), Pen: draw.LineStyle{Color: page.Signal, Width: 1}},
			page.Mark{At: plotter.XY{X: j.RPM, Y: left.value}, Color: page.Signal, Marker: draw.CircleGlyph{}})
	}
	limit, ok := j.Set.Limit(survey.LimitResidualAccel, left.rpm)
	said := "No limit of the acceleration applies."
	if ok {
		p.Add(page.Rule{At: limit.Value, Label: "limit " + significant(limit.Value) + " rad/s²", Pen: page.Limit()})
		said = fmt.Sprintf("Limit: %s rad/s² (%s); no speed reaches it.", significant(limit.Value), limit.Basis)
		if !c.over(Driving).cancels() {
			crossing := left.rpm * math.Sqrt(limit.Value/left.value)
			said = fmt.Sprintf("Limit: %s rad/s² (%s); it is reached at %s.", significant(limit.Value), limit.Basis, revolutions(crossing))
			if crossing <= top {
				p.Add(page.Rule{At: crossing, Upright: true, Label: "limit at " + revolutions(crossing), Pen: page.Aid()})
			}
		}
	}
	return &page.Figure{
		Title:    "From which speed is it too much?",
		Subtitle: brief(c.Name, longestName),
		Rows:     []page.Row{{Panels: []*page.Panel{p}}},
		Caption:  said + " " + caption + ".",
	}, nil
}

// leftOver is the peak acceleration of the last shaft at a speed, with the interval in
// which it lies.
type leftOver struct{ rpm, value, low, high float64 }

// newLeftOver returns what was judged; without a speed, or a limit, what the analysis
// says.
func newLeftOver(c *Case, j *limits.Judgement) leftOver {
	for _, v := range j.Verdicts {
		if v.LimitName == survey.LimitResidualAccel && v.Subject == c.Shafts[c.last()] {
			return leftOver{j.RPM, v.Value, v.Low, v.High}
		}
	}
	rpm := j.RPM
	if rpm == 0 {
		rpm = topSpeed(0)
	}
	omega := rpm * kinematics.RPM
	accel := omega * omega * c.Analysis.Driving[c.last()].PeakAccel()
	return leftOver{rpm, accel, accel, accel}
}

// against returns an acceleration that is accel at the speed of l, at speeds up to top.
func (l leftOver) against(accel, top float64) plotter.XYs {
	const steps = 240
	points := make(plotter.XYs, steps+1)
	for i := range points {
		rpm := top * float64(i) / steps
		points[i] = plotter.XY{X: rpm, Y: accel * (rpm / l.rpm) * (rpm / l.rpm)}
	}
	return points
}

// areaBetween fills the area between two curves over the same speeds.
func areaBetween(low, high plotter.XYs) page.Drawing {
	edge := append(plotter.XYs{}, low...)
	for i := range high {
		edge = append(edge, high[len(high)-1-i])
	}
	return page.Drawing{
		Reach: edge,
		Keys:  []page.Key{{Name: "uncertainty", Fill: bandFill}},
		Draw:  func(s *page.Sketch) { s.Polygon(bandFill, draw.LineStyle{}, edge...) },
	}
}

var bandFill = color.RGBA{0xF3, 0xDD, 0xD3, 0xFF}
