package plotting

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// viewDrawing is a driveline drawn in views that all come out at one scale.
type viewDrawing struct {
	*Case
	plain  bool // angles and phases only, no names
	asked  bool // names, slopes and phases only, no angles
	course []r3.Vec
	shown  []shownView
}

// A shownView is a view with the height of its panel relative to the others. All panels
// are equally wide.
type shownView struct {
	view
	height float64
}

func newViewDrawing(c *Case) *viewDrawing {
	return &viewDrawing{Case: c, course: c.course()}
}

func newPlainViews(c *Case) *viewDrawing {
	return &viewDrawing{Case: c, course: c.course(), plain: true}
}

func newAskedViews(c *Case) *viewDrawing {
	return &viewDrawing{Case: c, course: c.course(), asked: true}
}

// steep reports whether the views are high enough to stand better side by side.
func (d *viewDrawing) steep() bool { return d.steepness() > 0.15 }

// steepness is the height of the driveline, in the view in which it is higher, as a part
// of its length.
func (d *viewDrawing) steepness() float64 {
	height := 0.0
	for _, v := range []view{sideView, topView} {
		bottom, top := extent(d.course, v.up)
		height = max(height, top-bottom)
	}
	start, end := extent(d.course, along)
	return height / (end - start)
}

// alone returns the side view.
func (d *viewDrawing) alone() *page.Panel {
	d.shown = []shownView{{sideView, 1}}
	return d.panel(0)
}

// sideBySide returns both views in one row of a given relative height.
func (d *viewDrawing) sideBySide(height float64) []page.Row {
	d.shown = []shownView{{sideView, 1}, {topView, 1}}
	return []page.Row{{Panels: []*page.Panel{d.panel(0), d.panel(1)}, Height: height}}
}

// stacked returns both views below each other, the upper one of a given relative height.
func (d *viewDrawing) stacked(height float64) []page.Row {
	const lower = 0.85 // the top view does not name the joints
	d.shown = []shownView{{sideView, 1}, {topView, lower}}
	return []page.Row{
		{Panels: []*page.Panel{d.panel(0)}, Height: height},
		{Panels: []*page.Panel{d.panel(1)}, Height: lower * height},
	}
}

func (d *viewDrawing) panel(i int) *page.Panel {
	p := &page.Panel{Title: d.shown[i].title, Bare: true}
	p.Add(page.Drawing{Reach: ownPlace, Draw: func(s *page.Sketch) { d.picture(s, i).draw() }})
	return p
}

// picture places a view in its panel, as large as all views can be with their tags.
func (d *viewDrawing) picture(s *page.Sketch, i int) viewPicture {
	start, end := extent(d.course, along)
	scale := s.Size().X.Points() / (end - start)
	for _, v := range d.shown {
		height := s.Size().Y * vg.Length(v.height/d.shown[i].height)
		above, below := d.room(s, v.view, height)
		free := vg.Point{X: s.Size().X, Y: max(height-above-below, s.Em())}
		scale = d.within(free, viewPicture{viewDrawing: d, view: v.view, Sketch: s, scale: scale})
	}

	p := viewPicture{viewDrawing: d, view: d.shown[i].view, Sketch: s, scale: scale}
	p.grain = p.fineness()
	above, below := d.room(s, p.view, s.Size().Y)
	box := p.box()
	p.origin = vg.Point{
		X: (s.Min.X + s.Max.X - box.Min.X - box.Max.X) / 2,
		Y: (s.Min.Y + below + s.Max.Y - above - box.Min.Y - box.Max.Y) / 2,
	}
	return p
}

// within returns the scale, up to that of a picture, at which it fits into a size with what
// is not to scale.
func (d *viewDrawing) within(size vg.Point, p viewPicture) float64 {
	const step, most = 0.97, 200
	for range most {
		p.grain = p.fineness()
		if box := p.box().Size(); box.X <= size.X && box.Y <= size.Y {
			break
		}
		p.scale *= step
	}
	return p.scale
}

// room returns what the tags of a view need above and below the driveline in a panel of
// some height.
func (d *viewDrawing) room(s *page.Sketch, v view, height vg.Length) (above, below vg.Length) {
	upper, lower := bands(s, height, d.jointTags(v), d.shaftTags(v))
	return max(upper.Depth(s), s.Em()), max(lower.Depth(s), s.Em())
}

// bands sets the tags above and below a driveline, so that they leave room for it.
func bands(s *page.Sketch, height vg.Length, above, below []page.Tag) (upper, lower page.TagBand) {
	const most, least = 0.6, 3 // of the height for those above, and em for the driveline
	upper = s.Tags(above, most*height)
	lower = s.Tags(below, height-upper.Depth(s)-least*s.Em())
	return upper, lower
}

// jointTags carry the angles as the view shows them and, in the view that names the
// joints, the true working angles.
func (d *viewDrawing) jointTags(v view) []page.Tag {
	var tags []page.Tag
	for k, joint := range d.Driveline.Joints() {
		var t page.Tag
		if !d.asked {
			t.Signal = degrees(math.Abs(v.bend(d.axis(k), d.axis(k+1)))) + " as seen"
		}
		if v.names && !d.asked {
			t.Values = []string{fmt.Sprintf("β%s = %s", subscript(k+1), degrees(d.Analysis.Bends[k].Angle))}
		}
		if v.names && joint.Kind != kinematics.Cardan {
			t.Values = append(t.Values, string(joint.Kind))
		}
		if v.names && !d.plain {
			t.Name = d.Case.joint(k)
		}
		tags = append(tags, t)
	}
	return tags
}

// axis is the direction of a shaft.
func (d *viewDrawing) axis(k int) r3.Vec { return r3.Unit(r3.Sub(d.course[k+1], d.course[k])) }

// shaftTags carry slopes or headings and, in the view that does not name the joints, phases.
func (d *viewDrawing) shaftTags(v view) []page.Tag {
	var tags []page.Tag
	for k, shaft := range d.Driveline.Shafts() {
		var t page.Tag
		if !d.plain {
			t.Name, t.Values = d.Case.shaft(k), []string{v.slope(shaft.Axis)}
		}
		if 0 < k && k < d.last() && !v.names {
			t.Values = append(t.Values, "phase "+fewest(shaft.Phase/kinematics.Degree)+"°")
		}
		tags = append(tags, t)
	}
	return tags
}

func along(p r3.Vec) float64 { return p.X }

// extent returns the lowest and the highest value of a coordinate.
func extent(course []r3.Vec, of func(r3.Vec) float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range course {
		lo, hi = min(lo, of(p)), max(hi, of(p))
	}
	return lo, hi
}
