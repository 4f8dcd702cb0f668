package scene

import (
	"image/color"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

var (
	colours = Colours{
		Steel: color.RGBA{0x60, 0x60, 0x60, 0xFF},
		Ink:   color.RGBA{0, 0, 0, 0xFF},
		Line:  color.RGBA{0x90, 0x90, 0x90, 0xFF},
	}
	blue, red = color.RGBA{0, 0, 0xFF, 0xFF}, color.RGBA{0xFF, 0, 0, 0xFF}
	fromRight = From(35*kinematics.Degree, 15*kinematics.Degree)
)

// newRow returns all joints of a driveline of slopes (down, right) and phases in degrees;
// without kinds they are Cardan joints.
func newRow(t testing.TB, slopes [][2]float64, phases []float64, kinds ...kinematics.Kind) Row {
	t.Helper()
	shafts := make([]kinematics.Shaft, len(slopes))
	l := colours
	for k, s := range slopes {
		shafts[k].Axis = kinematics.AxisFromSlopes(s[0]*kinematics.Degree, s[1]*kinematics.Degree)
		if 0 < k && k <= len(phases) {
			shafts[k].Phase = phases[k-1] * kinematics.Degree
		}
		l.Shafts = append(l.Shafts, color.RGBA{uint8(20 * k), 0, 0x80, 0xFF})
	}
	var joints []kinematics.Joint
	for _, kind := range kinds {
		joint := kinematics.Joint{Kind: kind}
		if kind == kinematics.DoubleCardan {
			joint.Synchronous = 0.5
		}
		joints = append(joints, joint)
	}
	d, err := kinematics.New(shafts, joints)
	if err != nil {
		t.Fatal(err)
	}
	return NewRow(d, 0, len(slopes)-1, l)
}

// rows are drivelines of all kinds of joints.
func rows(t testing.TB) map[string]Row {
	t.Helper()
	twelve := make([][2]float64, 12)
	for k := range twelve {
		twelve[k] = [2]float64{float64(k*k%7) * 1.5, float64(k*5%9) - 4}
	}
	return map[string]Row{
		"single, 35°":       newRow(t, [][2]float64{{0, 0}, {35, 0}}, nil),
		"two-piece":         newRow(t, [][2]float64{{3.4, 0}, {3.8, 0}, {6.1, 1.2}, {4, 0}}, []float64{0, 5}),
		"planes twisted":    newRow(t, [][2]float64{{0, 0}, {20, 0}, {20, 25}, {5, 0}}, []float64{30, -50}),
		"double-cardan":     newRow(t, [][2]float64{{0, 0}, {30, 8}, {25, 8}}, nil, kinematics.DoubleCardan, kinematics.Cardan),
		"constant-velocity": newRow(t, [][2]float64{{2, 0}, {20, 0}, {4, 3}}, nil, kinematics.ConstantVelocity, kinematics.Cardan),
		"straight":          newRow(t, [][2]float64{{0, 0}, {0, 0}, {0, 0}}, nil),
		"twelve shafts":     newRow(t, twelve, nil),
	}
}

// pins returns the places of the pins that are drawn in ears around a centre.
func pins(solids []*solid, centre r3.Vec) []r3.Vec {
	var places []r3.Vec
	for _, s := range solids {
		for _, m := range s.marks {
			var sum r3.Vec
			for _, p := range m.corners {
				sum = r3.Add(sum, p)
			}
			sum = r3.Scale(1/float64(len(m.corners)), sum)
			// Rounding of coordinates up to 60.
			if round := len(m.corners) > 4; round && math.Abs(r3.Norm(r3.Sub(sum, centre))-earOutside) < 1e-12 {
				places = append(places, sum)
			}
		}
	}
	return places
}

// Whatever the rotation, the ears of both yokes at a cross are drawn on two lines through
// its centre, each square to the shaft of its yoke and both square to each other, as the
// cross is.
func TestDrawnEarsAreSquare(t *testing.T) {
	t.Parallel()
	for name, row := range rows(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for i := range 60 {
				solids := row.solids(2 * math.Pi * float64(i) / 60)
				for _, p := range row.Joints {
					axes := map[r3.Vec][2]r3.Vec{p.in: {row.axes[p.Joint], row.axes[p.Joint+1]}}
					switch row.d.Joints()[p.Joint].Kind {
					case kinematics.ConstantVelocity:
						continue
					case kinematics.DoubleCardan:
						axes = map[r3.Vec][2]r3.Vec{
							p.in:  {row.axes[p.Joint], p.coupling},
							p.out: {p.coupling, row.axes[p.Joint+1]},
						}
					}
					for centre, shafts := range axes {
						checkCross(t, solids, centre, shafts)
					}
				}
			}
		})
	}
}

func checkCross(t *testing.T, solids []*solid, centre r3.Vec, shafts [2]r3.Vec) {
	t.Helper()
	places := pins(solids, centre)
	if len(places) != 4 {
		t.Fatalf("got %d pins around a cross, want 4", len(places))
	}
	const tolerance = 1e-13 // rounding of coordinates up to 60
	for k, shaft := range shafts {
		one, other := r3.Sub(places[2*k], centre), r3.Sub(places[2*k+1], centre)
		if off := r3.Norm(r3.Add(one, other)); off > tolerance {
			t.Errorf("yoke %d: its ears are %v off a line through the centre", k+1, off)
		}
		if off := r3.Dot(one, shaft); math.Abs(off) > tolerance {
			t.Errorf("yoke %d: its ears are %v off square to its shaft", k+1, off)
		}
	}
	if off := r3.Dot(r3.Sub(places[0], centre), r3.Sub(places[2], centre)); math.Abs(off) > tolerance {
		t.Errorf("the ears of the two yokes are %v off square to each other", off)
	}
}

// The shafts and the parts of a joint that are drawn bend by the true working angle,
// without exaggeration.
func TestDrawnAnglesAreTrue(t *testing.T) {
	t.Parallel()
	for name, row := range rows(t) {
		for k := range row.Joints {
			u, v := row.axes[k], row.axes[k+1]
			got, want := math.Atan2(r3.Norm(r3.Cross(u, v)), r3.Dot(u, v)), row.d.WorkingAngle(k)
			if math.Abs(got-want) > 1e-14 { // rounding of unit vectors
				t.Errorf("%s: joint %d is drawn at %v rad, works at %v rad", name, k+1, got, want)
			}
		}
	}
}

// The room that a row is given holds all of it at every rotation, and is not much too
// large.
func TestExtent(t *testing.T) {
	t.Parallel()
	for name, row := range rows(t) {
		room, drawn := row.Extent(fromRight), nothing
		for i := range 90 {
			for _, s := range row.solids(2 * math.Pi * float64(i) / 90) {
				drawn = union(drawn, fromRight.outline(s).box)
			}
		}
		const touch = 1e-9
		left, right := drawn.Min.X-room.Min.X, room.Max.X-drawn.Max.X
		below, above := drawn.Min.Y-room.Min.Y, room.Max.Y-drawn.Max.Y
		for _, gap := range []float64{left, right, below, above} {
			// The arrow over the first shaft and the rounding of the ears need no more
			// than this.
			if gap < -touch || gap > arrowRadius {
				t.Errorf("%s: drawn %v within room for %v: the gap is %v", name, drawn, room, gap)
			}
		}
	}
}

// Half a turn brings everything back to where it was, but for the marks.
func TestHalfATurnLooksTheSame(t *testing.T) {
	t.Parallel()
	for name, row := range rows(t) {
		now, later := row.solids(0.7), row.solids(0.7+math.Pi)
		for i, s := range now {
			found := false
			for _, o := range later {
				found = found || (s.color == o.color && r3.Norm(r3.Sub(s.middle(), o.middle())) < 1e-12)
			}
			if !found {
				t.Errorf("%s: solid %d is nowhere half a turn later", name, i)
			}
		}
	}
}
