package adjust

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// TestWedgeIsTheAngleDifference solves the one-piece shaft by hand. Its joints
// have equal angles when the pinion is parallel to the gearbox output, wherever
// the wedge moves the joint and the shaft: the wedge is the difference of the
// two slopes, to the nearest half degree. (Or when the shaft halves the bend
// between the two, which this one is too steep for.)
func TestWedgeIsTheAngleDifference(t *testing.T) {
	t.Parallel()
	src := rand.New(rand.NewPCG(1, 1))
	for range 30 {
		output, shaft, pinion := 4*src.Float64(), 8+2*src.Float64(), 4*src.Float64()
		want := math.Round(2*(output-pinion)) / 2
		s := onePiece(output, shaft, pinion)
		// A quarter of a degree is the most that the nearest half degree leaves.
		s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitCompanionDifference: 0.25})
		r := search(t, s, Options{Only: []string{survey.ChangeWedge}})
		if want == 0 {
			if !r.Fine {
				t.Errorf("slopes %.3f, %.3f, %.3f deg: got plans, want none needed", output, shaft, pinion)
			}
			continue
		}
		if len(r.Plans) != 1 || r.Plans[0].Steps[0].Value != want || r.Plans[0].Outcome != limits.Within {
			t.Errorf("slopes %.3f, %.3f, %.3f deg: got %+v, want a wedge of %v deg, within", output, shaft, pinion, r.Plans, want)
			continue
		}
		after := r.Plans[0].After[0].WorkingAngleDeg
		// The joint rises by the pinion's length times the sine of what it is
		// raised by, and the shaft between falls by as much more or less.
		rise := 250 * (math.Sin((pinion+want)*math.Pi/180) - math.Sin(pinion*math.Pi/180))
		back := 250 * (math.Cos((pinion+want)*math.Pi/180) - math.Cos(pinion*math.Pi/180))
		sin, cos := math.Sincos(shaft * math.Pi / 180)
		slope := math.Atan2(1300*sin-rise, 1300*cos-back) * 180 / math.Pi
		for k, wantAngle := range []float64{math.Abs(slope - output), math.Abs(pinion + want - slope)} {
			if math.Abs(after[k]-wantAngle) > 2e-6 { // readings are rounded to 1e-6°
				t.Errorf("joint %d: got %v deg, want %v", k+1, after[k], wantAngle)
			}
		}
	}
}

// TestClockingIsTheAngleBetweenPlanes bends two joints by the same angle, the
// second about a line that is turned clockwise from the first: the yoke must be
// turned by as much.
func TestClockingIsTheAngleBetweenPlanes(t *testing.T) {
	t.Parallel()
	for _, twist := range []float64{-80, -33.3, 12.25, 40, 75} {
		t.Run(fmt.Sprint(twist), func(t *testing.T) {
			t.Parallel()
			const bend = 6 * kinematics.Degree
			first := kinematics.AxisFromSlopes(0, 0)
			second := kinematics.AxisFromSlopes(bend, 0)
			normal := r3.Unit(r3.Cross(first, second))
			normal = r3.NewRotation(twist*kinematics.Degree, second).Rotate(normal)
			down, right := kinematics.Slopes(r3.NewRotation(bend, normal).Rotate(second))
			s := onePiece(0, bend/kinematics.Degree, down/kinematics.Degree)
			s.Shafts[2].Heading = survey.Right(right / kinematics.Degree)
			s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitEquivalentAngle: 0.6})
			r := search(t, s, Options{Only: []string{survey.ChangeClocking}})
			if len(r.Plans) != 1 || r.Plans[0].Outcome != limits.Within {
				t.Fatalf("got %+v, want one plan, within", r.Plans)
			}
			// To the nearest half degree.
			if got := r.Plans[0].Steps[0].Value; math.Abs(got-twist) > 0.2501 {
				t.Errorf("got %v deg, want %v", got, twist)
			}
		})
	}
}

func TestNudges(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 1) // parallel with a wedge of 2°
	s.Limits = survey.OnlyLimits(map[string]float64{survey.LimitCompanionDifference: 0.4})
	r := search(t, s, Options{Only: []string{survey.ChangeWedge}})
	nudges := r.Plans[0].Nudges
	if len(nudges) != 2 || nudges[0].By != -0.25 || nudges[1].By != 0.25 {
		t.Fatalf("got %+v, want a quarter of a degree less and more", nudges)
	}
	for _, n := range nudges {
		if math.Abs(n.Tightest.Value-0.25) > 1e-9 || math.Abs(n.Tightest.Margin-(1-0.25/0.4)) > 1e-9 {
			t.Errorf("by %v: got %+v, want a difference of 0.25 deg within 0.4", n.By, n.Tightest)
		}
	}
}
