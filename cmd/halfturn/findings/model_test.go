package findings

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics/survey"
)

// model is a driveline of Cardan joints that is turned by the vectors of its crosses,
// without anything of package kinematics: shafts by their slopes and headings, ears
// that stay square to each other, and derivatives by Fourier series.
type model struct {
	axes  []r3.Vec  // unit vectors: along, left, up
	phase []float64 // of each shaft, rad
}

const deg = math.Pi / 180

func newModel(down, right, phase []float64) model {
	var m model
	for k := range down {
		m.axes = append(m.axes, r3.Unit(r3.Vec{X: 1, Y: -math.Tan(right[k] * deg), Z: -math.Tan(down[k] * deg)}))
		m.phase = append(m.phase, phase[k]*deg)
	}
	return m
}

// modelSteps are the positions in a turn of the model.
const modelSteps = 720

// turned rotates v about the unit vector u by the right-hand rule, which is clockwise
// as seen along u.
func turned(v, u r3.Vec, angle float64) r3.Vec {
	return r3.NewRotation(angle, u).Rotate(v)
}

// level is square to an axis and level.
func level(u r3.Vec) r3.Vec { return r3.Unit(r3.Cross(r3.Vec{Z: 1}, u)) }

// carried returns a vector across u as it lies across v, turned by the smallest
// rotation.
func carried(e, u, v r3.Vec) r3.Vec {
	normal := r3.Cross(u, v)
	if r3.Norm(normal) < 1e-12 {
		return e
	}
	return turned(e, r3.Unit(normal), math.Atan2(r3.Norm(normal), r3.Dot(u, v)))
}

// references are directions across the shafts, that of the first level.
func (m model) references() []r3.Vec {
	refs := []r3.Vec{level(m.axes[0])}
	for k := 1; k < len(m.axes); k++ {
		refs = append(refs, carried(refs[k-1], m.axes[k-1], m.axes[k]))
	}
	return refs
}

// leads returns by how much each shaft runs ahead of the first at every position of a
// turn, in radians, the mean taken out.
func (m model) leads() [][]float64 {
	refs := m.references()
	leads := make([][]float64, len(m.axes))
	last := make([]float64, len(m.axes))
	for i := range modelSteps {
		theta := 2 * math.Pi * float64(i) / modelSteps
		ears := turned(refs[0], m.axes[0], theta)
		for k, u := range m.axes {
			if k > 0 { // the ears of the driven yoke are square to the driving one's and to the shaft
				ears = r3.Unit(r3.Cross(u, turned(ears, m.axes[k-1], m.phase[k-1])))
			}
			angle := math.Atan2(r3.Dot(ears, r3.Cross(u, refs[k])), r3.Dot(ears, refs[k])) - theta
			if i > 0 {
				angle += 2 * math.Pi * math.Round((last[k]-angle)/(2*math.Pi))
			}
			last[k] = angle
			leads[k] = append(leads[k], angle)
		}
	}
	for _, l := range leads {
		mean := 0.0
		for _, v := range l {
			mean += v / modelSteps
		}
		for i := range l {
			l[i] -= mean
		}
	}
	return leads
}

// orders returns the Fourier coefficients c of lead = Σ Re(c_m·e^{jmθ}), by order.
func orders(lead []float64, most int) []complex128 {
	c := make([]complex128, most+1)
	for m := range c {
		for i, v := range lead {
			c[m] += complex(v*2/modelSteps, 0) * cmplx.Exp(complex(0, -2*math.Pi*float64(m*i%modelSteps)/modelSteps))
		}
	}
	return c
}

// motion returns speed ratio and acceleration over speed squared at every position.
func motion(lead []float64) (ratio, accel []float64) {
	const most = 40 // beyond, there is nothing left at moderate angles
	c := orders(lead, most)
	for i := range lead {
		theta := 2 * math.Pi * float64(i) / modelSteps
		r, a := 1.0, 0.0
		for m := 1; m <= most; m++ {
			jm := complex(0, float64(m))
			r += real(c[m] * jm * cmplx.Exp(jm*complex(theta, 0)))
			a += real(c[m] * jm * jm * cmplx.Exp(jm*complex(theta, 0)))
		}
		ratio, accel = append(ratio, r), append(accel, a)
	}
	return ratio, accel
}

// left is the working angle in degrees of the one joint that leaves the second order
// of a lead.
func left(lead []float64) float64 {
	return 2 * math.Atan(math.Sqrt(cmplx.Abs(orders(lead, 2)[2]))) / deg
}

// terms are what the joints add to the second-order sum, in deg².
func (m model) terms() []complex128 {
	refs := m.references()
	var terms []complex128
	straight := 0.0 // azimuth of the driving ears of the straightened chain
	for k := 0; k+1 < len(m.axes); k++ {
		u, v := m.axes[k], m.axes[k+1]
		normal := r3.Cross(u, v)
		azimuth := math.Atan2(r3.Dot(normal, r3.Cross(u, refs[k])), r3.Dot(normal, refs[k]))
		beta := math.Acos(r3.Dot(u, v)) / deg
		straight += m.phase[k]
		terms = append(terms, cmplx.Rect(beta*beta, 2*(straight-azimuth)))
		straight += math.Pi / 2
	}
	return terms
}

// modelOf returns the model of a survey's axes and phases.
func modelOf(s *survey.Survey) model {
	m := model{axes: s.Axes()}
	for i, axis := range m.axes {
		m.axes[i] = r3.Unit(axis)
		m.phase = append(m.phase, s.Shafts[i].PhaseDeg.Mean()*deg)
	}
	return m
}
