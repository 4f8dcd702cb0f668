package page

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/plot/vg"
)

// A length that is remembered is the one measured, to the last bit, however many texts
// there are and whoever else asks.
func TestWidthsAreRememberedExactly(t *testing.T) {
	t.Parallel()
	letters := lettersFor(Single)
	var m memo
	var asking sync.WaitGroup
	for worker := range 4 {
		asking.Go(func() {
			for i := range 300 {
				l := []Lettering{letters.Title, letters.Name, letters.Number}[i%3]
				text := fmt.Sprintf("β = %d.%d°, shaft", worker%2, i%50)
				_, want := layOut(l.face, text)
				if got := m.of(l.face, text); got != want {
					t.Errorf("%q: got %v, want %v", text, got, want)
				}
			}
		})
	}
	asking.Wait()
	if len(m.known) != 2*150 {
		t.Errorf("%d lengths known, want one for each text and face, 300", len(m.known))
	}
}

// What the font lacks is as wide as programs that show SVG set it: letters of East Asia
// one em. What only tells how others are set has no width.
func TestWidthsOfOtherScripts(t *testing.T) {
	t.Parallel()
	name := lettersFor(Single).Name
	em := name.face.Font.Size
	for _, test := range []struct {
		text string
		want vg.Length
	}{
		{"传动轴", 3 * em},
		{"トラック", 4 * em},
		{"구동축 🚗", 4*em + name.Width(" ")},
		{"\u2068גל\u2069", name.Width("ג") + name.Width("ל")},
	} {
		if got := name.Width(test.text); math.Abs(float64(got-test.want)) > 1e-9 {
			t.Errorf("%q: %v wide, want %v", test.text, got, test.want)
		}
	}
}

func TestWidthsAreBounded(t *testing.T) {
	t.Parallel()
	face := lettersFor(Single).Name.face
	var m memo
	m.of(face, strings.Repeat("a", longestKnown+1))
	if len(m.known) != 0 {
		t.Error("a long text is remembered")
	}
	for i := range mostKnown + 10 {
		m.remember(measured{face, fmt.Sprint(i)}, 1)
	}
	if n := len(m.known); n != 10 {
		t.Errorf("%d lengths known, want the last 10 after the others were forgotten", n)
	}
}
