package page

import (
	"fmt"
	"testing"

	"gonum.org/v1/plot/vg"
)

// A page that scrolls grows until the data are as high as wanted; what no height mends
// stays as it is.
func TestGrow(t *testing.T) {
	t.Parallel()
	broken := &Figure{Size: Size{Width: 300, Height: 80, Text: 9}}
	if broken.Grow(54); broken.Size.Height != 80 {
		t.Errorf("without panels: %v high, want 80", broken.Size.Height)
	}
	for _, test := range []struct {
		name          string
		width, height vg.Length
		curves        int
		grows         bool
	}{
		{"roomy", 300, 300, 1, false},
		{"flat", 300, 80, 1, true},
		{"long legend", 200, 150, 12, true},
	} {
		f := &Figure{Size: Size{Width: test.width, Height: test.height, Text: 9, Border: 2}}
		p := demoTurn("", "speed, %")
		for i := range test.curves {
			p.Add(Curve{Name: fmt.Sprintf("shaft number %d of a long line", i+1), Points: columns(turn(36), wave(turn(36), 1, 0)), Pen: Pen(i)})
		}
		f.Add(p)
		const least = 54
		f.Grow(least)
		if grows := f.Size.Height > test.height; grows != test.grows {
			t.Errorf("%s: %v high, want it to grow: %v", test.name, f.Size.Height, test.grows)
		}
		if places, err := f.Places(); test.grows && (err != nil || places[0].Area.Size().Y < least-1) {
			t.Errorf("%s: places %v, error %v: want data of %d pt", test.name, places, err, least)
		}
	}
}
