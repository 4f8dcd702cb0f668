package plotting

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
)

// viewDrawing is a driveline drawn in one view.
type viewDrawing struct {
	*Case
	view
	plain  bool // angles and phases only, no names
	course []r3.Vec
	grain  vg.Length // size of what is not to scale, in em; 0 before drawing
}

func newViewDrawing(c *Case) viewDrawing {
	return viewDrawing{Case: c, course: c.course()}
}

// steep reports whether the views are high enough to stand better side by side.
func (d viewDrawing) steep() bool {
	start, end := extent(d.course, func(p r3.Vec) float64 { return p.X })
	return d.height() > 0.15*(end-start)
}

// sideBySide returns both views in one row of a given relative height.
func (d viewDrawing) sideBySide(height float64) []Row {
	return []Row{{Panels: []*Panel{d.panel(sideView, 1), d.panel(topView, 1)}, Height: height}}
}

// stacked returns both views below each other, the upper one of a given relative height.
func (d viewDrawing) stacked(height float64) []Row {
	const lower = 0.8 // the top view has no joints to name
	return []Row{
		{Panels: []*Panel{d.panel(sideView, 1)}, Height: height},
		{Panels: []*Panel{d.panel(topView, lower)}, Height: lower * height},
	}
}

func (d viewDrawing) panel(v view, share float64) *Panel {
	d.view = v
	p := &Panel{Title: v.title, Equal: true, Bare: true}
	p.Add(Drawing{Reach: d.reach(share), Draw: d.draw})
	return p
}

// Sizes that are not to scale, in grains.
const (
	tubeWidth  = 0.5
	forkLength = 1.5 // from the joint centre to the root of a yoke
	earReach   = 0.8 // from the joint centre to an ear
	extension  = 4.5 // of a shaft's axis beyond the joint
)

// reach returns a box with room for labels above and below. Boxes are alike in all views, but for the share of the page
// that each has, so that they come out at one scale.
func (d viewDrawing) reach(share float64) []XY {
	const room = 1.1 // half height per height of the driveline
	low, high := extent(d.course, func(p r3.Vec) float64 { return p.X })
	bottom, top := extent(d.course, d.up)
	middle, half := (bottom+top)/2, room*share*max(d.height(), 0.01*(high-low)) // also of one that is dead straight
	return []XY{{low, middle - half}, {high, middle + half}}
}

// height is the largest of any view.
func (d viewDrawing) height() float64 {
	height := 0.0
	for _, v := range []view{sideView, topView} {
		bottom, top := extent(d.course, v.up)
		height = max(height, top-bottom)
	}
	return height
}

// extent returns the lowest and the highest value of a coordinate.
func extent(course []r3.Vec, of func(r3.Vec) float64) (lo, hi float64) {
	i := nothing
	for _, p := range course {
		i = i.including(of(p))
	}
	return i.Min, i.Max
}

func (d viewDrawing) draw(s *Sketch) {
	d.grain = d.fineness(s)
	d.level(s)
	shafts := d.Driveline.Shafts()
	for k := 1; k <= d.last(); k++ {
		d.bend(s, k)
	}
	for k := range shafts {
		d.tube(s, k)
	}
	for k := 1; k <= d.last(); k++ {
		d.joint(s, k)
	}
	d.labels(s)
}

// fineness returns the largest size up to 1 em at which the yokes of no shaft run into each other.
func (d viewDrawing) fineness(s *Sketch) vg.Length {
	grain := vg.Length(1)
	for k := 1; k < d.last(); k++ {
		p, q := d.at(s, d.course[k]), d.at(s, d.course[k+1])
		length := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
		grain = min(grain, max(vg.Length(length)/(3.2*forkLength*s.Em()), 0.3))
	}
	return grain
}

// at returns where a point in space is on the page.
func (d viewDrawing) at(s *Sketch, p r3.Vec) vg.Point {
	at := s.At(XY{p.X, d.up(p)})
	at.Y += d.lift * s.Em()
	return at
}

// from returns the point on the page that is grains·v from p, seen in this view.
func (d viewDrawing) from(s *Sketch, p vg.Point, v r3.Vec, grains vg.Length) vg.Point {
	by := grains * d.grain * s.Em()
	return vg.Point{X: p.X + by*vg.Length(v.X), Y: p.Y + by*vg.Length(d.up(v))}
}

func (d viewDrawing) axis(k int) r3.Vec { return r3.Unit(r3.Sub(d.course[k+1], d.course[k])) }

// level draws a level line through the first joint, against which slopes are seen.
func (d viewDrawing) level(s *Sketch) {
	y := d.at(s, d.course[1]).Y
	s.StrokeLine2(s.letters.scaled(draw.LineStyle{Color: Faint, Width: 0.8}), s.Min.X, y, s.Max.X, y)
}

// bend draws the bend of the joint before shaft k: the axis of the shaft before it goes on, and an arc leads to the next.
func (d viewDrawing) bend(s *Sketch, k int) {
	p := d.at(s, d.course[k])
	end := d.from(s, p, d.axis(k-1), extension)
	s.StrokeLines(s.letters.scaled(Aid()), []vg.Point{p, end})

	from := d.angle(d.axis(k - 1))
	sweep := math.Remainder(d.angle(d.axis(k))-from, 2*math.Pi)
	if math.Abs(sweep) > kinematics.Degree/2 {
		sin, cos := math.Sincos(from)
		radius := 0.85 * extension * d.grain * s.Em()
		var arc vg.Path
		arc.Move(vg.Point{X: p.X + radius*vg.Length(cos), Y: p.Y + radius*vg.Length(sin)})
		arc.Arc(p, radius, from, sweep)
		s.paint(nil, draw.LineStyle{Color: signal, Width: 1.2}, arc)
	}
}

// angle is the direction of an axis on the page.
func (d viewDrawing) angle(axis r3.Vec) float64 { return math.Atan2(d.up(axis), axis.X) }

// tube draws a shaft from yoke to yoke.
func (d viewDrawing) tube(s *Sketch, k int) {
	from, to := d.at(s, d.course[k]), d.at(s, d.course[k+1])
	if k > 0 {
		from = d.from(s, from, d.axis(k), forkLength)
	}
	if k < d.last() {
		to = d.from(s, to, d.axis(k), -forkLength)
	}
	pen := s.letters.scaled(draw.LineStyle{Color: Soft, Width: 10 * tubeWidth * d.grain})
	s.StrokeLines(pen, []vg.Point{from, to})
	pen = s.letters.scaled(draw.LineStyle{Color: Shade, Width: 10*tubeWidth*d.grain - 1.4})
	s.StrokeLines(pen, []vg.Point{from, to})
}

// joint draws the joint before shaft k.
func (d viewDrawing) joint(s *Sketch, k int) {
	p := d.at(s, d.course[k])
	switch d.Driveline.Joints()[k-1].Kind {
	case kinematics.ConstantVelocity:
		d.stubs(s, k)
		d.housing(s, p, earReach)
	case kinematics.DoubleCardan:
		d.stubs(s, k)
		middle := r3.Unit(r3.Add(d.axis(k-1), d.axis(k))) // the direction of the coupling yoke
		for _, side := range []vg.Length{-0.6, 0.6} {
			d.housing(s, d.from(s, p, middle, side), 0.75*earReach)
		}
	default:
		d.cardan(s, k)
	}
}

// cardan draws a Cardan joint: the driving yoke, the driven yoke, and the cross that joins their ears.
func (d viewDrawing) cardan(s *Sketch, k int) {
	p := d.at(s, d.course[k])
	_, driving := d.Driveline.Ears(k-1, 0)
	driven, _ := d.Driveline.Ears(k, 0)
	cross := s.letters.scaled(draw.LineStyle{Color: Ink, Width: 1.6 * d.grain})
	for _, ears := range []r3.Vec{driving, driven} {
		s.StrokeLines(cross, []vg.Point{d.from(s, p, ears, -earReach), d.from(s, p, ears, earReach)})
	}
	d.yoke(s, p, r3.Scale(-1, d.axis(k-1)), driving, navy)
	d.yoke(s, p, d.axis(k), driven, lagoon)
}

// stubs draws the ends of the shafts up to the centre of a joint that shows no yokes.
func (d viewDrawing) stubs(s *Sketch, k int) {
	p := d.at(s, d.course[k])
	s.StrokeLines(s.letters.scaled(draw.LineStyle{Color: navy, Width: 2.2 * d.grain}), []vg.Point{d.from(s, p, d.axis(k-1), -forkLength), p})
	s.StrokeLines(s.letters.scaled(draw.LineStyle{Color: lagoon, Width: 2.2 * d.grain}), []vg.Point{p, d.from(s, p, d.axis(k), forkLength)})
}

// housing draws a joint, or half of one, whose inside does not show.
func (d viewDrawing) housing(s *Sketch, p vg.Point, reach vg.Length) {
	radius := reach * d.grain * s.Em()
	var path vg.Path
	path.Move(vg.Point{X: p.X + radius, Y: p.Y})
	path.Arc(p, radius, 0, 2*math.Pi)
	path.Close()
	s.paint(Paper, draw.LineStyle{Color: Ink, Width: 1.6 * d.grain}, path)
}

// yoke draws a yoke: two arms from its root on the shaft to the ears.
func (d viewDrawing) yoke(s *Sketch, p vg.Point, toShaft, ears r3.Vec, clr color.Color) {
	pen := s.letters.scaled(draw.LineStyle{Color: clr, Width: 2.2 * d.grain})
	root := d.from(s, p, toShaft, forkLength)
	for _, side := range []vg.Length{-earReach, earReach} {
		ear := d.from(s, p, ears, side)
		heel := d.from(s, ear, toShaft, 0.6*forkLength)
		s.StrokeLines(pen, []vg.Point{root, heel, ear})
		s.DrawGlyphNoClip(draw.GlyphStyle{Color: clr, Radius: 0.26 * d.grain * s.Em(), Shape: draw.CircleGlyph{}}, ear)
	}
}

// labels writes the joints above the driveline and the shafts below it, each tied to its place by a thin line.
func (d viewDrawing) labels(s *Sketch) {
	var drawing []vg.Point
	for _, p := range d.course {
		drawing = append(drawing, d.at(s, p))
	}
	if d.names {
		s.writeTags(1, d.jointTags(s), drawing)
	}
	s.writeTags(-1, d.shaftTags(s), drawing)
}

// jointTags carry the true working angles.
func (d viewDrawing) jointTags(s *Sketch) []tag {
	var tags []tag
	for k := 1; k <= d.last(); k++ {
		t := tag{
			at:     d.at(s, d.course[k]),
			values: []string{fmt.Sprintf("β%s = %s", subscript(k), degrees(d.Analysis.Bends[k-1].Angle))},
		}
		if kind := d.Driveline.Joints()[k-1].Kind; kind != kinematics.Cardan {
			t.values = append(t.values, string(kind))
		}
		if !d.plain {
			t.name = d.Case.joint(k - 1)
		}
		tags = append(tags, t)
	}
	return tags
}

// shaftTags carry slopes or headings and, in the view that does not name the joints, phases.
func (d viewDrawing) shaftTags(s *Sketch) []tag {
	var tags []tag
	for k, shaft := range d.Driveline.Shafts() {
		p, q := d.at(s, d.course[k]), d.at(s, d.course[k+1])
		t := tag{at: between(p, q, 0.5)}
		if !d.plain {
			t.name, t.values = d.Case.shaft(k), []string{d.slope(shaft.Axis)}
		}
		if 0 < k && k < d.last() && !d.names {
			t.values = append(t.values, "phase "+fewest(shaft.Phase/kinematics.Degree)+"°")
		}
		if len(t.values) > 0 {
			tags = append(tags, t)
		}
	}
	return tags
}
