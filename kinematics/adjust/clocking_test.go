package adjust

import (
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

func cuts(p Plan) bool { return p.Makes(survey.ChangeClocking) }

// A bearing that stands 10 mm too low and 10 mm to the left of a good line is put
// back; nobody welds the shaft instead. The angles are those of the points.
func TestBearingIsPutBack(t *testing.T) {
	t.Parallel()
	s := &survey.Survey{RPM: 2600, ReadingErrorDeg: 0.1, Shafts: []survey.Shaft{
		{Name: "gearbox output", Slope: survey.Down(3), Length: 900},
		{Name: "front shaft", Slope: survey.Down(4), Heading: survey.Right(-0.7), Length: 800},
		{Name: "rear shaft", Slope: survey.Down(4.9), Heading: survey.Right(0.6), Length: 1000},
		{Name: "axle pinion", Slope: survey.Down(3.3), Length: 330},
	}}
	r := search(t, s, Options{})
	if len(r.Plans) == 0 {
		t.Fatal("got no plan")
	}
	var got []string
	for _, step := range r.Plans[0].Steps {
		got = append(got, step.Instruction)
	}
	want := []string{`raise the bearing at "joint 2" by 10 mm`, `move the bearing at "joint 2" 10 mm to the right, as seen along the power flow`}
	if !slices.Equal(got, want) || r.Plans[0].Outcome != limits.Within {
		t.Errorf("got %q, %s, want %q, within", got, r.Plans[0].Outcome, want)
	}
	if slices.ContainsFunc(r.Plans, cuts) {
		t.Errorf("got %+v, want no yoke turned", r.Plans)
	}
}

// Yokes in phase are turned only where that alone mends everything.
func TestGoodShaftIsNotCut(t *testing.T) {
	t.Parallel()
	const sideways = `The planes of the joints at "shaft" are twisted though its yokes are in phase: engine, bearing or axle stands sideways.`
	bus := onePiece(4, 6.5, 4)
	bus.RPM, bus.ReadingErrorDeg, bus.Limits.Set = 2200, 0.1, survey.SetHeavyRoad
	for k, right := range []float64{0, 6, 3} {
		bus.Shafts[k].Heading, bus.Shafts[k].Length = survey.Right(right), []float64{1200, 650, 400}[k]
	}
	r := search(t, bus, Options{})
	if slices.ContainsFunc(r.Plans, cuts) || !strings.Contains(r.Answer(), sideways) || !strings.Contains(r.Answer(), "no yoke turned alone mends everything") {
		t.Errorf("one joint is bent too far: got %q, want no yoke turned, and that a part stands sideways", r.Answer())
	}

	// Planes square to each other, as by design: a quarter turn cancels them.
	square := onePiece(0, 2, 2)
	square.RPM, square.Shafts[2].Heading = 3000, survey.Right(2)
	if r = search(t, square, Options{}); len(r.Plans) != 1 || !cuts(r.Plans[0]) || r.Plans[0].Steps[0].Value != 90 && r.Plans[0].Steps[0].Value != -90 || len(r.SetAside) > 0 {
		t.Errorf("square planes: got %+v, want a quarter turn", r.Plans)
	}
	if !strings.Contains(r.Answer(), sideways) {
		t.Errorf("square planes: got %q, want a word of parts that stand sideways", r.Answer())
	}

	// Yokes out of phase are not spared, and a shaft that may be cut is cut.
	off := onePiece(3, 6, 3)
	off.Shafts[1].PhaseDeg = survey.Readings{22.5}
	bus.Adjust = append(wedges(-4, 4), survey.Change{Change: survey.ChangeClocking, On: "shaft", From: -90, To: 90})
	for name, s := range map[string]*survey.Survey{"out of phase": off, "listed": bus} {
		if r = search(t, s, Options{}); !slices.ContainsFunc(r.Plans, cuts) || len(r.Twisted) > 0 {
			t.Errorf("%s: got %+v, want a yoke turned", name, r.Plans)
		}
	}
}
