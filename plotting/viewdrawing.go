package plotting

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"

	"halfturn/kinematics"
)

// viewDrawing is a driveline drawn in views that all come out at one scale.
type viewDrawing struct {
	*Case
	plain  bool // angles and phases only, no names
	course []r3.Vec
	shown  []shownView
}

// A shownView is a view with the height of its panel relative to the others. All panels are equally wide.
type shownView struct {
	view
	height float64
}

func newViewDrawing(c *Case) *viewDrawing {
	return &viewDrawing{Case: c, course: c.course()}
}

// steep reports whether the views are high enough to stand better side by side.
func (d *viewDrawing) steep() bool { return d.steepness() > 0.15 }

// steepness is the height of the driveline, in the view in which it is higher, as a part of its length.
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
func (d *viewDrawing) alone() *Panel {
	d.shown = []shownView{{sideView, 1}}
	return d.panel(0)
}

// sideBySide returns both views in one row of a given relative height.
func (d *viewDrawing) sideBySide(height float64) []Row {
	d.shown = []shownView{{sideView, 1}, {topView, 1}}
	return []Row{{Panels: []*Panel{d.panel(0), d.panel(1)}, Height: height}}
}

// stacked returns both views below each other, the upper one of a given relative height.
func (d *viewDrawing) stacked(height float64) []Row {
	const lower = 0.8 // the top view has no joints to name
	d.shown = []shownView{{sideView, 1}, {topView, lower}}
	return []Row{
		{Panels: []*Panel{d.panel(0)}, Height: height},
		{Panels: []*Panel{d.panel(1)}, Height: lower * height},
	}
}

func (d *viewDrawing) panel(i int) *Panel {
	p := &Panel{Title: d.shown[i].title, Bare: true}
	p.Add(Drawing{Reach: ownPlace, Draw: func(s *Sketch) { d.picture(s, i).draw() }})
	return p
}

// picture places a view in its panel, as large as all views can be with their tags.
func (d *viewDrawing) picture(s *Sketch, i int) viewPicture {
	const width = 0.9 // of the panel
	start, end := extent(d.course, along)
	scale := width * s.Size().X.Points() / (end - start)
	for _, v := range d.shown {
		bottom, top := extent(d.course, v.up)
		above, below := d.room(s, v.view)
		free := s.Size().Y*vg.Length(v.height/d.shown[i].height) - above - below
		if by := max(free, s.Em()).Points() / (top - bottom); by < scale { // not for one that is straight
			scale = by
		}
	}

	p := viewPicture{viewDrawing: d, view: d.shown[i].view, Sketch: s, scale: scale}
	bottom, top := extent(d.course, p.up)
	above, below := d.room(s, p.view)
	middle := (s.Min.Y + below + s.Max.Y - above) / 2
	p.origin = vg.Point{
		X: (s.Min.X+s.Max.X)/2 - vg.Length(scale*(start+end)/2),
		Y: middle - vg.Length(scale*(bottom+top)/2),
	}
	p.grain = p.fineness()
	return p
}

// room returns what the tags of a view need above and below the driveline.
func (d *viewDrawing) room(s *Sketch, v view) (above, below vg.Length) {
	return max(s.band(d.jointTags(v)).depth(s), s.Em()), max(s.band(d.shaftTags(v)).depth(s), s.Em())
}

// jointTags carry the true working angles. They stand in the view that names the joints.
func (d *viewDrawing) jointTags(v view) []tag {
	if !v.names {
		return nil
	}
	var tags []tag
	for k, joint := range d.Driveline.Joints() {
		t := tag{values: []string{fmt.Sprintf("β%s = %s", subscript(k+1), degrees(d.Analysis.Bends[k].Angle))}}
		if joint.Kind != kinematics.Cardan {
			t.values = append(t.values, string(joint.Kind))
		}
		if !d.plain {
			t.name = d.Case.joint(k)
		}
		tags = append(tags, t)
	}
	return tags
}

// shaftTags carry slopes or headings and, in the view that does not name the joints, phases.
func (d *viewDrawing) shaftTags(v view) []tag {
	var tags []tag
	for k, shaft := range d.Driveline.Shafts() {
		var t tag
		if !d.plain {
			t.name, t.values = d.Case.shaft(k), []string{v.slope(shaft.Axis)}
		}
		if 0 < k && k < d.last() && !v.names {
			t.values = append(t.values, "phase "+fewest(shaft.Phase/kinematics.Degree)+"°")
		}
		tags = append(tags, t)
	}
	return tags
}

func along(p r3.Vec) float64 { return p.X }

// extent returns the lowest and the highest value of a coordinate.
func extent(course []r3.Vec, of func(r3.Vec) float64) (lo, hi float64) {
	i := nothing
	for _, p := range course {
		i = i.including(of(p))
	}
	return i.Min, i.Max
}
