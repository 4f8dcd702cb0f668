package adjust

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// twoPiece is an invented driveline with a centre bearing, every length known.
func twoPiece() *survey.Survey {
	s := &survey.Survey{
		Name: "two-piece driveline", RPM: 2800, ReadingErrorDeg: 0.1, PhaseErrorDeg: 0.5,
		Shafts: []survey.Shaft{
			{Name: "gearbox output", Slope: survey.Down(3.4), Heading: survey.Right(0.4), Length: 720},
			{Name: "front shaft", Slope: survey.Down(3.8), Length: 940},
			{Name: "rear shaft", Slope: survey.Down(6.1), Heading: survey.Right(1.2), Length: 1270},
			{Name: "axle pinion", Slope: survey.Down(4), Heading: survey.Right(-0.3), Length: 260},
		},
		Joints: []survey.Joint{{Name: "front joint"}, {Name: "centre joint"}, {Name: "pinion joint"}},
	}
	return s.Complete()
}

// onePiece is an invented driveline with one shaft between gearbox and axle.
func onePiece(down ...float64) *survey.Survey {
	s := &survey.Survey{RPM: 2500}
	names := []string{"gearbox output", "shaft", "axle pinion"}
	lengths := []float64{700, 1300, 250}
	for k, d := range down {
		s.Shafts = append(s.Shafts, survey.Shaft{Name: names[k], Slope: survey.Down(d), Length: lengths[k]})
	}
	return s.Complete()
}

// points returns the pivot, the joint centres and the centre line of the axle of
// a driveline whose lengths are all known, by laying its shafts end to end.
func points(s *survey.Survey) []r3.Vec {
	at := []r3.Vec{{}}
	for _, sh := range s.Shafts {
		u := unitAlong(sh.Slope.Mean(), sh.Heading.Mean())
		at = append(at, r3.Add(at[len(at)-1], r3.Scale(sh.Length, u)))
	}
	return at
}

func unitAlong(downDeg, rightDeg float64) r3.Vec {
	return r3.Unit(r3.Vec{X: 1, Y: -math.Tan(rightDeg * math.Pi / 180), Z: -math.Tan(downDeg * math.Pi / 180)})
}

// TestChangeMovesJoint lays the driveline out as points in space, moves the
// points as on the vehicle and compares the ways between them.
func TestChangeMovesJoint(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name   string
		change survey.Change
		value  float64
		// move returns where the points are afterwards.
		move func(at []r3.Vec)
	}{
		{"bearing lower", survey.Change{Change: "bearing-height", On: "centre joint"}, 9, func(at []r3.Vec) {
			at[2].Z -= 9
		}},
		{"bearing higher", survey.Change{Change: "bearing-height", On: "centre joint"}, -4.5, func(at []r3.Vec) {
			at[2].Z += 4.5
		}},
		{"bearing to the right", survey.Change{Change: "bearing-side", On: "centre joint"}, 6, func(at []r3.Vec) {
			at[2].Y -= 6
		}},
		{"nose up", survey.Change{Change: "wedge", On: "axle pinion"}, 1.5, func(at []r3.Vec) {
			at[3] = aboutAxle(at[3], at[3], at[4], 1.5)
		}},
		{"nose down", survey.Change{Change: "wedge", On: "axle pinion"}, -3, func(at []r3.Vec) {
			at[3] = aboutAxle(at[3], at[3], at[4], -3)
		}},
		{"mount raised", survey.Change{Change: "mount", On: "gearbox output"}, 12, func(at []r3.Vec) {
			at[1] = onArc(at[1], at[0], 12)
		}},
		{"mount lowered", survey.Change{Change: "mount", On: "gearbox output"}, -5, func(at []r3.Vec) {
			at[1] = onArc(at[1], at[0], -5)
		}},
		{"front shaft longer", survey.Change{Change: "length", On: "front shaft"}, 20, func(at []r3.Vec) {
			along := r3.Sub(at[2], at[1])
			at[2] = r3.Add(at[2], r3.Scale(20/r3.Norm(along), along))
		}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s := twoPiece()
			got := movedBy(t, s, tt.change, tt.value)
			at := points(s)
			tt.move(at)
			for k := range got {
				want := r3.Sub(at[k+1], at[k])
				// Lengths of 1000 mm, a dozen operations: 1e-11 mm is a hundred
				// roundings.
				if off := r3.Norm(r3.Sub(got[k].Axis, want)); off > 1e-11 {
					t.Errorf("shaft %d: got %v, want %v: %.2g mm apart", k, got[k].Axis, want, off)
				}
			}
		})
	}
}

// aboutAxle turns a point of the axle about the level line through its centre,
// square to the pinion from the joint; positive raises the joint.
func aboutAxle(point, joint, axle r3.Vec, deg float64) r3.Vec {
	line := r3.Unit(r3.Cross(r3.Vec{Z: 1}, r3.Sub(axle, joint)))
	return r3.Add(axle, r3.NewRotation(deg*math.Pi/180, line).Rotate(r3.Sub(point, axle)))
}

// onArc swings the joint about the level line through the pivot until it stands
// higher by rise, by bisection of the angle.
func onArc(joint, pivot r3.Vec, rise float64) r3.Vec {
	arm := r3.Sub(joint, pivot)
	line := r3.Unit(r3.Cross(r3.Vec{Z: 1}, arm))
	low, high := -0.5, 0.5 // rad; positive lowers the joint
	var swung r3.Vec
	for range 100 {
		mid := (low + high) / 2
		swung = r3.NewRotation(mid, line).Rotate(arm)
		if swung.Z-arm.Z > rise {
			low = mid
		} else {
			high = mid
		}
	}
	return r3.Add(pivot, swung)
}

func movedBy(t *testing.T, s *survey.Survey, c survey.Change, value float64) []kinematics.Shaft {
	t.Helper()
	g := newGeometry(s)
	made, err := newChange(s, g, c)
	if err != nil {
		t.Fatal(err)
	}
	after := make([]kinematics.Shaft, len(g.shafts))
	g.moved(after, []setting{{made, value}})
	return after
}

func TestChangesAddUp(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	g := newGeometry(s)
	var settings, reversed []setting
	at := points(s)
	for _, c := range []struct {
		change survey.Change
		value  float64
	}{
		{survey.Change{Change: "mount", On: "gearbox output"}, 6},
		{survey.Change{Change: "bearing-height", On: "centre joint"}, 9},
		{survey.Change{Change: "bearing-side", On: "centre joint"}, -3},
		{survey.Change{Change: "wedge", On: "axle pinion"}, 2},
		{survey.Change{Change: "clocking", On: "rear shaft"}, 30},
	} {
		made, err := newChange(s, g, c.change)
		if err != nil {
			t.Fatal(err)
		}
		settings = append(settings, setting{made, c.value})
		reversed = append([]setting{{made, c.value}}, reversed...)
	}
	at[1] = onArc(at[1], at[0], 6)
	at[2] = r3.Add(at[2], r3.Vec{Y: 3, Z: -9})
	at[3] = aboutAxle(at[3], at[3], at[4], 2)
	for _, order := range [][]setting{settings, reversed} {
		got := make([]kinematics.Shaft, len(g.shafts))
		g.moved(got, order)
		for k := range got {
			if off := r3.Norm(r3.Sub(got[k].Axis, r3.Sub(at[k+1], at[k]))); off > 1e-11 {
				t.Errorf("shaft %d: %.2g mm from where its ends are", k, off)
			}
		}
		if got := got[2].Phase / kinematics.Degree; math.Abs(got-30) > 1e-12 {
			t.Errorf("phase of the rear shaft: got %v deg, want 30", got)
		}
	}
}

func TestChangeFromPositions(t *testing.T) {
	t.Parallel()
	bySlopes, byPositions := twoPiece(), positioned()
	for _, c := range []survey.Change{
		{Change: "wedge", On: "axle pinion"},
		{Change: "mount", On: "gearbox output"},
		{Change: "bearing-height", On: "centre joint"},
		{Change: "length", On: "front shaft"},
	} {
		got, want := movedBy(t, byPositions, c, 3), movedBy(t, bySlopes, c, 3)
		for k := range got {
			if off := r3.Norm(r3.Sub(got[k].Axis, want[k].Axis)); off > 1e-10 { // differences of positions of 3000 mm
				t.Errorf("%s, shaft %d: %.2g mm from the driveline given by slopes", c.Change, k, off)
			}
		}
	}
}

func TestMissingLengths(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name    string
		without []int // shafts
		change  survey.Change
		want    string // in the error; "": none
		tilt    bool
	}{
		{"clocking needs none", []int{0, 1, 2, 3}, survey.Change{Change: "clocking", On: "rear shaft"}, "", false},
		{"bearing, shaft before", []int{1}, survey.Change{Change: "bearing-height", On: "centre joint"},
			`bearing-height(centre joint): it moves "centre joint" and so turns "front shaft" and "rear shaft": want the length of "front shaft"`, false},
		{"bearing, both shafts", []int{1, 2}, survey.Change{Change: "bearing-side", On: "centre joint"},
			`want the length of "front shaft" and of "rear shaft"`, false},
		{"bearing needs no other", []int{0, 3}, survey.Change{Change: "bearing-height", On: "centre joint"}, "", false},
		{"mount, its own", []int{0}, survey.Change{Change: "mount", On: "gearbox output"},
			`want the length of "gearbox output"`, false},
		{"wedge only tilts", []int{3}, survey.Change{Change: "wedge", On: "axle pinion"}, "", true},
		{"wedge only tilts without the shaft", []int{2}, survey.Change{Change: "wedge", On: "axle pinion"}, "", true},
		{"wedge", []int{0, 1}, survey.Change{Change: "wedge", On: "axle pinion"}, "", false},
		{"length of the shaft at the axle", nil, survey.Change{Change: "length", On: "rear shaft"},
			"want a shaft before a centre bearing", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s := twoPiece()
			for _, k := range tt.without {
				s.Shafts[k].Length = 0
			}
			got, err := newChange(s, newGeometry(s), tt.change)
			switch {
			case tt.want == "" && err != nil:
				t.Errorf("got error %q, want none", err)
			case tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)):
				t.Errorf("got error %v, want one with %q", err, tt.want)
			case err == nil && got.tiltOnly != tt.tilt:
				t.Errorf("tilt only: got %v, want %v", got.tiltOnly, tt.tilt)
			}
		})
	}
}

func TestTiltOnlyLeavesTheShaft(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	s.Shafts[3].Length = 0
	was := newGeometry(s).shafts
	got := movedBy(t, s, survey.Change{Change: "wedge", On: "axle pinion"}, 2)
	if got[2] != was[2] {
		t.Errorf("rear shaft: got %v, want %v", got[2], was[2])
	}
	before, after := kinematics.Incline(was[3].Axis), kinematics.Incline(got[3].Axis)
	if rise := (after - before) / kinematics.Degree; math.Abs(rise-2) > 1e-12 {
		t.Errorf("pinion: turned by %v deg, want 2", rise)
	}
}
