package plotting

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// turningCases are drivelines of all kinds of joints.
func turningCases(t testing.TB) map[string]*Case {
	t.Helper()
	twelve := make([][2]float64, 12)
	for k := range twelve {
		twelve[k] = [2]float64{float64(k*k%7) * 1.5, float64(k*5%9) - 4}
	}
	return map[string]*Case{
		"single, 35°":       newCase(t, 500, [][2]float64{{0, 0}, {35, 0}}),
		"two-piece":         twoPiece(t),
		"planes twisted":    newCase(t, 1000, [][2]float64{{0, 0}, {20, 0}, {20, 25}, {5, 0}}, 30, -50),
		"double-cardan":     ofKinds(t, newCase(t, 0, [][2]float64{{0, 0}, {30, 8}, {25, 8}}), kinematics.Joint{Kind: kinematics.DoubleCardan, Synchronous: 0.5}, kinematics.Joint{}),
		"constant-velocity": ofKinds(t, newCase(t, 3000, [][2]float64{{2, 0}, {20, 0}, {4, 3}}), kinematics.Joint{Kind: kinematics.ConstantVelocity}, kinematics.Joint{}),
		"straight":          newCase(t, 0, [][2]float64{{0, 0}, {0, 0}, {0, 0}}),
		"twelve shafts":     newCase(t, 2800, twelve),
	}
}

// ofKinds returns a case with other joints.
func ofKinds(t testing.TB, c *Case, joints ...kinematics.Joint) *Case {
	t.Helper()
	var err error
	if c.Driveline, err = kinematics.New(c.Driveline.Shafts(), joints); err != nil {
		t.Fatal(err)
	}
	c.Analysis = c.Driveline.Analyse()
	return c
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

// Whatever the rotation, the ears of both yokes at a cross are drawn on two lines through its centre, each square to the
// shaft of its yoke and both square to each other, as the cross is.
func TestDrawnEarsAreSquare(t *testing.T) {
	t.Parallel()
	for name, c := range turningCases(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			row := newJointRow(c, 0, len(c.Joints))
			for i := range 60 {
				solids := row.solids(2 * math.Pi * float64(i) / 60)
				for _, p := range row.joints {
					axes := map[r3.Vec][2]r3.Vec{p.in: {row.axes[p.joint], row.axes[p.joint+1]}}
					switch c.Driveline.Joints()[p.joint].Kind {
					case kinematics.ConstantVelocity:
						continue
					case kinematics.DoubleCardan:
						axes = map[r3.Vec][2]r3.Vec{
							p.in:  {row.axes[p.joint], p.coupling},
							p.out: {p.coupling, row.axes[p.joint+1]},
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

// The shafts and the parts of a joint that are drawn bend by the true working angle, without exaggeration.
func TestDrawnAnglesAreTrue(t *testing.T) {
	t.Parallel()
	for name, c := range turningCases(t) {
		row := newJointRow(c, 0, len(c.Joints))
		for k := range c.Joints {
			u, v := row.axes[k], row.axes[k+1]
			got, want := math.Atan2(r3.Norm(r3.Cross(u, v)), r3.Dot(u, v)), c.Analysis.Bends[k].Angle
			if math.Abs(got-want) > 1e-14 { // rounding of unit vectors
				t.Errorf("%s: joint %d is drawn at %v rad, works at %v rad", name, k+1, got, want)
			}
		}
	}
}

// The room that a row is given holds all of it at every rotation, and is not much too large.
func TestExtent(t *testing.T) {
	t.Parallel()
	for name, c := range turningCases(t) {
		row := newJointRow(c, 0, len(c.Joints))
		room, drawn := row.extent(yokeView), box{nothing, nothing}
		for i := range 90 {
			for _, s := range row.solids(2 * math.Pi * float64(i) / 90) {
				drawn = drawn.with(yokeView.outline(s).box)
			}
		}
		const touch = 1e-9
		left, right := drawn.x.Min-room.x.Min, room.x.Max-drawn.x.Max
		below, above := drawn.y.Min-room.y.Min, room.y.Max-drawn.y.Max
		for _, gap := range []float64{left, right, below, above} {
			// The arrow over the first shaft and the rounding of the ears need no more than this.
			if gap < -touch || gap > arrowRadius {
				t.Errorf("%s: drawn %v within room for %v: the gap is %v", name, drawn, room, gap)
			}
		}
	}
}

// Half a turn brings everything back to where it was, but for the marks.
func TestHalfATurnLooksTheSame(t *testing.T) {
	t.Parallel()
	for name, c := range turningCases(t) {
		row := newJointRow(c, 0, len(c.Joints))
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
