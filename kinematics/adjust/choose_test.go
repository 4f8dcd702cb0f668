package adjust

import (
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

func TestSearchWithoutLengths(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	for k := range s.Shafts {
		s.Shafts[k].Length = 0
	}
	r := search(t, s, Options{})
	var kinds []string
	for _, c := range r.Changes {
		kinds = append(kinds, c.Change)
	}
	if want := []string{survey.ChangeWedge, survey.ChangeClocking, survey.ChangeClocking}; !slices.Equal(kinds, want) || !r.Assumed {
		t.Errorf("got %v, assumed %v; want %v, assumed", kinds, r.Assumed, want)
	}
	if len(r.Refused) != 3 || !strings.Contains(r.Refused[0], `want the length of "front shaft" and of "rear shaft"`) {
		t.Errorf("refused: got %q, want both moves of the bearing and the mount", r.Refused)
	}
	if !slices.ContainsFunc(r.Remarks, func(m string) bool { return strings.Contains(m, "approximation") }) {
		t.Errorf("remarks: got %q, want one that the wedge is an approximation", r.Remarks)
	}
}

func TestDefaultsIn(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	s.Units = survey.Inch
	s.Joints[2].Kind = kinematics.ConstantVelocity
	s.Joints[1].Kind = kinematics.ConstantVelocity
	got, refused := Defaults(s)
	want := []survey.Change{
		{Change: "wedge", On: "axle pinion", From: -4, To: 4, Step: 0.5},
		{Change: "bearing-height", On: "centre joint", From: 0, To: 1.25, Step: 0.125},
		{Change: "bearing-side", On: "centre joint", From: -0.5, To: 0.5, Step: 0.125},
		{Change: "mount", On: "gearbox output", From: 0, To: 1.25, Step: 0.125},
	} // no clocking: behind the first joint nothing fluctuates
	if !slices.Equal(got, want) || len(refused) > 0 {
		t.Errorf("got %v and %v, want %v", got, refused, want)
	}
	s.Adjust = got
	if err := s.Validate(); err != nil {
		t.Error(err)
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
		{"too many combinations", Options{Allow: []survey.Change{
			{Change: "wedge", On: "axle pinion", From: -5, To: 5, Step: 0.001},
			{Change: "mount", On: "gearbox output", From: -5, To: 5, Step: 0.001},
			{Change: "clocking", On: "shaft", From: -5, To: 5, Step: 0.001},
		}}, "1e+12 combinations of wedge(axle pinion), mount(gearbox output), clocking(shaft): want at most 1e+09"},
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

func TestSearchRefuses(t *testing.T) {
	t.Parallel()
	for name, s := range map[string]*survey.Survey{
		"no shafts": {}, "a slope that is no number": onePiece(3, math.NaN(), 1),
	} {
		if r, err := Search(t.Context(), s, Options{}); err == nil {
			t.Errorf("%s: got %+v, want an error", name, r)
		}
	}
}
