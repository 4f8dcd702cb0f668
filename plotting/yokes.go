package plotting

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
)

// yokeView is where yokes are seen from.
var yokeView = viewFrom(eyeBehind*kinematics.Degree, eyeAbove*kinematics.Degree)

const (
	eyeBehind = 35
	eyeAbove  = 15
)

// viewCaption tells what is true in the picture of the yokes and what is not.
var viewCaption = fmt.Sprintf("Seen from the right, %d° from behind and %d° from above, without perspective; angles and rotations are true, shafts are shortened.",
	eyeBehind, eyeAbove)

// Yokes returns the figure of the yokes and crosses of a driveline when its first shaft has turned by theta, in radians.
func Yokes(c *Case, theta float64) (*Figure, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if math.IsNaN(theta) || math.IsInf(theta, 0) {
		return nil, fmt.Errorf("rotation of the first shaft: %g rad: want a finite angle", theta)
	}
	p := &Panel{Bare: true}
	p.Add(c.yokesAt(theta))
	f := &Figure{Title: "How do the yokes stand?", Subtitle: c.subtitle(), Caption: viewCaption}
	f.Add(p)
	return f, nil
}

// yokesAt draws all joints when the first shaft has turned by theta.
func (c *Case) yokesAt(theta float64) Drawing {
	return Drawing{
		Reach: []XY{{0, 0}, {1, 1}}, // not used: the drawing fits itself into the panel
		Draw: func(s *Sketch) {
			for _, g := range c.fitRows(s) {
				g.drawRow(theta)
			}
		},
	}
}

// A placedRow is a row of joints with its place on the page.
type placedRow struct {
	stage
	jointRow
}

// Room around rows, in em.
const (
	labelRoom = 1.7 // below a row
	rowSpace  = 1.5 // beside it
)

// fitRows breaks a driveline into rows, as few as leave the joints about as large as can be, and places them in a data
// area like words on lines.
func (c *Case) fitRows(s *Sketch) []placedRow {
	const worth = 1.25 // how much larger one row more must make the joints
	var best grid
	for n := 1; n <= len(c.Joints); n++ {
		for columns := 1; columns <= n; columns++ {
			g := newGrid(c, s, n, columns)
			if better := g.scale > best.scale; better && (len(best.rows) == n || g.scale > worth*best.scale) {
				best = g
			}
		}
	}
	return best.place(s)
}

// A grid is a way to break a driveline into rows and to place them in columns.
type grid struct {
	rows    []jointRow
	columns int
	cell    vg.Point // of each row with its labels
	scale   float64  // points on the page to the unit of a joint
}

func newGrid(c *Case, s *Sketch, n, columns int) grid {
	g := grid{columns: columns}
	var width, height float64
	for i := range n {
		r := newJointRow(c, i*len(c.Joints)/n, (i+1)*len(c.Joints)/n)
		width, height = max(width, r.extent(yokeView).width()), max(height, r.extent(yokeView).height())
		g.rows = append(g.rows, r)
	}
	lines := (n + columns - 1) / columns
	g.cell = vg.Point{X: s.Size().X / vg.Length(columns), Y: s.Size().Y / vg.Length(lines)}
	g.scale = min((g.cell.X-rowSpace*s.Em()).Points()/width, (g.cell.Y-labelRoom*s.Em()).Points()/height)
	return g
}

func (g grid) place(s *Sketch) []placedRow {
	var placed []placedRow
	for i, r := range g.rows {
		b := r.extent(yokeView)
		left := s.Min.X + vg.Length(i%g.columns)*g.cell.X
		top := s.Max.Y - vg.Length(i/g.columns)*g.cell.Y
		middle := vg.Point{X: left + g.cell.X/2, Y: top - (g.cell.Y-labelRoom*s.Em())/2}
		origin := vg.Point{
			X: middle.X - vg.Length(g.scale*(b.x.Min+b.x.Max)/2),
			Y: middle.Y - vg.Length(g.scale*(b.y.Min+b.y.Max)/2),
		}
		placed = append(placed, placedRow{stage{yokeView, s, origin, g.scale}, r})
	}
	return placed
}

func (r placedRow) drawRow(theta float64) {
	r.drawCuts()
	for _, part := range r.backToFront(r.solids(theta)) {
		r.draw(part)
	}
	for _, p := range r.joints {
		r.label(p)
	}
	if r.joints[0].joint == 0 {
		r.drawDirection()
	}
}

// drawCuts draws the axes of shafts that go on in another row.
func (r placedRow) drawCuts() {
	const beyond = 0.6
	pen := r.letters.scaled(Limit())
	pen.Color, pen.Width = Line, pen.Width/2
	first, last := r.joints[0].joint, r.joints[len(r.joints)-1].joint+1
	if first > 0 {
		r.StrokeLines(pen, []vg.Point{r.at(r3.Sub(r.start, r3.Scale(beyond, r.axes[first]))), r.at(r.start)})
	}
	if last < r.last() {
		r.StrokeLines(pen, []vg.Point{r.at(r.end), r.at(r3.Add(r.end, r3.Scale(beyond, r.axes[last])))})
	}
}

// drawDirection draws an arrow over the first shaft in the direction of its rotation.
func (r placedRow) drawDirection() {
	const radius, half, head, steps = 0.62, 65 * kinematics.Degree, 28 * kinematics.Degree, 16
	axis := r.axes[0]
	top := r3.Unit(r3.Sub(yokeView.up, r3.Scale(r3.Dot(yokeView.up, axis), axis)))
	f := newFrame(r3.Add(r.start, r3.Scale(0.3, axis)), axis, top)
	point := func(along, angle float64) r3.Vec {
		sin, cos := math.Sincos(angle)
		return f.point(along, radius*cos, radius*sin)
	}
	var arc []vg.Point
	for i := range steps + 1 {
		arc = append(arc, r.at(point(0, -half+(2*half-head)*float64(i)/steps)))
	}
	r.StrokeLines(r.letters.scaled(draw.LineStyle{Color: Ink, Width: 1.2}), arc)
	r.SetColor(Ink)
	r.Fill(r.path([]r3.Vec{point(-0.16, half-head), point(0, half), point(0.16, half-head)}))
}

// label writes below a joint what it is and how far it bends, as far as there is room.
func (r placedRow) label(p jointPlace) {
	b := r.reach(yokeView, p)
	x, room := (b.x.Min+b.x.Max)/2, b.width()+0.6*betweenYokes
	at := vg.Point{
		X: r.origin.X + vg.Length(r.scale*x),
		Y: r.origin.Y + vg.Length(r.scale*b.y.Min) - 0.4*r.Em(),
	}
	angle := degrees(r.Analysis.Bends[p.joint].Angle)
	text := r.joint(p.joint) + "  " + angle
	if len(r.joints) > 1 && r.letters.caption.width(text).Points() > r.scale*room {
		text = angle
	}
	r.letters.caption.draw(r, at, atMiddle, atEnd, text)
}
