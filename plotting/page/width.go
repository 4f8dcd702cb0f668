package page

import (
	"sync"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// Width returns how long a text is.
func (l Lettering) Width(s string) vg.Length { return widths.of(l.face, s) }

// widths remembers how long texts are: to measure them took two fifths of the time of a
// figure, and one figure has most of its texts in common with the next.
var widths memo

// A memo holds the lengths of texts, some megabytes at most.
type memo struct {
	sync.Mutex
	known map[measured]vg.Length
}

const (
	mostKnown    = 8192 // texts; when there are more, all are forgotten
	longestKnown = 200  // bytes of a text
)

type measured struct {
	face font.Face
	text string
}

func (m *memo) of(face font.Face, text string) vg.Length {
	key := measured{face, text}
	m.Lock()
	width, ok := m.known[key]
	m.Unlock()
	if ok {
		return width
	}
	_, width = layOut(face, inOrder(text))
	if len(text) <= longestKnown {
		m.remember(key, width)
	}
	return width
}

func (m *memo) remember(key measured, width vg.Length) {
	m.Lock()
	defer m.Unlock()
	if m.known == nil || len(m.known) >= mostKnown {
		m.known = make(map[measured]vg.Length)
	}
	m.known[key] = width
}

func (m *memo) forget() {
	m.Lock()
	defer m.Unlock()
	m.known = nil
}
