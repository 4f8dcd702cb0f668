package adjust

import (
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// TestMissingLengthIsAskedFor has wedges whose size depends on the length of the
// pinion, and one whose size does not: that which makes the ends parallel.
func TestMissingLengthIsAskedFor(t *testing.T) {
	t.Parallel()
	const ask = `want the length of "axle pinion" from "joint 2" to the centre line of the axle`
	lone := onePiece(3, 18.5, 14) // in mm as well as in inches
	lone.Joints[0].Kind, lone.RPM, lone.ReadingErrorDeg = kinematics.DoubleCardan, 2900, 0.2
	lone.Shafts[0].Length, lone.Shafts[1].Length, lone.Shafts[2].Length = 0, 711, 0
	r := search(t, lone, Options{})
	if p := r.Plans[0]; p.Steps[0].Value != 4 || !slices.Equal(p.Missing, []string{"axle pinion"}) || p.Outcome != limits.TooClose {
		t.Errorf("lone joint: got %+v, %s, want about 4 deg, and the length of the pinion", p.Steps, p.Outcome)
	}
	if text := r.Answer(); !strings.Contains(text, "fit a wedge of about 4°") || !strings.Contains(text, ask) || strings.Contains(text, "whatever") {
		t.Errorf("lone joint: got %q, want about 4°, and %q", text, ask)
	}
	// With the length, 4° would leave 1.36° on the far side: it is 3°.
	lone.Shafts[2].Length = 330
	if r = search(t, lone, Options{}); r.Plans[0].Steps[0].Value != 3 || r.Plans[0].Missing != nil || r.Plans[0].Outcome != limits.Within {
		t.Errorf("lone joint, all lengths: got %+v, want 3 deg, within", r.Plans)
	}
	low := "builders set a lone joint such as \"joint 2\" 1 to 2° low at rest"
	if notes := strings.Join(r.Notes(&r.Plans[0]), " "); !strings.Contains(notes, low) || !strings.Contains(notes, "on a steered axle that takes 3° off the caster.") {
		t.Errorf("got notes %q, want %q and the caster in them", notes, low)
	}

	pairOf := func(down ...float64) *survey.Survey {
		s := onePiece(down...)
		s.RPM, s.ReadingErrorDeg = 2600, 0.1
		s.Shafts[0].Length, s.Shafts[2].Length = 0, 0
		return s
	}
	// Parallel but for 0.2°, which leaves more the more the shaft falls: the wedge is
	// the same.
	if p := search(t, pairOf(0.5, 3.5, 3.2), Options{}).Plans[0]; p.Steps[0].Value != -2.5 || p.Missing != nil {
		t.Errorf("parallel but for a little: got %+v, want -2.5 deg whatever the lengths, not that of %v", p.Steps, p.Missing)
	}
	r = search(t, pairOf(2.5, 5.5, 5), Options{})
	if len(r.Plans) != 2 || r.Plans[0].Missing != nil || r.Plans[0].Outcome != limits.Within || r.Plans[1].Missing == nil || r.Plans[1].Outcome != limits.TooClose {
		t.Errorf("a pair: got %+v, want the parallel one sure and the mirrored one not", r.Plans)
	}
	if !strings.Contains(r.Answer(), "allowing for the reading errors") {
		t.Errorf("a pair: got %q, want it sure", r.Answer())
	}
	if notes := strings.Join(r.Notes(&r.Plans[1]), " "); !strings.Contains(notes, ask) {
		t.Errorf("a pair: got notes %q, want %q in them", notes, ask)
	}

	// What could not be tried is told where the rest does not do.
	short := onePiece(3, 14, 3)
	short.Shafts[0].Length = 0
	short.RPM = 2900
	if text := search(t, short, Options{}).Answer(); !strings.Contains(text, "Not tried for want of a length: mount(gearbox output).") {
		t.Errorf("got %q, want what was not tried", text)
	}
}

// The first shaft has no joint in front of it to be measured from.
func TestMissingLengthOfTheFirstShaft(t *testing.T) {
	t.Parallel()
	r := search(t, read(t, `{"shafts": [{"name": "motor", "down": 3}, {"name": "pump", "down": 6}]}`), Options{})
	if want := `"motor" from its mounts to "joint 1" and of "pump" from "joint 1" to`; !strings.Contains(r.Answer(), want) {
		t.Errorf("got %q, want %q in it", r.Answer(), want)
	}
}
