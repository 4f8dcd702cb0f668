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
		{"nose up", survey.Change{Change: "wedge", On: "axle pinion", Step: 0.5}, 1.5,
			`fit a wedge of 1.5° to turn the nose of "axle pinion" up: thick end away from the shaft (to the rear on a rear axle)`},
		{"nose down", survey.Change{Change: "wedge", On: "axle pinion", Step: 0.5}, -2,
			`fit a wedge of 2° to turn the nose of "axle pinion" down: thick end toward the shaft (to the front on a rear axle)`},
		{"lower", survey.Change{Change: "bearing-height", On: "centre joint", Step: 3}, 9,
			`lower the bearing at "centre joint" by 9 mm: 3 shims of 3 mm`},
		{"one shim", survey.Change{Change: "bearing-height", On: "centre joint", Step: 3}, 3,
			`lower the bearing at "centre joint" by 3 mm: 1 shim of 3 mm`},
		{"raise", survey.Change{Change: "bearing-height", On: "centre joint", Step: 2.5}, -5,
			`raise the bearing at "centre joint" by 5 mm: 2 steps of 2.5 mm`},
		{"not in whole steps", survey.Change{Change: "bearing-height", On: "centre joint", From: -1, Step: 3}, 2,
			`lower the bearing at "centre joint" by 2 mm`},
		{"to the left", survey.Change{Change: "bearing-side", On: "centre joint"}, -4.25,
			`move the bearing at "centre joint" 4.25 mm to the left, as seen along the power flow`},
		{"mount", survey.Change{Change: "mount", On: "gearbox output", Step: 3}, 6,
			`shim the mount of "gearbox output" until "front joint" stands 6 mm higher: 2 shims of 3 mm`},
		{"by teeth", survey.Change{Change: "clocking", On: "rear shaft", Step: 360. / 32}, 33.75,
			`turn the driven-end yoke of "rear shaft" by 33.75° clockwise, as seen along the power flow: 3 of the 32 teeth`},
		{"by any angle", survey.Change{Change: "clocking", On: "rear shaft"}, -12.3,
			`turn the driven-end yoke of "rear shaft" by 12.3° anticlockwise, as seen along the power flow`},
		{"shorter", survey.Change{Change: "length", On: "front shaft", Step: 5}, -10,
			`make "front shaft" 10 mm shorter and move the bearing at "centre joint" along with it`},
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
		up := turned(joint).Z > joint.Z // the nose
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

			words := wedgeWords(wedge)
			if !strings.HasPrefix(words, map[bool]string{true: "up", false: "down"}[up]) {
				t.Errorf("wedge of %v°: got %q, want the nose up: %v", wedge, words, up)
			}
			on, below, _ := strings.Cut(words, "with the spring on top of the axle")
			part := map[bool]string{true: on, false: below}[above]
			if got := strings.Contains(part, "away from the shaft"); got != thickAway {
				t.Errorf("wedge of %v°, spring above %v: got %q, want thick end away %v", wedge, above, words, thickAway)
			}
		}
	}
}
