package page

import (
	"fmt"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A fitted panel has its ranges, ticks and texts settled and knows the room they need.
type fitted struct {
	*Panel
	letters Letters
	x, y    scale
	heading block // title and own legend, at the top of the cell
	xLabel  block // below the x axis
	yLabel  block // above the y axis
	note    block // at the right end of the same line, or above it
	heads   []placed
	sides   []placed
	bar     *colourBar
	margins margins
}

// A label is a text that belongs to a value of an axis.
type label struct {
	at    float64
	from  float64 // where on the other axis that ends which the label is for
	text  string
	pen   draw.LineStyle
	extra bool // also in the legend, so it may be left out for lack of room
}

// placed is a label made into a block.
type placed struct {
	label
	block
	moving bool // of a layer that moves
}

// Distances in em.
const (
	tickLength  = 0.3
	tickGap     = 0.35 // between ticks and numbers
	headingGap  = 0.35
	labelGap    = 0.65 // between the label line and the data area
	leaderWidth = 1.4  // of the line from a value to its label beside the data area
	leaderGap   = 0.3
	sideReach   = 0.6 // of labels beside the data area beyond its ends
	sideSpace   = 0.3 // between labels beside the data area
	headSpace   = 0.6 // between labels above the data area
	headLift    = 0.3 // of these labels above the data area, clear of a number at the end of the y axis
)

// fit settles a panel for a given size, with axes that show at least what held does.
func (p *Panel) fit(l Letters, size room, held Place, ownLegend bool) (*fitted, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	f := &fitted{Panel: p, letters: l}
	if err := f.settle(size.area, held); err != nil {
		return nil, err
	}

	legend := block{}
	if ownLegend {
		legend = legendBlock(l, p.keys(), size.width)
	}
	f.heading = stack(headingGap*l.Em(), paragraph(l.Heading, p.Title, size.width), legend)
	if !p.Bare {
		if !p.X.Bare {
			f.xLabel = paragraph(l.Label, p.X.Label, size.width)
		}
		f.yLabel = paragraph(l.Label, p.Y.Label, size.width)
	}
	f.collect(size)
	f.reserve(size.width)
	return f, nil
}

// settle chooses the ranges and ticks of both axes.
func (f *fitted) settle(area vg.Point, held Place) error {
	dataX, dataY := f.data()
	var err error
	padX, padY := f.pads()
	if f.x, err = f.X.settle(dataX, padX); err != nil {
		return fmt.Errorf("x axis: %w", err)
	}
	if f.y, err = f.Y.settle(dataY, padY); err != nil {
		return fmt.Errorf("y axis: %w", err)
	}
	f.x.Interval, f.y.Interval = f.x.grown(held.X), f.y.grown(held.Y)
	return f.mark(area)
}

// mark puts ticks on both axes of a data area, as they are there.
func (f *fitted) mark(area vg.Point) error {
	if f.Equal {
		f.widen(area)
	}
	if f.Bare {
		return nil
	}
	em := f.letters.Em()
	err := f.X.mark(&f.x, area.X, func(s string) extent { return extent{f.letters.Number.Width(s), 1.5 * em, 0.22 * em} })
	if err != nil {
		return fmt.Errorf("x axis: %w", err)
	}
	err = f.Y.mark(&f.y, area.Y, func(string) extent { return extent{0.66 * em, 1.59 * em, 0.12 * em} })
	if err != nil {
		return fmt.Errorf("y axis: %w", err)
	}
	return nil
}

// pads returns the room around the data as fractions of their ranges. A field fills its
// axes, a curve fills its x axis.
func (p *Panel) pads() (x, y float64) {
	const pad = 0.06
	for _, layer := range p.all() {
		if _, ok := layer.(coloured); ok {
			return 0, 0
		}
	}
	if p.Equal {
		return pad, pad
	}
	return 0, pad
}

// widen makes one unit as long on both axes of a data area by showing more of one of
// them.
func (f *fitted) widen(area vg.Point) {
	unit := max((f.x.Max-f.x.Min)/area.X.Points(), (f.y.Max-f.y.Min)/area.Y.Points())
	f.x.Interval = Around((f.x.Min+f.x.Max)/2, unit*area.X.Points()/2)
	f.y.Interval = Around((f.y.Min+f.y.Max)/2, unit*area.Y.Points()/2)
}

// collect makes the blocks of all labels around the data area.
func (f *fitted) collect(size room) {
	l, width := f.letters, size.width
	for i, layer := range f.all() {
		moving := i >= len(f.Layers)
		if s, ok := layer.(sideLabelled); ok {
			for _, label := range f.y.shown(s.sideLabels()) {
				if endsBefore(f.x.norm(label.from)) { // there it stands
					continue
				}
				f.sides = append(f.sides, placed{label, paragraph(l.Name, label.text, 0.28*width), moving})
			}
		}
		if h, ok := layer.(headLabelled); ok {
			for _, label := range f.x.shown(h.headLabels()) {
				f.heads = append(f.heads, placed{label: label, moving: moving})
			}
		}
		if c, ok := layer.(coloured); ok {
			if bar, err := c.colourBar(); err == nil { // check has refused the others
				f.bar = &bar
			}
		}
	}
	share := width/vg.Length(len(f.heads)) - headSpace*l.Em()
	for i, h := range f.heads {
		f.heads[i].block = paragraph(l.Name, h.text, min(share, 0.4*width))
	}
	f.sides = roomy(f.sides, sideSpace*l.Em(), size.area.Y+f.sideReach(1)+f.sideReach(-1))
	switch {
	case f.bar != nil:
		f.note = paragraph(l.Label, f.bar.label, width)
	case f.y.floored && !f.Bare:
		f.note = paragraph(l.Label, "axis no finer than "+f.Y.Least.String(), width)
	}
}

// shown returns the labels of values that are within the scale: the others would stand
// beside something else.
func (s scale) shown(labels []label) []label {
	return slices.DeleteFunc(labels, func(l label) bool {
		f := s.norm(l.at)
		return !(f >= 0 && f <= 1)
	})
}

// roomy returns the labels without the extra ones if all together, gap apart, are higher
// than the room for them.
func roomy(labels []placed, gap, height vg.Length) []placed {
	var sum vg.Length
	for _, l := range labels {
		sum += l.height + gap
	}
	if sum <= height {
		return labels
	}
	return slices.DeleteFunc(labels, func(l placed) bool { return l.extra })
}
