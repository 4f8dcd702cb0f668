package scene

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// A Row is a run of neighbouring joints drawn in one piece, cut through the shafts at
// both ends. The angles between its shafts are those of the driveline, their lengths
// are not: they are so long that the joints would be too small to see.
type Row struct {
	Joints []Place
	d      *kinematics.Driveline
	Colours
	axes       []r3.Vec // of all shafts of the driveline, unit
	start, end r3.Vec
}

// A Place is where a joint stands: the centres of its crosses, both the same but for a
// double-cardan joint.
type Place struct {
	Joint    int
	in, out  r3.Vec
	coupling r3.Vec // direction of the coupling yoke; zero if there is none
}

// Between is how much of a shaft shows between two yokes, in the unit of a picture: the
// distance of an ear from the centre of its cross.
const Between = 1.6

const (
	looseEnd    = 1.3
	beyondCut   = 0.6  // of an axis, beyond where its shaft is cut
	arrowRadius = 0.62 // of the arrow over the first shaft
)

// NewRow lays out the joints of a driveline from first up to last, this one left out.
func NewRow(d *kinematics.Driveline, first, last int, colours Colours) Row {
	r := Row{d: d, Colours: colours}
	for _, s := range d.Shafts() {
		r.axes = append(r.axes, r3.Unit(s.Axis))
	}
	at := r.start
	advance := func(axis r3.Vec, by float64) { at = r3.Add(at, r3.Scale(by, axis)) }
	advance(r.axes[first], r.visible(first)+yokeLength)
	for k := first; k < last; k++ {
		if k > first {
			advance(r.axes[k], 2*yokeLength+Between)
		}
		p := Place{Joint: k, in: at}
		if coupling, ok := d.Coupling(k); ok {
			p.coupling = coupling
			advance(coupling, 2*yokeLength)
		}
		p.out = at
		r.Joints = append(r.Joints, p)
	}
	advance(r.axes[last], yokeLength+r.visible(last))
	r.end = at
	return r
}

// visible returns how much of a shaft shows where it is cut, or where the driveline ends.
func (r Row) visible(shaft int) float64 {
	if shaft == 0 || shaft == len(r.axes)-1 {
		return looseEnd
	}
	return Between / 2
}

// solids returns all parts when the first shaft has turned by theta.
func (r Row) solids(theta float64) []*solid {
	var parts []*solid
	from := r.start
	for _, p := range r.Joints {
		k := p.Joint
		mark, driving := r.d.Ears(k, theta)
		driven, _ := r.d.Ears(k+1, theta)
		to := r3.Sub(p.in, r3.Scale(yokeLength, r.axes[k]))
		parts = append(parts, r.shaft(from, to, mark, r.Shafts[k]))
		parts = append(parts, r.parts(p, driving, driven)...)
		from = r3.Add(p.out, r3.Scale(yokeLength, r.axes[k+1]))
	}
	mark, _ := r.d.Ears(r.final(), theta)
	return append(parts, r.shaft(from, r.end, mark, r.Shafts[r.final()]))
}

// parts returns the parts of a joint, given the directions of the ears of its driving and
// its driven yoke.
func (r Row) parts(p Place, driving, driven r3.Vec) []*solid {
	k := p.Joint
	back, on := r3.Scale(-1, r.axes[k]), r.axes[k+1]
	switch kind := r.d.Joints()[k].Kind; kind {
	case kinematics.Cardan:
		return slices.Concat(r.yoke(p.in, back, driving, r.Shafts[k]), r.cross(p.in, driving, driven), r.yoke(p.out, on, driven, r.Shafts[k+1]))
	case kinematics.ConstantVelocity:
		return r.ballJoint(p.in, r.axes[k], on, r.Shafts[k], r.Shafts[k+1])
	case kinematics.DoubleCardan:
		middle := r3.Unit(r3.Cross(p.coupling, driving)) // ears of the coupling yoke, at both its ends
		return slices.Concat(
			r.yoke(p.in, back, driving, r.Shafts[k]), r.cross(p.in, driving, middle),
			r.yoke(p.in, p.coupling, middle, r.Steel), r.yoke(p.out, r3.Scale(-1, p.coupling), middle, r.Steel),
			r.cross(p.out, middle, driven), r.yoke(p.out, on, driven, r.Shafts[k+1]))
	default:
		panic(fmt.Sprintf("scene: no picture of a %s joint", kind))
	}
}

// Extent returns the part of the picture that the row can reach at any rotation.
func (r Row) Extent(v View) r2.Box {
	all := nothing
	for _, b := range r.Extents(v) {
		all = union(all, b)
	}
	return all
}

// Extents returns the parts of the picture that each joint can reach, and those of the
// shafts at both ends, with the arrow over the first shaft.
func (r Row) Extents(v View) []r2.Box {
	first, final := r.Joints[0], r.Joints[len(r.Joints)-1]
	boxes := []r2.Box{
		union(v.disc(r.axisStart(), r.axes[r.first()], arrowRadius), v.disc(first.in, r.axes[r.first()], shaftSize)),
		union(v.disc(r.axisEnd(), r.axes[r.final()], shaftSize), v.disc(final.out, r.axes[r.final()], shaftSize)),
	}
	for _, p := range r.Joints {
		boxes = append(boxes, r.discs(v, p)...)
	}
	return boxes
}

// first and final are the indices of the shafts at both ends of the row.
func (r Row) first() int { return r.Joints[0].Joint }
func (r Row) final() int { return r.Joints[len(r.Joints)-1].Joint + 1 }

// axisStart and axisEnd are where the axes of the shafts at both ends are drawn to:
// beyond the shafts where these go on in another row.
func (r Row) axisStart() r3.Vec {
	if r.first() == 0 {
		return r.start
	}
	return r3.Sub(r.start, r3.Scale(beyondCut, r.axes[r.first()]))
}

func (r Row) axisEnd() r3.Vec {
	if r.final() == len(r.axes)-1 {
		return r.end
	}
	return r3.Add(r.end, r3.Scale(beyondCut, r.axes[r.final()]))
}

// Reach returns the part of the picture that a joint can reach at any rotation.
func (r Row) Reach(v View, p Place) r2.Box {
	all := nothing
	for _, b := range r.discs(v, p) {
		all = union(all, b)
	}
	return all
}

// discs returns the parts of the picture that the ends of the yokes of a joint can reach
// at any rotation.
func (r Row) discs(v View, p Place) []r2.Box {
	const radius = 1.19 // of the outermost edge of a fork: √(earOutside² + earHalf²)
	in, out := r.axes[p.Joint], r.axes[p.Joint+1]
	var discs []r2.Box
	for _, along := range []float64{-earHalf, forkReach} { // the tips of the ears, the bottom of the fork
		discs = append(discs,
			v.disc(r3.Sub(p.in, r3.Scale(along, in)), in, radius),
			v.disc(r3.Add(p.out, r3.Scale(along, out)), out, radius))
		if p.coupling != (r3.Vec{}) {
			discs = append(discs,
				v.disc(r3.Add(p.in, r3.Scale(along, p.coupling)), p.coupling, radius),
				v.disc(r3.Sub(p.out, r3.Scale(along, p.coupling)), p.coupling, radius))
		}
	}
	return discs
}

// disc returns the extent of a disc across an axis. Its rim reaches √(1 − (u·d)²) of the
// radius in a direction d.
func (v View) disc(centre, axis r3.Vec, radius float64) r2.Box {
	p := v.project(centre)
	reach := func(direction r3.Vec) float64 {
		along := r3.Dot(axis, direction)
		return radius * math.Sqrt(max(0, 1-along*along))
	}
	half := r2.Vec{X: reach(v.right), Y: reach(v.up)}
	return r2.Box{Min: r2.Sub(p, half), Max: r2.Add(p, half)}
}
