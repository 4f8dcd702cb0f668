package survey_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/floats/scalar"
	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// A shaft between two points in space is measured in every way there is: its length,
// its sideways run and its slope by tape and by the triangle in the side view, or
// as the inclinometer on it sees it. Each way leads back to the points.
func TestDirectionsFromPoints(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(3, 1))
	for range 1000 {
		// From the driving end along, to the right and down.
		along, right, down := 100+900*random.Float64(), 600*random.Float64()-300, 600*random.Float64()-300
		length := math.Sqrt(along*along + right*right + down*down)
		inSideView := math.Atan2(down, along) / kinematics.Degree
		inTopView := math.Atan2(right, along) / kinematics.Degree
		trueIncline := math.Asin(down/length) / kinematics.Degree
		zero := 4*random.Float64() - 2
		for _, sh := range []survey.Shaft{
			{Slope: survey.Down(inSideView), Heading: survey.Right(inTopView)},
			{Slope: survey.Down(inSideView), Heading: survey.Offset(right), Length: length},
			{Slope: survey.Incline(trueIncline), Heading: survey.Right(inTopView)},
			{Slope: survey.Incline(trueIncline), Heading: survey.Offset(right), Length: length},
			{Slope: survey.Turned(trueIncline+zero, trueIncline-zero), Heading: survey.Right(inTopView)},
			{Slope: survey.Turned(trueIncline+zero, trueIncline-zero), Heading: survey.Offset(right-1, right+1), Length: length},
		} {
			got := r3.Scale(length, r3.Unit(sh.Axis()))
			want := r3.Vec{X: along, Y: -right, Z: -down}
			// Near the end of its reach a run says little of the heading.
			if gap := r3.Norm(r3.Sub(got, want)); !(gap <= 1e-9*length) {
				t.Errorf("%+v: got %v, want %v", sh, got, want)
			}
			if got := sh.Slope.Of(want); !scalar.EqualWithinAbs(got, sh.Slope.Mean(), 1e-9) {
				t.Errorf("%+v: its axis reads as a slope of %g deg", sh, got)
			}
			if got := sh.Heading.Of(want, length); !scalar.EqualWithinAbs(got, sh.Heading.Mean(), 1e-9) {
				t.Errorf("%+v: its axis reads as a heading of %g", sh, got)
			}
		}
	}
}

// By hand: a 3-4-5 triangle in the level plane, and the space diagonal 2, 3, 6 of
// length 7.
func TestOffsetByHand(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		slope        survey.Slope
		offset, long float64
		want         r3.Vec
	}{
		{survey.Down(0), 300, 500, r3.Vec{X: 4, Y: -3}},
		{survey.Incline(0), -300, 500, r3.Vec{X: 4, Y: 3}},
		{survey.Incline(math.Asin(2./7) / kinematics.Degree), 3, 7, r3.Vec{X: 6, Y: -3, Z: -2}},
		{survey.Down(math.Atan(2./6) / kinematics.Degree), 3, 7, r3.Vec{X: 6, Y: -3, Z: -2}},
		{survey.Turned(0.5+math.Asin(-2./7)/kinematics.Degree, math.Asin(-2./7)/kinematics.Degree-0.5), 3, 7, r3.Vec{X: 6, Y: -3, Z: 2}},
	} {
		sh := survey.Shaft{Slope: test.slope, Heading: survey.Offset(test.offset), Length: test.long}
		if gap := r3.Norm(r3.Sub(r3.Unit(sh.Axis()), r3.Unit(test.want))); !(gap <= tolerance) {
			t.Errorf("%+v: got %v, want along %v", sh, sh.Axis(), test.want)
		}
	}
}

func TestGaugeZero(t *testing.T) {
	t.Parallel()
	if zero, ok := survey.Turned(-1.3, -1.7).GaugeZero(); !ok || !scalar.EqualWithinAbs(zero, 0.2, tolerance) {
		t.Errorf("got zero %g (%t), want 0.2, half of what the readings differ by", zero, ok)
	}
	for _, slope := range []survey.Slope{{}, survey.Down(4), survey.Incline(2, 1)} {
		if zero, ok := slope.GaugeZero(); ok {
			t.Errorf("%v: got zero %g where no gauge was turned", slope, zero)
		}
	}
}

// A slope or heading that is moved stays measured the way it was.
func TestShifted(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ got, want any }{
		{survey.Incline(3, 3.5).Shifted(1), survey.Incline(4, 4.5)},
		{survey.Turned(3, 2).Shifted(-1), survey.Turned(2, 1)},
		{survey.Slope{}.Shifted(2), survey.Down(2)},
		{survey.Offset(5).Shifted(2), survey.Offset(7)},
		{survey.Heading{}.Shifted(2), survey.Right(2)},
	} {
		if got, want := fmt.Sprintf("%+v", test.got), fmt.Sprintf("%+v", test.want); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}

// What was not entered can be told from what was entered as 0.
func TestEntered(t *testing.T) {
	t.Parallel()
	s, err := survey.Read("entered.json", strings.NewReader(`{"shafts": [
		{"down": 0}, {"down": 0, "right": 0, "phase": 0}, {"down": 0, "length": 500, "offset": 0}, {"down": 0}]}`))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct{ heading, phase bool }{{false, false}, {true, true}, {true, false}, {false, false}} {
		if sh := s.Shafts[i]; sh.Heading.Entered() != want.heading || (sh.PhaseDeg != nil) != want.phase {
			t.Errorf("shaft %d: got heading %t and phase %t entered, want %+v", i, sh.Heading.Entered(), sh.PhaseDeg != nil, want)
		}
	}
}
