package scene

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the parts of a joint. The unit is the distance of an ear from the centre of
// the cross.
const (
	earHalf    = 0.32 // half the width of an ear
	earInside  = 0.84 // distances of its faces from the centre
	earOutside = 1.14
	forkReach  = 1.3 // from the centre to the bottom of the fork
	forkDepth  = 0.55
	yokeLength = forkReach + forkDepth // from the centre to where the shaft begins
	trunnion   = 0.17                  // radius
	crossHalf  = 0.27                  // half of the body of a cross
	shaftSize  = 0.24                  // radius
)

// Colours are what a driveline is drawn in, before light and distance lighten it.
type Colours struct {
	Shafts []color.RGBA // of each shaft
	Steel  color.RGBA   // of what belongs to no shaft
	Ink    color.RGBA   // edges, and marks by which the turning can be followed
	Line   color.RGBA   // axes beyond where their shafts are cut
}

func (l Colours) mark() color.RGBA { return Tone(l.Ink, 0.2) }

// frame is a place with three directions at right angles, in which a part is built.
type frame struct{ at, x, y, z r3.Vec }

// newFrame returns the frame at a place with its x and y along two unit vectors that are
// square to each other.
func newFrame(at, x, y r3.Vec) frame { return frame{at, x, y, r3.Cross(x, y)} }

func (f frame) point(x, y, z float64) r3.Vec {
	p := r3.Add(f.at, r3.Scale(x, f.x))
	p = r3.Add(p, r3.Scale(y, f.y))
	return r3.Add(p, r3.Scale(z, f.z))
}

// ring returns the corners of a regular polygon about the x axis.
func (f frame) ring(x, radius float64, corners int) []r3.Vec {
	ring := make([]r3.Vec, corners)
	for i := range ring {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(corners))
		ring[i] = f.point(x, radius*cos, radius*sin)
	}
	return ring
}

// rectangle returns the corners of a rectangle across the x axis.
func (f frame) rectangle(x, halfY, halfZ float64) []r3.Vec {
	return []r3.Vec{f.point(x, halfY, halfZ), f.point(x, -halfY, halfZ), f.point(x, -halfY, -halfZ), f.point(x, halfY, -halfZ)}
}

// yoke returns a fork and its two ears. axis points from the centre of the cross to the
// shaft, ears along the ears; the pin in the ear on that side is dark, so that the
// turning can be followed by eye.
func (l Colours) yoke(centre, axis, ears r3.Vec, c color.RGBA) []*solid {
	f := newFrame(centre, axis, ears)
	parts := []*solid{lathe(c, false,
		f.rectangle(forkReach, earOutside, earHalf),
		f.rectangle(yokeLength, 1.3*shaftSize, 1.1*shaftSize))}
	for _, side := range []float64{1, -1} {
		parts = append(parts, l.ear(f, side, c))
	}
	return about(centre, parts)
}

// ear returns the ear on one side, rounded about its pin.
func (l Colours) ear(f frame, side float64, c color.RGBA) *solid {
	const bends = 8
	profile := func(y float64) []r3.Vec {
		corners := []r3.Vec{f.point(forkReach, y, earHalf), f.point(forkReach, y, -earHalf)}
		for i := range bends + 1 {
			sin, cos := math.Sincos(-math.Pi/2 - math.Pi*float64(i)/bends)
			corners = append(corners, f.point(earHalf*cos, y, earHalf*sin))
		}
		return corners
	}
	s := lathe(c, true, profile(side*earInside), profile(side*earOutside))
	pin := newFrame(f.at, r3.Scale(side, f.y), f.x)
	shade := color.RGBA{0xFF, 0xFF, 0xFF, 0xFF}
	if side > 0 {
		shade = l.mark()
	}
	s.marks = []face{{pin.ring(earOutside, trunnion, 12), pin.x, true, shade}}
	return s
}

// cross returns two bars at right angles: four trunnions on a body.
func (l Colours) cross(centre, first, second r3.Vec) []*solid {
	f := newFrame(centre, first, second)
	parts := []*solid{lathe(l.Steel, false, f.rectangle(-crossHalf, crossHalf, crossHalf), f.rectangle(crossHalf, crossHalf, crossHalf))}
	for _, along := range []r3.Vec{first, r3.Scale(-1, first), second, r3.Scale(-1, second)} {
		bar := newFrame(centre, along, f.z)
		parts = append(parts, lathe(l.Steel, true, bar.ring(crossHalf, trunnion, 10), bar.ring(earInside, trunnion, 10)))
	}
	return about(centre, parts)
}

// ballJoint returns a constant-velocity joint: the bell on the driving shaft, the ball at
// the centre, the driven hub.
func (l Colours) ballJoint(centre, driving, driven r3.Vec, c, next color.RGBA) []*solid {
	const corners, ball, mouth = 18, 0.5, 0.5
	in := newFrame(centre, r3.Scale(-1, driving), anySquare(driving))
	out := newFrame(centre, driven, anySquare(driven))
	var rings [][]r3.Vec
	for i := range 7 {
		sin, cos := math.Sincos(math.Pi / 8 * float64(i+1))
		rings = append(rings, in.ring(-ball*cos, ball*sin, corners))
	}
	return about(centre, []*solid{
		lathe(c, true, in.ring(mouth, 0.85, corners), in.ring(1.3, 0.85, corners), in.ring(yokeLength, 1.5*shaftSize, corners)),
		lathe(l.Steel, true, rings...),
		lathe(next, true, out.ring(mouth, 0.5, corners), out.ring(yokeLength, 1.3*shaftSize, corners)),
	})
}

// shaft returns a round shaft with a stripe along it, at the side toward which the ears
// point.
func (l Colours) shaft(from, to, ears r3.Vec, c color.RGBA) *solid {
	const corners, half = 16, 0.25 // half width of the stripe, rad
	axis := r3.Unit(r3.Sub(to, from))
	length := r3.Norm(r3.Sub(to, from))
	still := newFrame(from, axis, anySquare(axis)) // does not turn, so that its shading does not flicker
	s := lathe(c, true, still.ring(0, shaftSize, corners), still.ring(length, shaftSize, corners))

	f := newFrame(from, axis, ears)
	sin, cos := math.Sincos(half)
	y, z := shaftSize*cos, shaftSize*sin
	s.marks = []face{{
		corners: []r3.Vec{f.point(0, y, -z), f.point(0, y, z), f.point(length, y, z), f.point(length, y, -z)},
		normal:  ears, color: l.mark(),
	}}
	return s
}

// anySquare returns a unit vector square to an axis.
func anySquare(axis r3.Vec) r3.Vec {
	least := r3.Vec{Y: 1}
	if math.Abs(axis.Y) > math.Abs(axis.Z) {
		least = r3.Vec{Z: 1}
	}
	return r3.Unit(r3.Cross(axis, least))
}

// about has the depth of parts told from a point.
func about(p r3.Vec, parts []*solid) []*solid {
	for _, s := range parts {
		s.about = p
	}
	return parts
}
