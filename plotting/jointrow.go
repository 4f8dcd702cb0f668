package plotting

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// A jointRow is a run of neighbouring joints drawn in one piece, cut through the shafts at both ends.
type jointRow struct {
	*Case
	axes       []r3.Vec // of all shafts of the case, unit
	joints     []jointPlace
	start, end r3.Vec
}

// A jointPlace is where a joint is drawn: the centres of its crosses, both the same but for a double-cardan joint.
type jointPlace struct {
	joint    int
	in, out  r3.Vec
	coupling r3.Vec // direction of the coupling yoke; zero if there is none
}

// Lengths of shafts in the picture, in the unit of a joint. They are not those of the driveline, which are so long that
// the joints would be too small to see.
const (
	betweenYokes = 1.6
	looseEnd     = 1.3
	beyondCut    = 0.6  // of an axis, beyond where its shaft is cut
	arrowRadius  = 0.62 // of the arrow over the first shaft
)

// newJointRow lays out the joints from first up to last, this one left out.
func newJointRow(c *Case, first, last int) jointRow {
	r := jointRow{Case: c}
	for _, s := range c.Driveline.Shafts() {
		r.axes = append(r.axes, r3.Unit(s.Axis))
	}
	at := r.start
	advance := func(axis r3.Vec, by float64) { at = r3.Add(at, r3.Scale(by, axis)) }
	advance(r.axes[first], r.visible(first)+yokeLength)
	for k := first; k < last; k++ {
		if k > first {
			advance(r.axes[k], 2*yokeLength+betweenYokes)
		}
		p := jointPlace{joint: k, in: at}
		if coupling, ok := c.Driveline.Coupling(k); ok {
			p.coupling = coupling
			advance(coupling, 2*yokeLength)
		}
		p.out = at
		r.joints = append(r.joints, p)
	}
	advance(r.axes[last], yokeLength+r.visible(last))
	r.end = at
	return r
}

// visible returns how much of a shaft shows where it is cut, or where the driveline ends.
func (r jointRow) visible(shaft int) float64 {
	if shaft == 0 || shaft == r.last() {
		return looseEnd
	}
	return betweenYokes / 2
}

// solids returns all parts when the first shaft has turned by theta.
func (r jointRow) solids(theta float64) []*solid {
	var parts []*solid
	from := r.start
	for _, p := range r.joints {
		k := p.joint
		mark, driving := r.Driveline.Ears(k, theta)
		driven, _ := r.Driveline.Ears(k+1, theta)
		to := r3.Sub(p.in, r3.Scale(yokeLength, r.axes[k]))
		parts = append(parts, shaftBetween(from, to, mark, r.colour(k)))
		parts = append(parts, r.parts(p, driving, driven)...)
		from = r3.Add(p.out, r3.Scale(yokeLength, r.axes[k+1]))
	}
	mark, _ := r.Driveline.Ears(r.final(), theta)
	return append(parts, shaftBetween(from, r.end, mark, r.colour(r.final())))
}

// parts returns the parts of a joint, given the directions of the ears of its driving and its driven yoke.
func (r jointRow) parts(p jointPlace, driving, driven r3.Vec) []*solid {
	k := p.joint
	back, on := r3.Scale(-1, r.axes[k]), r.axes[k+1]
	switch r.Driveline.Joints()[k].Kind {
	case kinematics.ConstantVelocity:
		return ballJoint(p.in, r.axes[k], on, r.colour(k), r.colour(k+1))
	case kinematics.DoubleCardan:
		middle := r3.Unit(r3.Cross(p.coupling, driving)) // ears of the coupling yoke, at both its ends
		return slices.Concat(
			yoke(p.in, back, driving, r.colour(k)), cross(p.in, driving, middle),
			yoke(p.in, p.coupling, middle, steel), yoke(p.out, r3.Scale(-1, p.coupling), middle, steel),
			cross(p.out, middle, driven), yoke(p.out, on, driven, r.colour(k+1)))
	}
	return slices.Concat(yoke(p.in, back, driving, r.colour(k)), cross(p.in, driving, driven), yoke(p.out, on, driven, r.colour(k+1)))
}

// colour returns the colour of a shaft: that of its curve.
func (c *Case) colour(k int) color.RGBA {
	if k == c.last() {
		return signal
	}
	return pens[k%len(pens)]
}

// extent returns the part of the picture that the row can reach at any rotation.
func (r jointRow) extent(v viewpoint) box {
	all := box{nothing, nothing}
	for _, b := range r.extents(v) {
		all = all.with(b)
	}
	return all
}

// extents returns the parts of the picture that each joint can reach, and those of the shafts at both ends, with the
// arrow over the first shaft.
func (r jointRow) extents(v viewpoint) []box {
	first, final := r.joints[0], r.joints[len(r.joints)-1]
	boxes := []box{
		v.disc(r.axisStart(), r.axes[r.first()], arrowRadius).with(v.disc(first.in, r.axes[r.first()], shaftSize)),
		v.disc(r.axisEnd(), r.axes[r.final()], shaftSize).with(v.disc(final.out, r.axes[r.final()], shaftSize)),
	}
	for _, p := range r.joints {
		boxes = append(boxes, r.discs(v, p)...)
	}
	return boxes
}

// first and final are the indices of the shafts at both ends of the row.
func (r jointRow) first() int { return r.joints[0].joint }
func (r jointRow) final() int { return r.joints[len(r.joints)-1].joint + 1 }

// axisStart and axisEnd are where the axes of the shafts at both ends are drawn to: beyond the shafts where these go on
// in another row.
func (r jointRow) axisStart() r3.Vec {
	if r.first() == 0 {
		return r.start
	}
	return r3.Sub(r.start, r3.Scale(beyondCut, r.axes[r.first()]))
}

func (r jointRow) axisEnd() r3.Vec {
	if r.final() == r.last() {
		return r.end
	}
	return r3.Add(r.end, r3.Scale(beyondCut, r.axes[r.final()]))
}

// reach returns the part of the picture that a joint can reach at any rotation.
func (r jointRow) reach(v viewpoint, p jointPlace) box {
	all := box{nothing, nothing}
	for _, b := range r.discs(v, p) {
		all = all.with(b)
	}
	return all
}

// discs returns the parts of the picture that the ends of the yokes of a joint can reach at any rotation.
func (r jointRow) discs(v viewpoint, p jointPlace) []box {
	const radius = 1.19 // of the outermost edge of a fork: √(earOutside² + earHalf²)
	in, out := r.axes[p.joint], r.axes[p.joint+1]
	var discs []box
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

// disc returns the extent of a disc across an axis. Its rim reaches √(1 − (u·d)²) of the radius in a direction d.
func (v viewpoint) disc(centre, axis r3.Vec, radius float64) box {
	p := v.project(centre)
	reach := func(direction r3.Vec) float64 {
		along := r3.Dot(axis, direction)
		return radius * math.Sqrt(max(0, 1-along*along))
	}
	return box{Around(p.X, reach(v.right)), Around(p.Y, reach(v.up))}
}
