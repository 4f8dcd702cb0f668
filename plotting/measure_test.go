package plotting

import (
	"bytes"
	"slices"
	"testing"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Each place has a drawing of its own.
func TestMeasure(t *testing.T) {
	t.Parallel()
	joints := []kinematics.Kind{kinematics.DoubleCardan, kinematics.Cardan, kinematics.ConstantVelocity}
	var drawings [][]byte
	for _, what := range []Measured{MeasuredSlope, MeasuredLength, MeasuredSideways, MeasuredPhase} {
		for shaft := range 4 {
			if what == MeasuredPhase && shaft > 0 {
				continue // the yokes of one shaft look like those of another
			}
			f, err := Measure(joints, Place{what, shaft})
			if err != nil {
				t.Fatal(err)
			}
			svg, err := page.Encode(f, page.SVG, page.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if slices.ContainsFunc(drawings, func(d []byte) bool { return bytes.Equal(d, svg) }) {
				t.Errorf("%s of shaft %d is drawn like another", what, shaft)
			}
			drawings = append(drawings, svg)
		}
	}
	for _, wrong := range []Place{{MeasuredSlope, 4}, {MeasuredSlope, -1}, {"weight", 0}, {}} {
		if _, err := Measure(joints, wrong); err == nil {
			t.Errorf("%v is drawn", wrong)
		}
	}
	if _, err := Measure([]kinematics.Kind{"rubber"}, Place{MeasuredSlope, 0}); err == nil {
		t.Error("a joint of no kind is drawn")
	}
}
