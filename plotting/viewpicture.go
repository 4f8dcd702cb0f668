package plotting

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Sizes that are not to scale, in grains.
const (
	tubeWidth  = 0.5
	forkLength = 1.5 // from the joint centre to the root of a yoke
	earReach   = 0.8 // from the joint centre to an ear
	extension  = 4.5 // of a shaft's axis beyond the joint
)

// viewPicture is a driveline drawn in one view.
type viewPicture struct {
	*viewDrawing
	view
	*page.Sketch
	scale  float64   // points on the page to the unit of length
	origin vg.Point  // where the start of the first shaft is on the page
	grain  vg.Length // size of what is not to scale, in em
}

func (d viewPicture) draw() {
	d.level()
	for k := 1; k <= d.last(); k++ {
		d.bend(k)
	}
	for k := range d.Shafts {
		d.tube(k)
	}
	for k := 1; k <= d.last(); k++ {
		d.joint(k)
	}
	drawing := d.outline()
	above, below := d.jointTags(d.view), d.shaftTags(d.view)
	for k := range above {
		above[k].At = drawing[k+1]
	}
	for k := range below {
		below[k].At = drawing[k].Add(drawing[k+1]).Scale(0.5)
	}
	upper, lower := bands(d.Sketch, d.Size().Y, above, below)
	upper.Write(d.Sketch, 1, drawing)
	lower.Write(d.Sketch, -1, drawing)
}

// fineness returns the largest size up to 1 em at which the yokes of no shaft run into
// each other.
func (d viewPicture) fineness() vg.Length {
	grain := vg.Length(1)
	for k := 1; k < d.last(); k++ {
		p, q := d.at(d.course[k]), d.at(d.course[k+1])
		length := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
		grain = min(grain, max(vg.Length(length)/(3.2*forkLength*d.Em()), 0.3))
	}
	return grain
}

// outline returns the ends of the shafts and of what reaches beyond them: where an arc
// ends and the axis of the shaft before a joint.
func (d viewPicture) outline() []vg.Point {
	var points []vg.Point
	for _, p := range d.course {
		points = append(points, d.at(p))
	}
	for k := 1; k <= d.last(); k++ {
		points = append(points, d.beyond(k), d.arcEnd(k))
	}
	return points
}

// box is what the picture takes of the page.
func (d viewPicture) box() vg.Rectangle {
	points := d.outline()
	box := vg.Rectangle{Min: points[0], Max: points[0]}
	for _, p := range points {
		box.Min = vg.Point{X: min(box.Min.X, p.X), Y: min(box.Min.Y, p.Y)}
		box.Max = vg.Point{X: max(box.Max.X, p.X), Y: max(box.Max.Y, p.Y)}
	}
	return box
}

// beyond is where the axis of the shaft before joint k ends behind the joint.
func (d viewPicture) beyond(k int) vg.Point { return d.from(d.at(d.course[k]), d.axis(k-1), extension) }

// arcEnd is where the arc ends that leads from there to the next shaft.
func (d viewPicture) arcEnd(k int) vg.Point {
	sin, cos := math.Sincos(d.angle(d.axis(k)))
	p, radius := d.at(d.course[k]), d.arcRadius()
	return vg.Point{X: p.X + radius*vg.Length(cos), Y: p.Y + radius*vg.Length(sin)}
}

func (d viewPicture) arcRadius() vg.Length { return 0.85 * extension * d.grain * d.Em() }

// at returns where a point in space is on the page.
func (d viewPicture) at(p r3.Vec) vg.Point {
	return vg.Point{X: d.origin.X + vg.Length(d.scale*p.X), Y: d.origin.Y + vg.Length(d.scale*d.up(p))}
}

// from returns the point on the page that is grains·v from p, seen in this view.
func (d viewPicture) from(p vg.Point, v r3.Vec, grains vg.Length) vg.Point {
	by := grains * d.grain * d.Em()
	return vg.Point{X: p.X + by*vg.Length(v.X), Y: p.Y + by*vg.Length(d.up(v))}
}

// level draws a level line through the first joint, against which slopes are seen.
func (d viewPicture) level() {
	y := d.at(d.course[1]).Y
	d.StrokeLine2(d.Scaled(draw.LineStyle{Color: page.Faint, Width: 0.8}), d.Min.X, y, d.Max.X, y)
}

// bend draws the bend of the joint before shaft k: the axis of the shaft before it goes
// on, and an arc leads to the next.
func (d viewPicture) bend(k int) {
	p := d.at(d.course[k])
	d.StrokeLines(d.Scaled(page.Aid()), []vg.Point{p, d.beyond(k)})

	from, sweep := d.angle(d.axis(k-1)), d.view.bend(d.axis(k-1), d.axis(k))
	if math.Abs(sweep) > kinematics.Degree/2 {
		sin, cos := math.Sincos(from)
		radius := d.arcRadius()
		var arc vg.Path
		arc.Move(vg.Point{X: p.X + radius*vg.Length(cos), Y: p.Y + radius*vg.Length(sin)})
		arc.Arc(p, radius, from, sweep)
		d.Paint(nil, draw.LineStyle{Color: page.Signal, Width: 1.2}, arc)
	}
}

// tube draws a shaft from yoke to yoke.
func (d viewPicture) tube(k int) {
	from, to := d.at(d.course[k]), d.at(d.course[k+1])
	if k > 0 {
		from = d.from(from, d.axis(k), forkLength)
	}
	if k < d.last() {
		to = d.from(to, d.axis(k), -forkLength)
	}
	pen := d.Scaled(draw.LineStyle{Color: page.Soft, Width: 10 * tubeWidth * d.grain})
	d.StrokeLines(pen, []vg.Point{from, to})
	pen = d.Scaled(draw.LineStyle{Color: page.Shade, Width: 10*tubeWidth*d.grain - 1.4})
	d.StrokeLines(pen, []vg.Point{from, to})
}

// joint draws the joint before shaft k.
func (d viewPicture) joint(k int) {
	p := d.at(d.course[k])
	switch kind := d.Driveline.Joints()[k-1].Kind; kind {
	case kinematics.ConstantVelocity:
		d.stubs(k)
		d.housing(p, earReach)
	case kinematics.DoubleCardan:
		d.stubs(k)
		middle := r3.Unit(r3.Add(d.axis(k-1), d.axis(k))) // the direction of the coupling yoke
		for _, side := range []vg.Length{-0.6, 0.6} {
			d.housing(d.from(p, middle, side), 0.75*earReach)
		}
	case kinematics.Cardan:
		d.cardan(k)
	default:
		panic(fmt.Sprintf("plotting: views cannot draw a %s joint", kind))
	}
}

// cardan draws a Cardan joint: the driving yoke, the driven yoke, and the cross that
// joins their ears.
func (d viewPicture) cardan(k int) {
	p := d.at(d.course[k])
	_, driving := d.Driveline.Ears(k-1, 0)
	driven, _ := d.Driveline.Ears(k, 0)
	cross := d.Scaled(draw.LineStyle{Color: page.Ink, Width: 1.6 * d.grain})
	for _, ears := range []r3.Vec{driving, driven} {
		d.StrokeLines(cross, []vg.Point{d.from(p, ears, -earReach), d.from(p, ears, earReach)})
	}
	d.yoke(p, r3.Scale(-1, d.axis(k-1)), driving, page.Navy)
	d.yoke(p, d.axis(k), driven, page.Lagoon)
}

// stubs draws the ends of the shafts up to the centre of a joint that shows no yokes.
func (d viewPicture) stubs(k int) {
	p := d.at(d.course[k])
	d.StrokeLines(d.Scaled(draw.LineStyle{Color: page.Navy, Width: 2.2 * d.grain}), []vg.Point{d.from(p, d.axis(k-1), -forkLength), p})
	d.StrokeLines(d.Scaled(draw.LineStyle{Color: page.Lagoon, Width: 2.2 * d.grain}), []vg.Point{p, d.from(p, d.axis(k), forkLength)})
}

// housing draws a joint, or half of one, whose inside does not show.
func (d viewPicture) housing(p vg.Point, reach vg.Length) {
	radius := reach * d.grain * d.Em()
	var path vg.Path
	path.Move(vg.Point{X: p.X + radius, Y: p.Y})
	path.Arc(p, radius, 0, 2*math.Pi)
	path.Close()
	d.Paint(page.Paper, draw.LineStyle{Color: page.Ink, Width: 1.6 * d.grain}, path)
}

// yoke draws a yoke: two arms from its root on the shaft to the ears.
func (d viewPicture) yoke(p vg.Point, toShaft, ears r3.Vec, clr color.Color) {
	pen := d.Scaled(draw.LineStyle{Color: clr, Width: 2.2 * d.grain})
	root := d.from(p, toShaft, forkLength)
	for _, side := range []vg.Length{-earReach, earReach} {
		ear := d.from(p, ears, side)
		heel := d.from(ear, toShaft, 0.6*forkLength)
		d.StrokeLines(pen, []vg.Point{root, heel, ear})
		d.DrawGlyphNoClip(draw.GlyphStyle{Color: clr, Radius: 0.26 * d.grain * d.Em(), Shape: draw.CircleGlyph{}}, ear)
	}
}
