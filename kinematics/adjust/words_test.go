package adjust

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics/survey"
)

func TestInstruction(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name  string
		asked survey.Change
		value float64
		want  string
	}{
		{"nose up", survey.Change{Change: "wedge", On: "axle pinion", From: -9, To: 9, Step: 0.5}, 1.5,
			`fit a wedge of 1.5° to turn the nose of "axle pinion" up: on leaf springs thick end away from the shaft (toward the shaft with the springs below the axle)`},
		{"nose down", survey.Change{Change: "wedge", On: "axle pinion", From: -9, To: 9, Step: 0.5}, -2,
			`fit a wedge of 2° to turn the nose of "axle pinion" down: on leaf springs thick end toward the shaft (away from the shaft with the springs below the axle)`},
		{"lower", survey.Change{Change: "bearing-height", On: "centre joint", From: -9, To: 9, Step: 3}, 9,
			`lower the bearing at "centre joint" by 9 mm: 3 shims of 3 mm`},
		{"one shim", survey.Change{Change: "bearing-height", On: "centre joint", From: -9, To: 9, Step: 3}, 3,
			`lower the bearing at "centre joint" by 3 mm: 1 shim of 3 mm`},
		{"raise", survey.Change{Change: "bearing-height", On: "centre joint", From: -9, To: 9, Step: 2.5}, -5,
			`raise the bearing at "centre joint" by 5 mm: 2 steps of 2.5 mm`},
		{"not in whole steps", survey.Change{Change: "bearing-height", On: "centre joint", From: -1, To: 9, Step: 3}, 2,
			`lower the bearing at "centre joint" by 2 mm`},
		{"in millimetres", survey.Change{Change: "bearing-height", On: "centre joint", To: 9, Step: 1}, 7,
			`lower the bearing at "centre joint" by 7 mm`},
		{"to the left", survey.Change{Change: "bearing-side", On: "centre joint", From: -9}, -4.25,
			`move the bearing at "centre joint" 4.25 mm to the left, as seen along the power flow`},
		{"mount", survey.Change{Change: "mount", On: "gearbox output", To: 9, Step: 3}, 6,
			`shim the mount of "gearbox output" until "front joint" stands 6 mm higher: 2 shims of 3 mm`},
		{"mount lowered", survey.Change{Change: "mount", On: "gearbox output", From: -9, To: 9}, -7,
			`lower the mount of "gearbox output" until "front joint" stands 7 mm lower`},
		{"by teeth", survey.Change{Change: "clocking", On: "rear shaft", To: 90, Step: 360. / 32}, 33.75,
			`turn the driven-end yoke of "rear shaft" by 33.75° clockwise, as seen along the power flow: 3 of the 32 teeth`},
		{"welded anew", survey.Change{Change: "clocking", On: "rear shaft", From: -90}, -12.5,
			`turn the driven-end yoke of "rear shaft" by 12.5° anticlockwise, as seen along the power flow: if the shaft has a slip spline, pull it and put it back by as many teeth (one of 32 is 11.25°, one of 16 is 22.5°), only else cut and weld it, and have it balanced anew`},
		{"shorter", survey.Change{Change: "length", On: "front shaft", From: -20, Step: 5}, -10,
			`make "front shaft" 10 mm shorter and move the bearing at "centre joint" along with it`},
		{"beyond its range", survey.Change{Change: "length", On: "front shaft", To: 20, Step: 5}, 25,
			`make "front shaft" 25 mm longer and move the bearing at "centre joint" along with it (not possible with these parts: 0 to 20 mm longer)`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s := twoPiece()
			c, err := newChange(s, newGeometry(s), tt.asked)
			if err != nil {
				t.Fatal(err)
			}
			got := instruction(s, setting{c, tt.value})
			if exact := tt.asked.Change != "wedge"; exact && got != tt.want || !strings.HasPrefix(got, tt.want) {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
		})
	}
}

// TestThickEnd turns a spring seat on the axle with the pinion and looks where
// the gap to the spring, which stays, has become wider.
func TestThickEnd(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	joint, axle := points(s)[3], points(s)[4]
	for _, wedge := range []float64{2, -2} {
		turned := func(p r3.Vec) r3.Vec { return aboutAxle(p, joint, axle, wedge) }
		if up := turned(joint).Z > joint.Z; up != (sided(wedge, "up", "down") == "up") {
			t.Errorf("wedge of %v°: the nose goes up: %v", wedge, up)
		}
		for _, above := range []bool{true, false} {
			height := 60.0 // of the spring over the centre of the axle, mm
			if !above {
				height = -height
			}
			// The ends of the seat; power flows along x.
			toward := r3.Add(axle, r3.Vec{X: -70, Z: height})
			away := r3.Add(axle, r3.Vec{X: 70, Z: height})
			gap := func(end r3.Vec) float64 { // how far the seat has moved from the spring
				moved := turned(end).Z - end.Z
				if above {
					return -moved
				}
				return moved
			}
			thickAway := gap(away) > gap(toward)
			if math.Abs(gap(away)-gap(toward)) < 1 {
				t.Fatal("the gap has not become wider at either end: the test shows nothing")
			}

			words := thickEnd(wedge)
			on, below, _ := strings.Cut(words, "(")
			part := map[bool]string{true: on, false: below}[above]
			if got := strings.Contains(part, "away from the shaft"); got != thickAway {
				t.Errorf("wedge of %v°, spring above %v: got %q, want thick end away %v", wedge, above, words, thickAway)
			}
		}
	}
}

// A machine has no wedges: its shaft is tilted.
func TestTilt(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	s.Limits.Set = survey.SetMachinery
	c, err := newChange(s, newGeometry(s), wedges(-4, 4)[0])
	if err != nil {
		t.Fatal(err)
	}
	if got, want := instruction(s, setting{c, 2}), `tilt "axle pinion" by 2° until its driving end stands higher`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// The answer to every kind of result, in a few words of each.
func TestAnswer(t *testing.T) {
	t.Parallel()
	pair := func(v float64) survey.Limits {
		return only(map[string]float64{survey.LimitCompanionDifference: v})
	}
	tests := []struct {
		name   string
		down   []float64
		error  float64
		limits survey.Limits
		want   []string // in this order
		not    string
	}{
		{"fine", []float64{3, 6, 3}, 0, pair(0.5), []string{"Nothing needs to be changed: every limit is kept, if the readings are exact."}, "One change"},
		{"could be halved", []float64{3, 6, 0}, 0, only(map[string]float64{survey.LimitResidualAccel: 900}),
			[]string{"Nothing needs to be changed", "One change would leave", "instead of 5.20°: fit a wedge of 3°"}, "Best"},
		{"in doubt", []float64{3, 6, 2.25}, 0.1, pair(0.6), []string{"No limit is known to be broken. To take the doubt away: fit"}, "Best"},
		{"mended", []float64{3, 6, 1}, 0, pair(0.5), []string{"Best: fit a wedge of 2°", "That brings it within every limit, if the readings are exact."}, "more than there is now"},
		{"in doubt still", []float64{3, 6, 1}, 0.3, pair(0.5), []string{"Best: fit a wedge of 2°", "as measured, but the reading errors leave a doubt"}, "whatever"},
		{"mirrored", []float64{3, 5, 6.6}, 0, pair(0.3), []string{"Best: fit", "The ends are then mirrored, not parallel, which suits one height only: 0.", `of travel of "shaft" (`, "breaks the limit of the mismatch"}, "parallel rather"},
		{"the rest", []float64{3, 8, 1}, 0, only(map[string]float64{survey.LimitCompanionDifference: 0.3, survey.LimitWorkingAngleMax: 1}),
			[]string{"Nothing within reach mends that the working angle at joint 1, 5.00°, is over 1°, nor 1 more.", "Best for the rest: fit a wedge of 2°", "That brings the rest within its limits."}, "every limit"},
		{"beyond reach", []float64{3, 8, -6}, 0, pair(0.3),
			[]string{"Nothing within reach mends that", "Nearest: ", "fit a wedge of 4°", "That leaves 8.22° instead of 13.1°."}, "the rest"},
		// A pair that cancels is not spoilt to bring one of its joints below what both are over.
		{"a perfect pair bent too far", []float64{0, 12, 0}, 0, only(map[string]float64{survey.LimitWorkingAngleMax: 11.7, survey.LimitCompanionDifference: 0.7}),
			[]string{"Nothing within reach mends that", "No change within reach makes anything better"}, "fit a wedge"},
		{"nothing", []float64{3, 8, 3}, 0, only(map[string]float64{survey.LimitWorkingAngleMax: 0.5, survey.LimitCompanionDifference: 0.5}),
			[]string{"Nothing within reach mends that", "No change within reach makes anything better"}, "Best"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s := onePiece(tt.down...)
			s.ReadingErrorDeg, s.Limits, s.Adjust, s.RPM = tt.error, tt.limits, wedges(-4, 4), 2900
			if tt.name == "mirrored" {
				s.Adjust = wedges(0, 4)
			}
			text := search(t, s, Options{}).Answer()
			rest := text
			for _, want := range tt.want {
				_, after, found := strings.Cut(rest, want)
				if !found {
					t.Errorf("got %q, want %q in it, in this order", text, want)
				}
				rest = after
			}
			if strings.Contains(text, tt.not) {
				t.Errorf("got %q, want it without %q", text, tt.not)
			}
		})
	}
}
