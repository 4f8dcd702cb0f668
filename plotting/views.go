package plotting

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Views returns the figure of the driveline in side view and top view, to one scale,
// with slopes, true working angles and the yoke ears as they stand at θ = 0. size is that
// of the page that it will stand on, zero for one of its own: on a wide page the views
// stand side by side.
func Views(c *Case, size page.Size) (*page.Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	d := newViewDrawing(c)
	f := &page.Figure{Title: "How does the driveline lie?", Subtitle: c.subtitle(), Caption: c.viewsCaption()}
	if wide := size.Width > 1.6*size.Height; wide || d.steep() {
		f.Rows = d.sideBySide(1)
		return f, nil
	}
	f.Rows, f.Size = d.stacked(1), page.Tall
	if c.many() {
		f.Size.Height += 40
	}
	f.Size.Height += 2 * vg.Length(max(0, d.steepness()-0.05)) * (f.Size.Width - 2*f.Size.Border)
	return f, nil
}

// many reports whether the values of all joints and shafts need more room than usual.
func (c *Case) many() bool { return c.last() > 5 }

func (c *Case) viewsCaption() string {
	scale := "Shafts are to scale; joints and end stubs are not."
	switch {
	case c.last() == 1:
		scale = "Nothing but the directions is to scale."
	case !c.measured():
		scale = "Lengths are not known: all shafts are drawn alike."
	}
	if c.many() {
		scale += " Where there is no room for all, every second or third value is told."
	}
	return scale + " β: the true working angle, in space. In red: the angle as the view shows it. Along the shafts: their slope or heading in the view. Ears as at θ = 0, when those of the first shaft lie level."
}

// A view is a direction from which a driveline is seen, with the power flow to the right.
type view struct {
	title string
	up    func(r3.Vec) float64 // what is up on the page
	slope func(axis r3.Vec) string
	names bool // joints carry their names and angles
}

var (
	sideView = view{
		title: "Side view (the power flows to the right)",
		up:    func(v r3.Vec) float64 { return v.Z },
		slope: func(axis r3.Vec) string {
			down, _ := kinematics.Slopes(axis)
			return toward(down, "down", "up")
		},
		names: true,
	}
	topView = view{
		title: "Top view",
		up:    func(v r3.Vec) float64 { return v.Y },
		slope: func(axis r3.Vec) string {
			_, right := kinematics.Slopes(axis)
			return toward(right, "right", "left")
		},
	}
)

// angle is the direction of an axis on the page.
func (v view) angle(axis r3.Vec) float64 { return math.Atan2(v.up(axis), axis.X) }

// bend is the angle on the page from one axis to the next.
func (v view) bend(from, to r3.Vec) float64 {
	return math.Remainder(v.angle(to)-v.angle(from), 2*math.Pi)
}

// toward writes a slope with the word for its sense.
func toward(angle float64, positive, negative string) string {
	switch text := degrees(math.Abs(angle)); {
	case text == degrees(0):
		return text
	case angle > 0:
		return text + " " + positive
	default:
		return text + " " + negative
	}
}

// measured reports whether the lengths of all shafts between two joints are known; those
// of a single joint do not matter.
func (c *Case) measured() bool {
	for k := 1; k < c.last(); k++ {
		if c.Lengths == nil || c.Lengths[k] == 0 {
			return false
		}
	}
	return c.last() > 1
}

// course returns the ends of all shafts in space: the start of the first, the joint
// centres and the end of the last. The shafts at both ends are stubs.
func (c *Case) course() []r3.Vec {
	shafts := c.Driveline.Shafts()
	measured, total := c.measured(), 0.0
	length := func(k int) float64 {
		if measured {
			return c.Lengths[k]
		}
		return 1
	}
	for k := 1; k < c.last(); k++ {
		total += length(k)
	}
	stub := 0.16 * total
	if total == 0 {
		stub = 1
	}
	points := []r3.Vec{{}}
	for k, s := range shafts {
		l := stub
		if 0 < k && k < c.last() {
			l = length(k)
		}
		points = append(points, r3.Add(points[k], r3.Scale(l, r3.Unit(s.Axis))))
	}
	return points
}
