package page

import (
	"fmt"
	"strings"
	"testing"
)

// Legends of the panels that leave little room for data become one on top, but where two
// entries look alike.
func TestLegendsOfPanelsMakeRoom(t *testing.T) {
	t.Parallel()
	small := Size{Width: 252, Height: 160, Text: 6, Least: 5, Border: 6}
	for _, test := range []struct {
		name  string
		size  Size
		pens  [2]int // of the first curve of each panel
		onTop bool
	}{
		{"small page", small, [2]int{0, 6}, true},
		{"small page, pens used twice", small, [2]int{0, 0}, false},
		{"large page", Single, [2]int{0, 6}, false},
	} {
		f := &Figure{Title: "two panels", Legend: LegendPanels, Size: test.size, Caption: strings.Repeat("a long caption ", 20)}
		var panels []*Panel
		for n, first := range test.pens {
			p := demoTurn("a panel", "speed, %")
			for i := range []int{6, 1}[n] {
				p.Add(Curve{Name: fmt.Sprintf("curve number %d of panel number %d", i+1, n+1), Points: columns(turn(36), wave(turn(36), 1, 0)), Pen: Pen(first + i)})
			}
			panels = append(panels, p)
		}
		f.Add(panels...)
		l, err := f.arrange()
		if err != nil {
			t.Fatal(err)
		}
		// Beside title and caption there is the legend.
		if onTop := len(l.texts) == 3; onTop != test.onTop {
			t.Errorf("%s: one legend on top: %v, want %v; data have %.2f of the height", test.name, onTop, test.onTop, l.share())
		}
	}
}
