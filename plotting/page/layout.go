package page

import (
	"errors"
	"fmt"

	"gonum.org/v1/plot/vg"
)

// A layout is a figure with everything in its place.
type layout struct {
	size  Size
	texts []placedBlock
	cells []placedPanel
}

type placedBlock struct {
	block
	topLeft vg.Point
}

type placedPanel struct {
	*fitted
	area vg.Rectangle // of the data
	cell vg.Rectangle // of data and labels
}

// Distances between the parts of a page, in em.
const (
	headGap    = 0.9 // below the title
	legendGap  = 0.7
	captionGap = 1.0
	columnGap  = 1.8
	rowGap     = 1.2
)

// arrange settles all that a figure shows and puts it in place. Where the panels, or a
// legend beside them, would have no room, the text shrinks as far as the size of the page
// allows; if that is no help the legend goes to the top.
func (f *Figure) arrange() (*layout, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	legends := []Placement{f.Legend}
	if f.Legend == LegendRight {
		legends = append(legends, LegendTop)
	}
	const step = 0.92
	var fault error
	for _, legend := range legends {
		for size := f.size(); ; size.Text *= step {
			p, err := f.arrangeOn(size, legend)
			if _, crowded := errors.AsType[noRoom](err); !crowded {
				return f.roomier(p), err
			}
			fault = err
			if size.Least == 0 || size.Text*step < size.Least {
				break
			}
		}
	}
	return nil, fault
}

// noRoom is what is wrong with a page that is too small for its panels.
type noRoom struct{ error }

// crowded returns the error that tells what to do about it, and what has no room.
func (f *Figure) crowded(format string, args ...any) error {
	return noRoom{fmt.Errorf("too much for a page of %s: want a larger page, smaller letters or shorter names: %s", f.size(), fmt.Sprintf(format, args...))}
}

// arrangeOn puts all in place on a page, from its edges inwards.
func (f *Figure) arrangeOn(size Size, legend Placement) (*layout, error) {
	p := &layout{size: size}
	l := lettersFor(p.size)
	em := l.Em()
	body := p.size.inner()

	p.atTop(&body, f.head(l, body.Size().X), headGap*em)
	if err := p.atLeft(&body, passages(l, f.Text, (body.Size().X-columnGap*em)/2), columnGap*em); err != nil {
		return nil, err
	}
	p.atBottom(&body, paragraph(l.Caption, f.Caption, body.Size().X), captionGap*em)
	switch legend {
	case LegendTop:
		p.atTop(&body, legendBlock(l, f.keys(), body.Size().X), legendGap*em)
	case LegendBottom:
		p.atBottom(&body, legendBlock(l, f.keys(), body.Size().X), legendGap*em)
	case LegendRight:
		column := legendColumn(l, f.keys(), 0.3*body.Size().X)
		if column.height > body.Size().Y {
			return nil, f.crowded("the legend takes %.0f pt, the panels beside it %.0f pt", column.height.Points(), body.Size().Y.Points())
		}
		p.atRight(&body, column, columnGap*em)
	case LegendPanels:
	default:
		return nil, fmt.Errorf("legend: %d: want one of LegendTop, LegendRight, LegendBottom, LegendPanels", f.Legend)
	}
	var err error
	if f.Held != nil {
		p.cells, err = f.hold(l)
	} else {
		p.cells, err = f.arrangePanels(l, body, legend == LegendPanels)
	}
	return p, err
}

func (p *layout) atTop(body *vg.Rectangle, b block, gap vg.Length) {
	if !b.empty() {
		p.texts = append(p.texts, placedBlock{b, vg.Point{X: body.Min.X, Y: body.Max.Y}})
		body.Max.Y -= b.height + gap
	}
}

func (p *layout) atBottom(body *vg.Rectangle, b block, gap vg.Length) {
	if !b.empty() {
		p.texts = append(p.texts, placedBlock{b, vg.Point{X: body.Min.X, Y: body.Min.Y + b.height}})
		body.Min.Y += b.height + gap
	}
}

// atLeft puts a column to the left, which may go on below what the panels use of the page.
func (p *layout) atLeft(body *vg.Rectangle, b block, gap vg.Length) error {
	if b.empty() {
		return nil
	}
	if room := body.Max.Y - p.size.Border; b.height > room {
		return noRoom{fmt.Errorf("too much text beside the panels: want less of it, or a larger page: it takes %.0f of %.0f pt", b.height.Points(), room.Points())}
	}
	p.texts = append(p.texts, placedBlock{b, vg.Point{X: body.Min.X, Y: body.Max.Y}})
	body.Min.X = (body.Min.X + body.Max.X + gap) / 2
	return nil
}

func (p *layout) atRight(body *vg.Rectangle, b block, gap vg.Length) {
	if !b.empty() {
		p.texts = append(p.texts, placedBlock{b, vg.Point{X: body.Max.X - b.width, Y: body.Max.Y}})
		body.Max.X -= b.width + gap
	}
}

// arrangePanels shares a rectangle out among the panels. How much room labels need
// depends on the size of a panel and the other way round, so rough sizes are mended until
// every panel is at least as wide as it was fitted for. One with equal units shows more of
// an axis where it has become larger: then that axis is marked anew, and if its numbers
// need more room, all is tried again, as long as that helps.
func (f *Figure) arrangePanels(l Letters, body vg.Rectangle, ownLegends bool) ([]placedPanel, error) {
	sizes := f.roughSizes(l, body)
	for _, s := range sizes {
		if s.area.X <= 0 || s.area.Y <= 0 {
			return nil, f.crowded("its texts leave nothing for the panels")
		}
	}
	const rounds, helps = 10, 5
	for round := range rounds {
		rows, err := f.fitRows(l, sizes, ownLegends)
		if err != nil {
			return nil, err
		}
		panels, err := f.place(l, body, rows)
		if err != nil {
			return nil, err
		}
		settled := true
		for i, p := range panels {
			width, area := p.cell.Size().X, p.area.Size()
			settled = settled && width >= sizes[i].width-0.01 && area.Y >= sizes[i].area.Y-0.01
			if reserved := p.margins; p.Equal {
				if err := p.mark(area); err != nil {
					return nil, err
				}
				p.reserve(width)
				settled = settled && (p.margins.widest(reserved) == reserved || round >= helps)
			}
			sizes[i].width = min(width, sizes[i].width)
			sizes[i].area = vg.Point{X: area.X, Y: min(area.Y, sizes[i].area.Y)}
		}
		if settled {
			return panels, nil
		}
	}
	return nil, f.crowded("the labels of the panels leave none for their data")
}

// room is the size of a panel as it is fitted.
type room struct {
	width vg.Length // of data and labels
	area  vg.Point  // of the data
}

// roughSizes returns the sizes of all panels, row by row, as if all had equal margins.
func (f *Figure) roughSizes(l Letters, body vg.Rectangle) []room {
	var weights vg.Length
	for _, row := range f.Rows {
		weights += row.height()
	}
	var sizes []room
	for _, row := range f.Rows {
		height := (body.Size().Y - rowGap*l.Em()*vg.Length(len(f.Rows)-1)) * row.height() / weights
		width := body.Size().X - columnGap*l.Em()*vg.Length(len(row.Panels)-1)
		for _, part := range row.widths() {
			cell := vg.Point{X: width * part, Y: height}
			sizes = append(sizes, room{width: cell.X, area: cell.Scale(0.8)})
		}
	}
	return sizes
}

// fitRows settles all panels for the given sizes.
func (f *Figure) fitRows(l Letters, sizes []room, ownLegends bool) ([][]*fitted, error) {
	rows := make([][]*fitted, len(f.Rows))
	n := 0
	for i, row := range f.Rows {
		for j, panel := range row.Panels {
			var held Place
			if f.Held != nil {
				held = f.Held[n]
			}
			fit, err := panel.fit(l, sizes[n], held, ownLegends)
			if err != nil {
				return nil, fmt.Errorf("row %d: panel %d %q: %w", i+1, j+1, panel.Title, err)
			}
			rows[i] = append(rows[i], fit)
			n++
		}
	}
	return rows, nil
}

// place puts fitted panels into a rectangle, so that data areas in one row or column line
// up.
func (f *Figure) place(l Letters, body vg.Rectangle, rows [][]*fitted) ([]placedPanel, error) {
	em := l.Em()
	sides := shareColumns(rows)
	ends := make([]margins, len(rows)) // room above and below the data areas of each row
	height := body.Size().Y - rowGap*em*vg.Length(len(rows)-1)
	var weights vg.Length
	for i, row := range rows {
		for _, panel := range row {
			ends[i] = ends[i].widest(panel.margins)
		}
		height -= ends[i].top + ends[i].bottom
		weights += f.Rows[i].height()
	}

	var panels []placedPanel
	top := body.Max.Y
	for i, row := range rows {
		width := body.Size().X - columnGap*em*vg.Length(len(row)-1)
		for _, m := range sides[i] {
			width -= m.left + m.right
		}
		area := vg.Point{Y: height * f.Rows[i].height() / weights}
		left := body.Min.X
		for j, part := range f.Rows[i].widths() {
			area.X = width * part
			if least := 3 * em; area.X < least || area.Y < least {
				return nil, f.crowded("%.0f × %.0f pt are left for the data of panel %d in row %d, which take %.0f pt at least",
					max(area.X, 0).Points(), max(area.Y, 0).Points(), j+1, i+1, least.Points())
			}
			p := placedPanel{fitted: row[j]}
			p.area.Min = vg.Point{X: left + sides[i][j].left, Y: top - ends[i].top - area.Y}
			p.area.Max = p.area.Min.Add(area)
			p.cell.Min = vg.Point{X: left, Y: p.area.Min.Y - ends[i].bottom}
			p.cell.Max = vg.Point{X: p.area.Max.X + sides[i][j].right, Y: top}
			panels = append(panels, p)
			left = p.cell.Max.X + columnGap*em
		}
		top -= ends[i].top + area.Y + ends[i].bottom + rowGap*em
	}
	return panels, nil
}

// shareColumns returns the side margins of every panel: alike for panels in one column of
// rows that have equally many panels, and alike for all rows at the two edges of the
// page.
func shareColumns(rows [][]*fitted) [][]margins {
	columns := make(map[int][]margins) // by the number of panels in a row
	var edges margins
	for _, row := range rows {
		if columns[len(row)] == nil {
			columns[len(row)] = make([]margins, len(row))
		}
		shared := columns[len(row)]
		for j, panel := range row {
			shared[j] = shared[j].widest(panel.margins)
		}
		edges.left = max(edges.left, shared[0].left)
		edges.right = max(edges.right, shared[len(row)-1].right)
	}
	sides := make([][]margins, len(rows))
	for i, row := range rows {
		shared := columns[len(row)]
		shared[0].left, shared[len(row)-1].right = edges.left, edges.right
		sides[i] = shared
	}
	return sides
}

// draw draws the page on a canvas of its size.
func (p *layout) draw(c vg.Canvas) {
	p.drawStill(c)
	p.drawMoving(c)
}

// drawStill draws all but what moves.
func (p *layout) drawStill(c vg.Canvas) {
	c.SetColor(Paper)
	c.Fill(vg.Rectangle{Max: vg.Point{X: p.size.Width, Y: p.size.Height}}.Path())
	for _, b := range p.texts {
		b.block.draw(c, b.topLeft)
	}
	for i, cell := range p.cells {
		inGroup(c, fmt.Sprintf("panel-%d", i+1), func() { cell.drawStill(c, cell.area, cell.cell, i+1) })
	}
}

func (p *layout) drawMoving(c vg.Canvas) {
	for i, cell := range p.cells {
		cell.drawMoving(c, cell.area, cell.cell, i+1)
	}
}
