package adjust

import (
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

func labels(changes []survey.Change) []string {
	var list []string
	for _, c := range changes {
		list = append(list, label(c))
	}
	return list
}

func TestSearchWithoutLengths(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	for k := range s.Shafts {
		s.Shafts[k].Length, s.Shafts[k].Heading = 0, survey.Heading{}
	}
	r, _, err := choose(s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got := labels(r.Changes); !slices.Equal(got, []string{"wedge(axle pinion)"}) || !r.Assumed {
		t.Errorf("got %v, assumed %v; want the wedge, assumed", got, r.Assumed)
	}
	if len(r.Refused) != 2 || !strings.Contains(r.Refused[0], `want the length of "front shaft" and of "rear shaft"`) {
		t.Errorf("refused: got %q, want the move of the bearing and the mount", r.Refused)
	}
}

// What is usual makes a valid list of changes, in inches too; what is made on
// demand only is not among it.
func TestUsual(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	s.Units = survey.Inch
	for k := range s.Shafts {
		s.Shafts[k].Heading = survey.Heading{} // else the planes are twisted by 8°, for which one could clock
	}
	want := []survey.Change{
		{Change: "wedge", On: "axle pinion", From: -4, To: 4, Step: 0.5},
		{Change: "bearing-height", On: "centre joint", From: -1.25, To: 1.25, Step: 0.0625},
		{Change: "mount", On: "gearbox output", From: -1.25, To: 1.25, Step: 0.0625},
	}
	if got := usual(s, nil); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	for _, name := range survey.Changes {
		s.Adjust = usual(s, []string{name})
		if !slices.ContainsFunc(s.Adjust, func(c survey.Change) bool { return c.Change == name }) {
			t.Errorf("%s, asked for: not among %v", name, s.Adjust)
		}
		if err := s.Validate(); err != nil {
			t.Error(err)
		}
	}
}

// Clocking is usual where yokes stand as they should not.
func TestClockingIsUsual(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name string
		set  func(*survey.Survey)
		want bool
	}{
		{"in phase", func(*survey.Survey) {}, false},
		{"a little off", func(s *survey.Survey) { s.Shafts[1].PhaseDeg = survey.Readings{4} }, false},
		{"one tooth off", func(s *survey.Survey) { s.Shafts[1].PhaseDeg = survey.Readings{22.5} }, true},
		{"less than its own error", func(s *survey.Survey) { s.Shafts[1].PhaseDeg, s.PhaseErrorDeg = survey.Readings{22.5}, 20 }, false},
		{"half a turn", func(s *survey.Survey) { s.Shafts[1].PhaseDeg = survey.Readings{180} }, false},
		{"planes twisted", func(s *survey.Survey) { s.Shafts[2].Heading = survey.Right(3) }, true},
		{"planes twisted, clocked for it", func(s *survey.Survey) {
			s.Shafts[2].Heading, s.Shafts[1].PhaseDeg = survey.Right(3), survey.Readings{45}
		}, false},
		{"straight", func(s *survey.Survey) {
			s.Shafts[1].PhaseDeg, s.Shafts[2].Slope.Deg[0] = survey.Readings{22.5}, 6
		}, false},
		{"nothing to cancel", func(s *survey.Survey) {
			s.Shafts[1].PhaseDeg, s.Joints[0].Kind = survey.Readings{22.5}, kinematics.ConstantVelocity
		}, false},
	} {
		s := onePiece(3, 6, 3)
		tt.set(s)
		if got := slices.Contains(labels(usual(s, nil)), "clocking(shaft)"); got != tt.want {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestPracticalSteps(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	for _, tt := range []struct {
		change survey.Change
		step   float64
		values []float64
	}{
		{survey.Change{Change: "wedge", On: "axle pinion", From: -0.7, To: 1.2}, 0.5, []float64{-0.5, 0.5, 1}},
		{survey.Change{Change: "bearing-side", On: "centre joint", From: -2, To: 1}, 1, []float64{-2, -1, 1}},
		{survey.Change{Change: "bearing-height", On: "centre joint", From: 0, To: 9, Step: 4}, 4, []float64{4, 8}},
		{survey.Change{Change: "mount", On: "gearbox output", From: 2.25, To: 2.25}, 1, []float64{2.25}},
		{survey.Change{Change: "wedge", On: "axle pinion", From: 0.1, To: 0.4}, 0.5, nil},
	} {
		c, err := newChange(s, newGeometry(s), tt.change)
		if err != nil {
			t.Fatal(err)
		}
		if c.step != tt.step || !slices.Equal(c.values, tt.values) {
			t.Errorf("%+v: got steps of %v, %v, want %v, %v", tt.change, c.step, c.values, tt.step, tt.values)
		}
	}
	long, err := newChange(s, newGeometry(s), survey.Change{Change: "length", On: "front shaft", From: -1e5, To: 1e5})
	if n := len(long.values); err != nil || n > survey.MaxSteps || n < survey.MaxSteps/2 {
		t.Errorf("a range of 200 m: got %d values and error %v, want at most %d", n, err, survey.MaxSteps)
	}
}

func TestOptions(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 6, 1)
	tests := []struct {
		name string
		opts Options
		want string // in the error; "": none
	}{
		{"unknown kind", Options{Only: []string{"hammer"}}, `"hammer" is no kind of change: want some of wedge`},
		{"kind without a change", Options{Only: []string{survey.ChangeBearingHeight}}, "no change can be tried"},
		{"unknown part", Options{Allow: []survey.Change{{Change: "wedge", On: "axle"}}}, `"axle": want the name of the last shaft`},
		{"range of nothing", Options{Only: []string{"wedge"}, Allow: []survey.Change{{Change: "wedge", On: "axle pinion"}}}, "its range holds no value but 0"},
		{"negative count", Options{MostParts: -1}, "-1 changes at once: want 1 or more"},
		{"one value", Options{Only: []string{"wedge"}, Allow: []survey.Change{{Change: "wedge", On: "axle pinion", From: 2, To: 2}}}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			_, err := Search(t.Context(), s, tt.opts)
			switch {
			case tt.want == "" && err != nil:
				t.Errorf("got error %q, want none", err)
			case tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)):
				t.Errorf("got error %v, want one with %q", err, tt.want)
			}
		})
	}
}

// Of the longest drivelines more changes are usual than a file may list.
func TestUsualChangesOfTheLongestDriveline(t *testing.T) {
	t.Parallel()
	s := &survey.Survey{RPM: 1000}
	for k := range 64 {
		s.Shafts = append(s.Shafts, survey.Shaft{Slope: survey.Down(float64(k % 3)), Heading: survey.Right(float64(k % 4)), Length: 500})
	}
	r, changes, err := choose(s.Complete(), Options{})
	if err != nil || len(changes) <= 100 {
		t.Errorf("got %d changes, %v and error %v, want more than 100", len(changes), r, err)
	}
}
