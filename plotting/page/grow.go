package page

import (
	"errors"

	"gonum.org/v1/plot/vg"
)

// Grow makes the page of a figure taller, up to three times as tall, until the data of
// every panel are at least as high as given, in letters of the text size. It is for pages
// that scroll. A figure for which that is no help, such as one that is too narrow, keeps
// its size.
func (f *Figure) Grow(least vg.Length) {
	grown := *f
	grown.Size = f.size()
	grown.Size.Least = 0
	for most := 3 * grown.Size.Height; grown.Size.Height <= most; {
		l, err := grown.arrange()
		_, crowded := errors.AsType[noRoom](err)
		switch {
		case crowded:
			grown.Size.Height *= 1.1
			continue
		case err != nil: // no height mends it
			return
		}
		lacking := vg.Length(0)
		for _, c := range l.cells {
			lacking = max(lacking, least-c.area.Size().Y)
		}
		if lacking < 1 {
			f.Size = f.size()
			f.Size.Height = grown.Size.Height
			return
		}
		grown.Size.Height += lacking * vg.Length(len(f.Rows))
	}
}
