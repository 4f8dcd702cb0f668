package plotting

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"halfturn/kinematics"
	"halfturn/plotting/page"
	"halfturn/plotting/scene"
)

// yokeView is where yokes are seen from.
var yokeView = scene.From(eyeBehind*kinematics.Degree, eyeAbove*kinematics.Degree)

const (
	eyeBehind = 35
	eyeAbove  = 15
)

// viewCaption tells what is true in the picture of the yokes and what is not.
var viewCaption = fmt.Sprintf("Seen from the right, %d° from behind and %d° from above, without perspective. Angles and rotations are true, shafts are shortened; dark stripes and pins mark one side of each shaft.",
	eyeBehind, eyeAbove)

// Yokes returns the figure of the yokes and crosses of a driveline when its first shaft
// has turned by theta, in radians.
func Yokes(c *Case, theta float64) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if math.IsNaN(theta) || math.IsInf(theta, 0) {
		return nil, fmt.Errorf("rotation of the first shaft: %g rad: want a finite angle", theta)
	}
	p := &page.Panel{Bare: true}
	p.Add(c.yokesAt(theta))
	return &page.Figure{
		Title:    "How do the yokes stand?",
		Subtitle: c.subtitle(),
		Rows:     []page.Row{{Panels: []*page.Panel{p}}},
		Caption:  fmt.Sprintf("The first shaft has turned by θ = %.4g°. %s", theta/kinematics.Degree, viewCaption),
		Size:     c.yokesSize(),
	}, nil
}

// yokesSize is the usual page, but no higher than joints need that stand in one row from
// edge to edge.
func (c *Case) yokesSize() page.Size {
	const oneRow = 4    // joints at most
	const others = 11.5 // em: texts, border and labels
	size := page.Single
	if len(c.Joints) <= oneRow {
		row := c.row(0, len(c.Joints)).Extent(yokeView).Size()
		needed := (size.Width-2*size.Border)*vg.Length(row.Y/row.X) + others*size.Text
		size.Height = min(size.Height, needed)
	}
	return size
}

// yokesAt draws all joints when the first shaft has turned by theta.
func (c *Case) yokesAt(theta float64) page.Drawing {
	return page.Drawing{
		Reach: ownPlace,
		Draw: func(s *page.Sketch) {
			for _, r := range c.fitRows(s) {
				r.Draw(r.picture, theta)
				for _, p := range r.Joints {
					c.writeAngle(s, r, p)
				}
			}
		},
	}
}

// ownPlace is the reach of a drawing that fits itself into its panel, whose axes it does
// not use.
var ownPlace = []plotter.XY{{}, {X: 1, Y: 1}}

// writeAngle writes below a joint what it is and how far it bends, as far as there is
// room.
func (c *Case) writeAngle(s *page.Sketch, r placedRow, p scene.Place) {
	joint := r.Reach(yokeView, p)
	middle, room := joint.Center().X, joint.Size().X+0.6*scene.Between
	angle := degrees(c.Analysis.Bends[p.Joint].Angle)
	for _, text := range []string{c.joint(p.Joint) + ": " + angle, angle} {
		width := s.Caption.Width(text).Points() / r.picture.Scale
		if len(r.Joints) > 1 && width > room {
			continue
		}
		at := r.picture.OnPage(r2.Vec{X: middle, Y: r.lowest(middle-width/2, middle+width/2)})
		at.Y -= 0.4 * s.Em()
		s.Caption.Draw(s, at, 0.5, 1, text)
		return
	}
}

// lowest returns the lowest point of the row in a part of its width.
func (r placedRow) lowest(from, to float64) float64 {
	low := math.Inf(1)
	for _, b := range r.Extents(yokeView) {
		if b.Min.X < to && from < b.Max.X {
			low = min(low, b.Min.Y)
		}
	}
	return low
}
