package page

import (
	"gonum.org/v1/plot/vg"
)

// margins is the room around a data area.
type margins struct {
	left, right, bottom, top vg.Length
}

// widest returns the larger of both rooms on every side.
func (m margins) widest(n margins) margins {
	return margins{max(m.left, n.left), max(m.right, n.right), max(m.bottom, n.bottom), max(m.top, n.top)}
}

// reserve sums up the room around the data area.
func (f *fitted) reserve(width vg.Length) {
	l, em := f.letters, f.letters.Em()
	var m margins
	if !f.heading.empty() {
		m.top += f.heading.height + headingGap*em
	}
	m.top += f.labelLines(width)
	m.top += f.headsHeight()

	if !f.Bare {
		var numbers, first, last vg.Length
		for _, t := range f.y.ticks {
			numbers = max(numbers, l.Number.Width(t.Label))
		}
		for i, t := range f.x.ticks {
			if half := l.Number.Width(t.Label) / 2; i == 0 {
				first = half
			} else {
				last = half
			}
		}
		m.bottom = tickLength * em
		if !f.X.Bare {
			m.bottom += tickGap*em + l.Number.line() + f.xLabel.height
			m.right = last
			m.left = first
		}
		if !f.Y.Bare {
			m.left = max(m.left, numbers+(tickLength+tickGap)*em)
		}
	}
	right := f.sidesWidth()
	if f.bar != nil {
		right += f.bar.width(l)
	}
	m.right = max(m.right, right)
	f.margins = m
}

// labelLines returns the height of the lines above the data area that hold the label of y
// and the note.
func (f *fitted) labelLines(width vg.Length) vg.Length {
	if f.yLabel.empty() && f.note.empty() {
		return 0
	}
	height := max(f.yLabel.height, f.note.height)
	if !f.sameLine(width) {
		height = f.yLabel.height + f.note.height
	}
	return height + labelGap*f.letters.Em()
}

func (f *fitted) sameLine(width vg.Length) bool {
	return f.yLabel.width+f.note.width+2*f.letters.Em() <= width
}

// sideReach returns how far labels beside the data area may reach beyond its upper end,
// or below its lower end.
func (f *fitted) sideReach(end int) vg.Length {
	if end > 0 && len(f.heads) > 0 { // there the labels above may stand
		return 0
	}
	return sideReach * f.letters.Em()
}

func (f *fitted) headsHeight() vg.Length {
	var height vg.Length
	for _, h := range f.heads {
		height = max(height, h.height+headLift*f.letters.Em())
	}
	return height
}

func (f *fitted) sidesWidth() vg.Length {
	var width vg.Length
	for _, s := range f.sides {
		width = max(width, s.width)
	}
	if width > 0 {
		width += (leaderWidth + leaderGap) * f.letters.Em()
	}
	return width
}
