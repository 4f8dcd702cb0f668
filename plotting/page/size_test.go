package page

import (
	"fmt"
	"strings"
	"testing"
)

// TestPageHoldsAFigureInProportion holds that a figure on paper keeps its shape, at the
// top, unless it is too high.
func TestPageHoldsAFigureInProportion(t *testing.T) {
	t.Parallel()
	own, got := Single.inner().Size(), A4.Holding(Size{}).inner()
	if a, b := own.Y/own.X, got.Size().Y/got.Size().X; a-b > 1e-9 || b-a > 1e-9 {
		t.Errorf("height over width: got %g, want %g", b, a)
	}
	if got.Max != A4.inner().Max || got.Min.X != A4.Border {
		t.Errorf("stands in %v, want it at the top of %v", got, A4.inner())
	}
	if got, want := A4.Holding(Size{Width: 100, Height: 1000}).inner(), A4.inner(); got != want {
		t.Errorf("a figure that is too high stands in %v, want %v", got, want)
	}
}

// Where panels would have no room the text shrinks, but no more than the page allows and
// not at all where it has its size by wish.
func TestTextShrinksForRoom(t *testing.T) {
	t.Parallel()
	crowded := func(curves int, size Size) *Figure {
		f := &Figure{Title: "crowded", Size: size}
		for range 2 {
			p := demoTurn("a panel", "speed, %")
			for i := range curves {
				p.Add(Curve{Name: fmt.Sprintf("shaft number %d of a long line", i+1), Points: columns(turn(36), wave(turn(36), 1, 0)), Pen: Pen(i)})
			}
			f.Add(p)
		}
		return f
	}
	fixed := Slide
	fixed.Least = 0
	for _, test := range []struct {
		name   string
		curves int
		size   Size
		fits   bool
		large  bool // the text is of 18 pt at least, to be read from the last row
	}{
		{"few", 3, Slide, true, true},
		{"many", 14, Slide, true, false},
		{"many, by wish", 14, fixed, false, false},
		{"far too many", 150, Slide, false, false},
	} {
		p, err := crowded(test.curves, test.size).arrange()
		if fits := err == nil; fits != test.fits {
			t.Errorf("%s: error %v, want one: %v", test.name, err, !test.fits)
			continue
		}
		switch {
		case err != nil && !strings.Contains(err.Error(), "a larger page"):
			t.Errorf("%s: error %q does not tell what to do", test.name, err)
		case err == nil && (p.size.Text >= 18) != test.large:
			t.Errorf("%s: text of %g pt", test.name, p.size.Text.Points())
		case err == nil && p.size.Text < Slide.Least:
			t.Errorf("%s: text of %g pt, want at least %g", test.name, p.size.Text.Points(), Slide.Least.Points())
		}
	}
}

// Paper lies on its side for a figure that is wider than high; other pages stay as they are.
func TestPaperIsTurned(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		page, figure Size
		turned       bool
	}{
		{A4, Size{}, true}, {A4, Tall, true}, {Letter, Tall, true},
		{A4, Size{Width: 640, Height: 900}, false}, {Slide, Size{Width: 640, Height: 900}, false},
		{Size{Width: 200, Height: 300}, Tall, false},
	} {
		got, want := test.page.Turned(test.figure), test.page
		if test.turned {
			want.Width, want.Height = want.Height, want.Width
		}
		if got != want {
			t.Errorf("%s for a figure of %s: got %s, want %s", test.page, test.figure, got, want)
		}
	}
}
