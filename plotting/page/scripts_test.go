package page

import (
	"slices"
	"testing"
)

// Boxes for what the font lacks are told; what it has is not.
func TestUnwritable(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		want []string
	}{
		{"Gelenkwelle Ø β₁ – Вал привода, Άξονας", nil},
		{"传动轴", []string{"Han"}},
		{"גל \u2067הינע\u2069", nil},
		{"عمود トラック", []string{"Arabic", "Katakana"}},
		{"shaft 🚗", []string{"symbols"}},
	} {
		f := &Figure{}
		f.Add(demoFlat())
		f.Subtitle = test.name
		got, err := Unwritable(f)
		if err != nil || !slices.Equal(got, test.want) {
			t.Errorf("%q: got %q, error %v, want %q", test.name, got, err, test.want)
		}
	}
}
