package page

import (
	"fmt"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A Sketch is the data area of a panel, to draw on in data coordinates. Pens are scaled
// with the text of the page. The embedded canvas is in points on the page, for what the
// methods do not do; nothing is clipped.
type Sketch struct {
	draw.Canvas
	Letters
	plot     *plot.Plot   // its axes are those of the panel
	layers   []layer      // of the panel, for texts to keep off their lines
	occupied [][]vg.Point // these lines, once a text has asked for them
}

// At returns where a data point stands on the page. It panics if that is nowhere, as for
// NaN, which would go into the file as it is; Encode turns the panic into its error.
func (s *Sketch) At(p plotter.XY) vg.Point {
	at := s.place(p)
	if sum := float64(at.X + at.Y); math.IsNaN(sum) || math.IsInf(sum, 0) {
		panic(misplaced(p))
	}
	return at
}

// place is At for points that may be nowhere.
func (s *Sketch) place(p plotter.XY) vg.Point {
	return vg.Point{X: s.X(s.plot.X.Norm(p.X)), Y: s.Y(s.plot.Y.Norm(p.Y))}
}

// Length returns how long a distance along the x axis is on the page; in a panel with
// Equal also along y.
func (s *Sketch) Length(dx float64) vg.Length {
	return vg.Length(dx/(s.plot.X.Max-s.plot.X.Min)) * (s.Max.X - s.Min.X)
}

// Polyline draws straight lines from point to point.
func (s *Sketch) Polyline(pen draw.LineStyle, points ...plotter.XY) {
	s.StrokeLines(s.Scaled(pen), s.all(points))
}

// strokeWithin draws what of a line is in the data area.
func (s *Sketch) strokeWithin(pen draw.LineStyle, line []vg.Point) {
	lines := [][]vg.Point{line}
	if slices.ContainsFunc(line, func(p vg.Point) bool { return !s.Contains(p) }) {
		lines = s.ClipLinesXY(line)
	}
	s.SetLineStyle(pen)
	for _, line := range lines {
		path := make(vg.Path, 0, len(line))
		path.Move(line[0])
		for _, p := range line[1:] {
			path.Line(p)
		}
		s.Stroke(path)
	}
}

// Polygon fills the area within the points, if fill is not nil, and draws its edge, if
// the pen has a width.
func (s *Sketch) Polygon(fill color.Color, edge draw.LineStyle, points ...plotter.XY) {
	s.Paint(fill, edge, appendPolygon(nil, s.all(points)...))
}

// Circle draws a circle of a radius in points on the page, filled if fill is not nil,
// edged if the pen has a width.
func (s *Sketch) Circle(fill color.Color, edge draw.LineStyle, centre plotter.XY, radius vg.Length) {
	c := s.At(centre)
	var path vg.Path
	path.Move(vg.Point{X: c.X + radius, Y: c.Y})
	path.Arc(c, radius, 0, 2*math.Pi)
	path.Close()
	s.Paint(fill, edge, path)
}

// Arrow draws a line from point to point with a head at its end. An arrow shorter than its
// head has a smaller head, one of no length is not drawn.
func (s *Sketch) Arrow(pen draw.LineStyle, course ...plotter.XY) {
	line := s.all(course)
	pen = s.Scaled(pen)
	var length vg.Length
	for i := 1; i < len(line); i++ {
		length += separation(line[i-1], line[i])
	}
	if length == 0 {
		return
	}
	head := min(5*pen.Width+0.15*s.Em(), length)
	end := line[len(line)-1]
	shaft, neck := shortened(line, head)
	l := separation(neck, end)
	ux, uy := (end.X-neck.X)/l, (end.Y-neck.Y)/l
	half := 0.36 * head

	s.StrokeLines(pen, append(shaft, between(neck, end, 0.2)))
	s.SetColor(pen.Color)
	s.Fill(appendPolygon(nil, end,
		vg.Point{X: neck.X - half*uy, Y: neck.Y + half*ux},
		vg.Point{X: neck.X + half*uy, Y: neck.Y - half*ux}))
}

// shortened returns the points of a line up to a length before its end, that place, which
// is the last of them, also by itself.
func shortened(line []vg.Point, by vg.Length) ([]vg.Point, vg.Point) {
	for i := len(line) - 1; ; i-- {
		d := separation(line[i-1], line[i])
		if d >= by || i == 1 {
			last := between(line[i], line[i-1], min(by/d, 1))
			return append(slices.Clone(line[:i]), last), last
		}
		by -= d
	}
}

// separation is how far two points are from each other.
func separation(a, b vg.Point) vg.Length {
	return vg.Length(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)))
}

// Marker draws a marker of ordinary size at a data point.
func (s *Sketch) Marker(clr color.Color, shape draw.GlyphDrawer, at plotter.XY) {
	s.marker(s.Canvas, clr, shape, s.At(at))
}

// Text writes a line of text, readable on top of lines, in the direction of a side from a
// point, half an em away; with Middle it is centred on the point.
func (s *Sketch) Text(at plotter.XY, side Side, text string) {
	s.Name.drawClear(s, s.Beside(at, side, 0.5), (1-side.dx)/2, (1-side.dy)/2, clean(text))
}

// Beside returns the point some em from a data point in the direction of a side.
func (s *Sketch) Beside(at plotter.XY, side Side, em vg.Length) vg.Point {
	p := s.At(at)
	return vg.Point{X: p.X + vg.Length(side.dx)*em*s.Em(), Y: p.Y + vg.Length(side.dy)*em*s.Em()}
}

// A Side is where a text stands relative to its point.
type Side struct{ dx, dy float64 }

// The sides. A text stands centred beside its point, except on the corners.
var (
	Middle     = Side{0, 0}
	Right      = Side{1, 0}
	Left       = Side{-1, 0}
	Above      = Side{0, 1}
	Below      = Side{0, -1}
	RightAbove = Side{1, 1}
	RightBelow = Side{1, -1}
	LeftAbove  = Side{-1, 1}
	LeftBelow  = Side{-1, -1}
)

// Paint fills the area within a path on the page, if fill is not nil, and draws its edge,
// if the pen has a width.
func (s *Sketch) Paint(fill color.Color, edge draw.LineStyle, path vg.Path) {
	if fill != nil {
		s.SetColor(fill)
		s.Fill(path)
	}
	if edge.Width > 0 {
		s.SetLineStyle(s.Scaled(edge))
		s.Stroke(path)
	}
}

func (s *Sketch) all(points []plotter.XY) []vg.Point {
	out := make([]vg.Point, len(points))
	for i, p := range points {
		out[i] = s.At(p)
	}
	return out
}

// appendPolygon returns a path with a polygon after what it holds.
func appendPolygon(path vg.Path, points ...vg.Point) vg.Path {
	for i, p := range points {
		if i == 0 {
			path.Move(p)
		} else {
			path.Line(p)
		}
	}
	if len(points) > 0 {
		path.Close()
	}
	return path
}

// between returns the point a fraction f of the way from a to b.
func between(a, b vg.Point, f vg.Length) vg.Point {
	return vg.Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}
}

// misplaced is what At panics with: a point that is nowhere on the page.
type misplaced plotter.XY

func (m misplaced) Error() string {
	return fmt.Sprintf("point (%g, %g): want finite values, > 0 on logarithmic axes", m.X, m.Y)
}
