package page

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
)

func TestWrap(t *testing.T) {
	t.Parallel()
	l := lettersFor(Single).Name
	rnd := rand.New(rand.NewPCG(1, 1))
	words := []string{"a", "front", "β₁·cos", "Gelenkwellenzwischenlager", "—", "shaft,"}
	for range 500 {
		var text []string
		for range rnd.IntN(12) {
			text = append(text, words[rnd.IntN(len(words))])
		}
		width := vg.Length(20 + 200*rnd.Float64()) // wider than any one character
		lines := l.wrap(strings.Join(text, " "), width)
		for _, line := range lines {
			if l.Width(line) > width {
				t.Errorf("line %q is %v wide, want at most %v", line, l.Width(line), width)
			}
		}
		if got, want := strings.ReplaceAll(strings.Join(lines, ""), " ", ""), strings.Join(text, ""); got != want {
			t.Errorf("got %q, want all of %q", got, want)
		}
	}
	if got := l.wrap("narrow", 0.1); len(got) != len("narrow") {
		t.Errorf("no room: got %q, want a character a line", got)
	}
}

func TestClean(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, in, want string }{
		{"plain", "β = 10°", "β = 10°"},
		{"line breaks", "a\nb\tc\r\x00d", "a b c  d"},
		{"bad UTF-8", "a\xffb", "a\uFFFDb"},
		{"no character", "a\uFFFEb", "a b"},
	} {
		if got := clean(test.in); got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, got, test.want)
		}
	}
}

func TestSpread(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range 2000 {
		n := 1 + rnd.IntN(12)
		wanted, sizes := make([]vg.Length, n), make([]vg.Length, n)
		var sum vg.Length
		for i := range n {
			wanted[i] = vg.Length(-20 + 140*rnd.Float64())
			sizes[i] = vg.Length(1 + 12*rnd.Float64())
			sum += sizes[i]
		}
		places := spread(wanted, sizes, 0, 100)
		const tolerance = 1e-9 // sums of a dozen lengths
		for i, p := range places {
			if sum <= 100 && (p-sizes[i]/2 < -tolerance || p+sizes[i]/2 > 100+tolerance) {
				t.Fatalf("label of %v at %v leaves 0 to 100", sizes[i], p)
			}
			for k := range i {
				if gap := max(p-places[k], places[k]-p); gap < (sizes[i]+sizes[k])/2-tolerance {
					t.Fatalf("labels of %v and %v overlap at %v and %v", sizes[i], sizes[k], p, places[k])
				}
				if (wanted[i]-wanted[k])*(p-places[k]) < 0 {
					t.Fatalf("labels wanted at %v, %v stand at %v, %v: want the same order", wanted[i], wanted[k], p, places[k])
				}
			}
		}
	}
	if got := spread([]vg.Length{20, 80}, []vg.Length{10, 10}, 0, 100); got[0] != 20 || got[1] != 80 {
		t.Errorf("labels with room: got %v, want them where they are wanted", got)
	}
	if got := spread([]vg.Length{50, 50}, []vg.Length{10, 10}, 0, 100); got[0] != 45 || got[1] != 55 {
		t.Errorf("two at one place: got %v, want [45 55]", got)
	}
}

// A number and its unit stay on one line.
func TestWrapKeepsUnits(t *testing.T) {
	t.Parallel()
	l := lettersFor(Single).Caption
	for _, test := range []struct {
		text string
		want []string
	}{
		{"it is reached at 10193 rev/min.", []string{"it is reached at", "10193 rev/min."}},
		{"about 300 of them", []string{"about 300 of", "them"}},
	} {
		width := l.Width(test.want[0] + " ")
		if len(test.want[1]) > len(test.want[0]) {
			width = l.Width(test.want[1])
		}
		if got := l.wrap(test.text, width); !slices.Equal(got, test.want) {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
}
