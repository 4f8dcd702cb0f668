package page

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// cubic returns the same path with its quadratic curves and arcs as cubic curves. A
// quadratic curve becomes the same curve; an arc keeps its radius to 3e-4 of it, since no
// piece is longer than a quarter turn.
func cubic(p vg.Path) vg.Path {
	out := make(vg.Path, 0, len(p))
	var at vg.Point
	for _, comp := range p {
		switch {
		case comp.Type == vg.CurveComp && len(comp.Control) == 1:
			q := comp.Control[0]
			out.CubeTo(between(at, q, 2./3), between(comp.Pos, q, 2./3), comp.Pos)
		case comp.Type == vg.ArcComp:
			out = appendArc(out, comp)
		default:
			out = append(out, comp)
		}
		if len(out) > 0 && comp.Type != vg.CloseComp {
			at = out[len(out)-1].Pos
		}
	}
	return out
}

func appendArc(out vg.Path, arc vg.PathComp) vg.Path {
	point := func(r vg.Length, angle float64) vg.Point {
		sin, cos := math.Sincos(angle)
		return vg.Point{X: arc.Pos.X + r*vg.Length(cos), Y: arc.Pos.Y + r*vg.Length(sin)}
	}
	if start := point(arc.Radius, arc.Start); len(out) == 0 {
		out.Move(start)
	} else {
		out.Line(start)
	}
	pieces := math.Ceil(math.Abs(arc.Angle) / (math.Pi / 2))
	step := arc.Angle / pieces
	// The control points stand on the tangents at the ends, where a cubic of the same
	// middle point has them.
	reach := 4. / 3 * math.Tan(step/4)
	hull := arc.Radius * vg.Length(math.Hypot(1, reach))
	lead := math.Atan(reach)
	for i := range int(pieces) {
		a := arc.Start + float64(i)*step
		out.CubeTo(point(hull, a+lead), point(hull, a+step-lead), point(arc.Radius, a+step))
	}
	return out
}
