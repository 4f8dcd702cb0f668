package survey

import (
	"math"
	"strings"
	"testing"
)

func TestParseAngle(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		text  string
		sense Sense
		want  float64
	}{
		{"3.9", SlopeSense, 3.9},
		{"3,9", SlopeSense, 3.9},
		{" 3.9 ", SlopeSense, 3.9},
		{"+3.9", SlopeSense, 3.9},
		{"-3.9", SlopeSense, -3.9},
		{"−3.9", SlopeSense, -3.9}, // U+2212, as programs set it
		{"–3,9", SlopeSense, -3.9}, // U+2013, as telephones put it
		{"3.9°", SlopeSense, 3.9},
		{"3.9 º", SlopeSense, 3.9},
		{"3.9 deg", SlopeSense, 3.9},
		{"3.9 degrees down", SlopeSense, 3.9},
		{"2.8 up", SlopeSense, -2.8},
		{"2,8° UP", SlopeSense, -2.8},
		{"2.8up", SlopeSense, -2.8},
		{"2.8 down", SlopeSense, 2.8},
		{"2 left", HeadingSense, -2},
		{"2 right", HeadingSense, 2},
		{"18 anticlockwise", TurnSense, -18},
		{"18° counterclockwise", TurnSense, -18},
		{"18 clockwise", TurnSense, 18},
		{"0 up", SlopeSense, 0},
		{".5", SlopeSense, 0.5},
		{"1e1", SlopeSense, 10},
	} {
		got, err := ParseAngle(test.text, test.sense)
		if err != nil || got != test.want || math.Signbit(got) != math.Signbit(test.want) {
			t.Errorf("%q: got %v, %v, want %v", test.text, got, err, test.want)
		}
	}
}

func TestParseAngleRefuses(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ text, want string }{
		{"", "want degrees"},
		{"up", "want degrees"},
		{"three", "want degrees"},
		{"-2.8 up", "a sign or a direction (up or down), not both"},
		{"2 left", "such as 3.9 or 3.9 up"},
		{"1.000,5", "want degrees"},
		{"1,2,3", "want degrees"},
		{"NaN", "want degrees"},
		{"inf", "want degrees"},
		{"1_0", "want degrees"},
		{"0x1p4", "want degrees"},
		{"1e999", "want degrees"},
		{"3.9 %", "want degrees"},
		{"3.9 °°", "want degrees"},
	} {
		if got, err := ParseAngle(test.text, SlopeSense); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: got %v and error %v, want an error with %q", test.text, got, err, test.want)
		}
	}
}

func TestParseLengthAndNumber(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		text string
		read func(string) (float64, error)
		want float64 // NaN: refused
	}{
		{"12 mm left", func(s string) (float64, error) { return ParseLength(s, Millimetre, HeadingSense) }, -12},
		{"12,5", func(s string) (float64, error) { return ParseLength(s, Millimetre, HeadingSense) }, 12.5},
		{"0.5 in right", func(s string) (float64, error) { return ParseLength(s, Inch, HeadingSense) }, 0.5},
		{`0.5"`, func(s string) (float64, error) { return ParseLength(s, Inch, HeadingSense) }, 0.5},
		{"12 in", func(s string) (float64, error) { return ParseLength(s, Millimetre, HeadingSense) }, math.NaN()},
		{"2800", func(s string) (float64, error) { return ParseNumber(s, "rpm") }, 2800},
		{"2800 rpm", func(s string) (float64, error) { return ParseNumber(s, "rpm") }, 2800},
		{"33,3", func(s string) (float64, error) { return ParseNumber(s) }, 33.3},
		{"2,800", func(s string) (float64, error) { return ParseNumber(s) }, math.NaN()},
		{"2 left", func(s string) (float64, error) { return ParseNumber(s) }, math.NaN()},
	} {
		got, err := test.read(test.text)
		if refused := math.IsNaN(test.want); refused != (err != nil) || !refused && got != test.want {
			t.Errorf("%q: got %v, %v, want %v", test.text, got, err, test.want)
		}
	}
}

func FuzzParseAngle(f *testing.F) {
	for _, text := range []string{"3.9", "2,8° up", "−3", "18 anticlockwise", "1e999", "left"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if v, err := ParseAngle(text, SlopeSense); err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("%q is read as %v", text, v)
		}
	})
}
