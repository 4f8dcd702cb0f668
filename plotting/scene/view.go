package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A View is how someone sees a driveline from far away: a parallel projection, true to
// scale.
type View struct {
	right, up r3.Vec // of the picture
	toward    r3.Vec // from the driveline to the eye
}

// From returns the view from the right-hand side of a driveline, turned by an angle
// behind toward its driving end and raised by an angle above, both in radians. The power
// flows from left to right.
func From(behind, above float64) View {
	sinB, cosB := math.Sincos(behind)
	sinA, cosA := math.Sincos(above)
	v := View{
		right:  r3.Vec{X: cosB, Y: -sinB},
		toward: r3.Vec{X: -sinB * cosA, Y: -cosB * cosA, Z: sinA},
	}
	v.up = r3.Cross(v.toward, v.right)
	return v
}

// project returns where a point shows in the picture.
func (v View) project(p r3.Vec) r2.Vec {
	return r2.Vec{X: r3.Dot(p, v.right), Y: r3.Dot(p, v.up)}
}

// depth returns how near a point is to the eye; only differences count.
func (v View) depth(p r3.Vec) float64 { return r3.Dot(p, v.toward) }
