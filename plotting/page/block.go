package page

import (
	"gonum.org/v1/plot/vg"
)

// A block is something of known size that stands anywhere on the page: a paragraph, a
// legend entry, a stack of both.
type block struct {
	width, height vg.Length
	draw          func(c vg.Canvas, topLeft vg.Point)
}

// empty reports whether there is nothing to draw.
func (b block) empty() bool {
	return b.draw == nil
}

// paragraph returns a text wrapped to a width.
func paragraph(l Lettering, text string, width vg.Length) block {
	lines := l.wrap(clean(text), width)
	if len(lines) == 0 {
		return block{}
	}
	b := sized(l, lines)
	b.draw = func(c vg.Canvas, at vg.Point) {
		// The first base line stands so that the line is centred in its height.
		at.Y -= (leading-ascent-descent)/2*l.face.Font.Size + ascent*l.face.Font.Size
		for _, line := range lines {
			l.Draw(c, at, atStart, 0, line)
			at.Y -= l.line()
		}
	}
	return b
}

// sized returns a block as large as lines of text, on which nothing is drawn yet.
func sized(l Lettering, lines []string) block {
	b := block{height: vg.Length(len(lines)) * l.line()}
	for _, line := range lines {
		b.width = max(b.width, l.Width(line))
	}
	return b
}

// stack returns the blocks one below the other, gap apart; empty ones are left out.
func stack(gap vg.Length, blocks ...block) block {
	var all block
	var parts []func(c vg.Canvas, topLeft vg.Point)
	for _, b := range blocks {
		if b.empty() {
			continue
		}
		if len(parts) > 0 {
			all.height += gap
		}
		down := all.height
		parts = append(parts, func(c vg.Canvas, at vg.Point) {
			b.draw(c, vg.Point{X: at.X, Y: at.Y - down})
		})
		all.width = max(all.width, b.width)
		all.height += b.height
	}
	return all.of(parts)
}

// flow returns items set in rows within a width, in as many columns as it holds. Each
// item is made for the width it may take at most: all of it, or half of it where that
// makes room for two columns and is not higher.
func flow(items []func(width vg.Length) block, width, gap vg.Length) block {
	blocks := made(items, width)
	columns := columnWidths(blocks, width, gap)
	one := inRows(blocks, columns, gap)
	if len(columns) > 1 {
		return one
	}
	blocks = made(items, (width-gap)/2)
	if two := inRows(blocks, columnWidths(blocks, width, gap), gap); two.height <= one.height {
		return two
	}
	return one
}

// inRows sets blocks row by row into columns.
func inRows(blocks []block, columns []vg.Length, gap vg.Length) block {
	var all block
	var parts []func(c vg.Canvas, topLeft vg.Point)
	var left, tallest vg.Length
	for i, b := range blocks {
		if i%len(columns) == 0 {
			all.height += tallest
			left, tallest = 0, 0
		}
		x, y := left, all.height
		parts = append(parts, func(c vg.Canvas, at vg.Point) {
			b.draw(c, vg.Point{X: at.X + x, Y: at.Y - y})
		})
		all.width = max(all.width, x+b.width)
		left += columns[i%len(columns)] + gap
		tallest = max(tallest, b.height)
	}
	all.height += tallest
	return all.of(parts)
}

func made(items []func(vg.Length) block, width vg.Length) []block {
	blocks := make([]block, len(items))
	for i, item := range items {
		blocks[i] = item(width)
	}
	return blocks
}

// columnWidths returns the widths of as many columns as there is room for when the blocks
// are set row by row.
func columnWidths(blocks []block, width, gap vg.Length) []vg.Length {
	for n := len(blocks); n > 1; n-- {
		columns := make([]vg.Length, n)
		for i, b := range blocks {
			columns[i%n] = max(columns[i%n], b.width)
		}
		sum := gap * vg.Length(n-1)
		for _, w := range columns {
			sum += w
		}
		if sum <= width {
			return columns
		}
	}
	return []vg.Length{width}
}

// of returns the block drawn by parts, or an empty one if there are none.
func (b block) of(parts []func(vg.Canvas, vg.Point)) block {
	if len(parts) == 0 {
		return block{}
	}
	b.draw = func(c vg.Canvas, at vg.Point) {
		for _, part := range parts {
			part(c, at)
		}
	}
	return b
}
