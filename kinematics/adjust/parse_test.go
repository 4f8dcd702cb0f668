package adjust

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

func TestParseVariable(t *testing.T) {
	t.Parallel()
	odd := twoPiece()
	odd.Shafts[1].Name = "front (long).down = 3"
	odd.Shafts[2].Name = "front"
	tests := []struct {
		name string
		s    *survey.Survey
		spec string
		want Variable // without what is not exported
		says string   // in words
	}{
		{"speed", twoPiece(), "rpm=500:6000:50", Variable{"rpm", "rpm", 500, 6000, 50, nil, 0, "", survey.Change{}}, "speed of the first shaft"},
		{"slope", twoPiece(), "rear shaft.down=-2:10:0.1", Variable{"rear shaft.down", "deg", -2, 10, 0.1, nil, 0, "", survey.Change{}}, "slope of rear shaft"},
		{"no step", twoPiece(), "rear shaft.right=-2:2", Variable{"rear shaft.right", "deg", -2, 2, 0.02, nil, 0, "", survey.Change{}}, "heading of rear shaft"},
		{"spaces", twoPiece(), "  front shaft.phase = 0 : 90 : 5 ", Variable{"front shaft.phase", "deg", 0, 90, 5, nil, 0, "", survey.Change{}}, "phase of front shaft"},
		{"position", positioned(), "centre joint.at.down=100:200:1", Variable{"centre joint.at.down", "mm", 100, 200, 1, nil, 0, "", survey.Change{}}, "distance down of centre joint"},
		{"change", twoPiece(), "wedge(axle pinion)=-3:3:.25", Variable{"wedge(axle pinion)", "deg", -3, 3, 0.25, nil, 0, "", survey.Change{}}, "wedge at axle pinion"},
		{"change of place", twoPiece(), "bearing-height(centre joint)=0:30:3", Variable{"bearing-height(centre joint)", "mm", 0, 30, 3, nil, 0, "", survey.Change{}}, "lowering of the bearing at centre joint"},
		{"odd name", odd, "front (long).down = 3.incline=1:2:1e-2", Variable{"front (long).down = 3.incline", "deg", 1, 2, 0.01, nil, 0, "", survey.Change{}}, "inclination of front (long).down = 3"},
		{"name that begins another", odd, "front.down=1:2:1", Variable{"front.down", "deg", 1, 2, 1, nil, 0, "", survey.Change{}}, "slope of front"},
		{"change of an odd name", odd, "clocking(front (long).down = 3)=-9:9:3", Variable{"clocking(front (long).down = 3)", "deg", -9, 9, 3, nil, 0, "", survey.Change{}}, "clocking of front (long).down = 3"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			got, err := ParseVariable(tt.s, tt.spec)
			if err != nil {
				t.Fatal(err)
			}
			if words := got.Words(); words != tt.says {
				t.Errorf("in words %q, want %q", words, tt.says)
			}
			turns := strings.HasSuffix(tt.want.Quantity, ".phase") || strings.HasPrefix(tt.want.Quantity, "clocking(")
			if got.Rotation() != turns {
				t.Errorf("angle of rotation: %v, want %v", got.Rotation(), turns)
			}
			got.field, got.part, got.on, got.change = nil, 0, "", survey.Change{}
			if got != tt.want {
				t.Errorf("got %+v, want %+v", got, tt.want)
			}
		})
	}
}

func TestParseVariableFaults(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name string
		spec string
		want string // in the message
	}{
		{"nothing", "", `nothing: want "=" and a range`},
		{"no range", "rear shaft.down", `want "=" and a range`},
		{"empty range", "rpm=", "nothing: want a range from:to or from:to:step"},
		{"one number", "rpm=1", `nothing: want ":" and the end of the range`},
		{"four numbers", "rpm=1:2:3:4", `"4": want a range`},
		{"word", "rpm=1:2:x", `"x": want a range`},
		{"not a number", "rpm=1:NaN", `"NaN": want a range`},
		{"infinite", "rpm=1:Inf", `"Inf": want a range`},
		{"overflow", "rpm=1:1e999", `"1e999": want a range`},
		{"hexadecimal", "rpm=0x1:2", `"0x1": want a range`},
		{"underscore", "rpm=1_0:20", `"1_0": want a range`},
		{"backward", "rear shaft.down=2: 1", `"1": want more than 2`},
		{"negative step", "rear shaft.down=1:2:-1", `"-1": want a step above 0`},
		{"no step", "rear shaft.down=1:2:0", `"0": want a step above 0`},
		{"too many", "rear shaft.down=1:2:1e-5", "want a step that makes no more than 10000 of them"},
		{"too fine", "rear shaft.down=1:2:1e-9", "want a step of at least 1e-06: less would repeat a value"},
		{"of no width", "rear shaft.down=1:1", "want more than 1"},
		{"of no width to speak of", "rpm=1:1.0000000001", "want at least 1e-06 more than 1"},
		{"beyond its range", "rear shaft.down=1:2:1.5", "want a step of at most 1, as wide as the range"},
		{"unknown part", "tail.down=1:2", `"tail.down": want rpm, a shaft or joint and its field as in "gearbox output.down"`},
		{"part without field", "rear shaft=1:2", `"rear shaft": want rpm`},
		{"unknown field of a shaft", " rear shaft.dwn =1:2", `"dwn": want one of down, incline, phase, right`},
		{"unknown field of a joint", "centre joint.down=1:2", `"down": want one of at.along, at.down, at.right`},
		{"position of a driveline given by slopes", "centre joint.at.down=1:2", "want the position of every joint centre in the file"},
		{"unknown change", "hammer(axle pinion)=1:2", "or a change as in"},
		{"change of an unknown part", "wedge(axle)=1:2", `"axle": want the name of the last shaft: "axle pinion"`},
		{"change of the wrong part", "clocking(axle pinion)=1:2", `"axle pinion": want the name of a shaft between two joints`},
		{"change beyond reason", "wedge(axle pinion)=-400:3", "-400 deg: want a change from -360 to 360 deg"},
		{"slope beyond reason, at the end", "rear shaft.down=0:95", "95 deg: want a slope between -90 and 90 deg"},
		{"speed below nothing", "rpm=-5:100", "-5 rpm: want a speed above 0"},
		{"phase of a shaft without", "axle pinion.phase=0:90", "0 deg: want no phase on the first and the last shaft"},
		{"after a long character", "rear shäft.down", `want "=" and a range`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			_, err := ParseVariable(twoPiece(), tt.spec)
			if _, ok := errors.AsType[*SpecError](err); !ok {
				t.Fatalf("got error %v, want a *SpecError", err)
			}
			if !strings.Contains(err.Error(), tt.want) {
				t.Errorf("got %q, want it to contain %q", err, tt.want)
			}
		})
	}
}

func TestParseChange(t *testing.T) {
	t.Parallel()
	got, err := ParseChange(twoPiece(), "wedge(axle pinion)=-6:6:0.5")
	if want := (survey.Change{Change: "wedge", On: "axle pinion", From: -6, To: 6, Step: 0.5}); got != want || err != nil {
		t.Errorf("got %+v and error %v, want %+v", got, err, want)
	}
	got, err = ParseChange(twoPiece(), "clocking(rear shaft)=-90:90")
	if want := (survey.Change{Change: "clocking", On: "rear shaft", From: -90, To: 90}); got != want || err != nil {
		t.Errorf("got %+v and error %v, want %+v: practical steps", got, err, want)
	}
	if _, err = ParseChange(twoPiece(), "rpm=1:2"); err == nil || !strings.Contains(err.Error(), "want one of the changes wedge") {
		t.Errorf("got error %v, want that rpm is no change", err)
	}
}

func TestValues(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name           string
		from, to, step float64
		want           []float64
	}{
		{"whole steps end on the last", 0, 0.3, 0.1, []float64{0, 0.1, 0.2, 0.3}},
		{"a last step that does not fit", 0, 1, 0.4, []float64{0, 0.4, 0.8}},
		{"across zero", -0.3, 0.3, 0.15, []float64{-0.3, -0.15, 0, 0.15, 0.3}},
		{"thirds", 0, 1, 1. / 3, []float64{0, 0.333333333, 0.666666667, 1}},
	}
	for _, tt := range tests {
		if got := (Variable{From: tt.from, To: tt.to, Step: tt.step}).Values(); !slices.Equal(got, tt.want) {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
}

// FuzzParseVariable holds that any text gives a variable that rises as it is run
// through, or a place of the fault within the text.
func FuzzParseVariable(f *testing.F) {
	for _, spec := range []string{"rpm=1:2", "wedge(axle pinion)=-3:3:0.25", "rear shaft.down=0:90", "a.b=c:=", "=::", "(=)"} {
		f.Add(spec)
	}
	s := twoPiece()
	f.Fuzz(func(t *testing.T, spec string) {
		v, err := ParseVariable(s, spec)
		if _, ok := errors.AsType[*SpecError](err); ok {
			return
		}
		values := v.Values()
		if err != nil || len(values) < 2 || values[0] > v.To {
			t.Errorf("%q: got %v and error %v", spec, values, err)
		}
		for i := range values[1:] {
			if !(values[i] < values[i+1]) {
				t.Errorf("%q: got %v behind %v", spec, values[i+1], values[i])
			}
		}
	})
}
