package plotting

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
)

// Drive says which end of a driveline turns uniformly.
type Drive int

const (
	Driving  Drive = iota // the first shaft; what is left shows at the last
	Coasting              // the last shaft; what is left shows at the first
)

// turning is a case over one turn of the shaft that turns uniformly, sampled.
type turning struct {
	*Case
	drive  Drive
	theta  []float64 // 0 to 360, both included, deg
	shafts []kinematics.Track
	second kinematics.Order // of the shaft at the end that does not turn uniformly
}

// Positions in a turn: enough for a smooth curve, and for the needles of a joint close to 90°.
const (
	turnSteps  = 360
	steepSteps = 3600
	steepRatio = 0.1 // lowest speed ratio, cos β, that counts as steep
)

// motions are those of all shafts.
func (c *Case) motions(drive Drive) []kinematics.Motion {
	if drive == Coasting {
		return c.Analysis.Coasting
	}
	return c.Analysis.Driving
}

// over samples a valid case over a turn.
func (c *Case) over(drive Drive) (*turning, error) {
	t := &turning{Case: c, drive: drive}
	motions := c.motions(drive)
	steps := turnSteps
	for _, m := range motions {
		if m.MinRatio() < steepRatio {
			steps = steepSteps
		}
	}
	r, err := kinematics.NewRevolution(steps)
	if err != nil {
		return nil, err
	}
	r.Sample(motions)
	orders, err := r.Orders(t.left(), 2)
	if err != nil {
		return nil, err
	}
	t.second = orders[0]
	t.shafts = r.Shafts
	t.theta = make([]float64, steps+1)
	for i := range t.theta {
		t.theta[i] = 360 * float64(i) / float64(steps)
	}
	return t, nil
}

// source is the shaft that turns uniformly.
func (t *turning) source() int {
	if t.drive == Coasting {
		return t.last()
	}
	return 0
}

// left is the shaft at the other end, with what is left of the fluctuation.
func (t *turning) left() int { return t.last() - t.source() }

func (t *turning) leftName() string { return "what is left at " + t.shaft(t.left()) }

// motion is that of the shaft with what is left.
func (t *turning) motion() kinematics.Motion { return t.motions(t.drive)[t.left()] }

// cancels reports whether nothing but rounding is left.
func (t *turning) cancels() bool { return t.motion().SecondOrder() < kinematics.NoiseFloor }

// A quantity is what a figure shows of every shaft over a turn: unit·(v − base) of each value v.
type quantity struct {
	label      string
	unit, base float64
	floor      float64 // half of the least range shown: the stated noise floor
	of         func(kinematics.Track) []float64
	order      func(kinematics.Order) (amplitude, phase float64)
}

// values returns the quantity of a shaft at every position of a turning, the last being the first again.
func (q quantity) values(t *turning, shaft int) []float64 {
	v := q.of(t.shafts[shaft])
	values := make([]float64, len(v)+1)
	for i := range values {
		values[i] = q.unit * (v[i%len(v)] - q.base)
	}
	return values
}

// secondOrder returns the second-order part of what is left.
func (q quantity) secondOrder(t *turning) []float64 {
	amplitude, phase := q.order(t.second)
	values := make([]float64, len(t.theta))
	for i, theta := range t.theta {
		values[i] = q.unit * amplitude * math.Cos(2*theta*kinematics.Degree-phase)
	}
	return values
}

// figure shows all shafts and, below, what is left at the end.
func (q quantity) figure(t *turning, title, caption string) *Figure {
	every := q.everyShaft(t, t.leftName())
	every.X.Bare = true
	return &Figure{
		Title:    title,
		Subtitle: t.subtitle(),
		Rows:     []Row{{Panels: []*Panel{every}, Height: 1.3}, {Panels: []*Panel{q.leftApart(t)}}},
		Caption:  caption,
		Size:     tall,
	}
}

// panel returns the axes of a quantity over a turn.
func (q quantity) panel(drive Drive) *Panel {
	shaft := "first"
	if drive == Coasting {
		shaft = "last"
	}
	return &Panel{
		X: Axis{Label: fmt.Sprintf("rotation of the %s shaft θ, °", shaft), Range: Interval{0, 360}, Ticker: Turn{}},
		Y: Axis{Label: q.label, Least: Around(0, q.floor)},
	}
}

// everyShaft shows all shafts, the one with what is left standing out under a name of its own.
func (q quantity) everyShaft(t *turning, left string) *Panel {
	p := q.panel(t.drive)
	for k := range t.shafts {
		if k != t.left() {
			p.Add(Curve{Name: t.shaft(k), X: t.theta, Y: q.values(t, k), Pen: Pen(k)})
		}
	}
	p.Add(q.whatIsLeft(t, left))
	return p
}

// leftApart shows what is left alone, with its second-order part.
func (q quantity) leftApart(t *turning) *Panel {
	p := q.panel(t.drive)
	p.Title = upperFirst(t.leftName()) + ", and its second-order part (dashed)"
	p.Add(
		Rule{At: 0, Pen: zeroLine},
		q.whatIsLeft(t, t.leftName()),
		Curve{X: t.theta, Y: q.secondOrder(t), Pen: theoryLine},
	)
	return p
}

func (q quantity) whatIsLeft(t *turning, name string) Curve {
	return Curve{Name: name, X: t.theta, Y: q.values(t, t.left()), Pen: Accent()}
}

// Pens that the figures share.
var (
	zeroLine   = draw.LineStyle{Color: Line, Width: 0.8}
	theoryLine = draw.LineStyle{Color: Ink, Width: 1, Dashes: []vg.Length{3, 2}} // on top of a heavy curve
)
