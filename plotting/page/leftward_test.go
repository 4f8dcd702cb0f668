package page

import (
	"strings"
	"testing"
)

// Names from right to left are drawn in their order, and numbers and names beside them
// stay in theirs.
func TestInOrder(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, text, want string }{
		{"left to right", "β₁ = 12.01° – Вал", "β₁ = 12.01° – Вал"},
		{"two words, then a number", "גל הינע 10.00°", "עניה לג 10.00°"},
		{"between others", "shaft · גל · 3", "shaft · לג · 3"},
		{"with a vowel", "גָל", "לגָ"},
		{"what only tells how to set", "\u2068גל\u2069 a\u00ADb", "לג ab"},
	} {
		if got := inOrder(test.text); got != test.want {
			t.Errorf("%s: %q: got %q, want %q", test.name, test.text, got, test.want)
		}
	}
}

// In SVG a run from right to left is isolated, so that the number after it stays there.
func TestRunsAreIsolated(t *testing.T) {
	t.Parallel()
	f := &Figure{Subtitle: "גל הינע · 1000 rev/min"}
	f.Add(demoFlat())
	svg, err := Encode(f, SVG, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if want := ">\u2068גל הינע\u2069 · 1000 rev/min</text>"; !strings.Contains(string(svg), want) {
		t.Errorf("no %q", want)
	}
}
