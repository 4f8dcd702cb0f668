package page

import (
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A Tag is a name with values that belong to a place in a drawing. One without values is
// not written.
type Tag struct {
	At     vg.Point
	Name   string
	Values []string
	Signal string // one more value, in that colour: of what is drawn in it; may be empty
}

func (t Tag) empty() bool { return len(t.Values) == 0 && t.Signal == "" }

// Distances of tags in em.
const (
	tagGap   = 1.2 // between tags side by side
	tagClear = 1.2 // from a place to its line
	tagLead  = 2.5 // of that line, where there is room
	tagNear  = 0.3 // of that line at least
	tagEdge  = 0.2 // from the tags to the edge of the data area
)

// A TagBand is tags set side by side, all with their names or all without, in as many
// rows as they need: each next tag in the next row, so that neighbours make room for each
// other.
type TagBand struct {
	tags   []Tag
	blocks []block
	rows   int
	row    vg.Length // height of a row
}

// Tags sets tags whose places do not matter yet, in a band up to some height. Where they
// would fill more than two rows, only every second is set, or every third, and so on.
func (s *Sketch) Tags(tags []Tag, height vg.Length) TagBand {
	const most = 2
	tags = slices.DeleteFunc(slices.Clone(tags), Tag.empty)
	var full, bare []block
	for _, t := range tags {
		values := centred(s.Name, t.Values...)
		if t.Signal != "" {
			values = stackCentred(values, centred(Lettering{s.Name.face, Signal}, t.Signal))
		}
		bare = append(bare, values)
		if t.Name != "" {
			values = stackCentred(centred(s.Caption, t.Name), values)
		}
		full = append(full, values)
	}
	var band TagBand
	for rows := 1; rows <= most; rows++ {
		band = newTagBand(tags, full, 1, rows)
		room := height
		if rows > 1 {
			room *= 0.7 // names are not worth all of it
		}
		if s.wide(band) && band.Depth(s) <= room {
			return band
		}
	}
	var flat *TagBand // the first of one row, if all are too high
	for every := 1; every < max(len(tags), 2); every++ {
		for rows := 1; rows <= most; rows++ {
			tried := newTagBand(tags, bare, every, rows)
			switch {
			case !s.wide(tried):
			case tried.Depth(s) <= height:
				return tried
			case flat == nil && rows == 1:
				flat = &tried
			}
			band = tried
		}
	}
	if flat != nil {
		return *flat
	}
	return band
}

// newTagBand returns a band of every n-th of the tags.
func newTagBand(tags []Tag, blocks []block, every, rows int) TagBand {
	b := TagBand{rows: rows}
	for i := 0; i < len(tags); i += every {
		b.tags, b.blocks = append(b.tags, tags[i]), append(b.blocks, blocks[i])
		b.row = max(b.row, blocks[i].height)
	}
	return b
}

// wide reports whether the data area is wide enough for each row of a band.
func (s *Sketch) wide(band TagBand) bool {
	gap := tagGap * s.Em()
	for row := range band.rows {
		room := s.Size().X + gap
		for i := row; i < len(band.blocks); i += band.rows {
			room -= band.blocks[i].width + gap
		}
		if room < 0 {
			return false
		}
	}
	return true
}

// Depth is the room that a band needs beyond the drawing, with the lines that tie it to
// the drawing.
func (b TagBand) Depth(s *Sketch) vg.Length {
	if len(b.tags) == 0 {
		return 0
	}
	return (tagClear+tagNear+tagEdge)*s.Em() + vg.Length(b.rows)*b.row
}

// Write writes a band above (up = 1) or below (up = −1) the places of its tags and the
// points of a drawing, tied to its places by thin lines.
func (b TagBand) Write(s *Sketch, up vg.Length, drawing []vg.Point) {
	edge := s.Min.Y // of the first row, on the side of the drawing
	if up < 0 {
		edge = s.Max.Y
	}
	for _, t := range b.tags {
		edge = up * max(up*edge, up*t.At.Y+(tagClear+tagLead)*s.Em())
	}
	for _, p := range drawing {
		edge = up * max(up*edge, up*p.Y+tagClear*s.Em())
	}
	deep := vg.Length(b.rows)*b.row + tagEdge*s.Em()
	edge = max(min(edge, s.Max.Y-deep), s.Min.Y+deep)
	near := b.middles(s, 0)
	for row := range b.rows {
		for k, x := range b.middles(s, row) {
			t, block := b.tags[row+k*b.rows], b.blocks[row+k*b.rows]
			foot := x
			if row > 0 {
				foot = b.beside(s, near, x, block.width/2)
			}
			b.tie(s, up, foot, edge, edge+up*vg.Length(row)*b.row, t.At)
			top := edge + up*vg.Length(row)*b.row
			if up > 0 { // they stand on the line
				top += block.height
			}
			block.draw(s, vg.Point{X: x - block.width/2, Y: top - 0.1*s.Em()})
		}
	}
}

// middles returns where the tags of one row stand.
func (b TagBand) middles(s *Sketch, row int) []vg.Length {
	var wanted, sizes []vg.Length
	for i := row; i < len(b.tags); i += b.rows {
		wanted, sizes = append(wanted, b.tags[i].At.X), append(sizes, b.blocks[i].width+tagGap*s.Em())
	}
	half := tagGap / 2 * s.Em()
	return spread(wanted, sizes, s.Min.X-half, s.Max.X+half)
}

// beside returns where the line of a tag in the far row passes the near row: not through
// a tag there, as long as it starts below its own.
func (b TagBand) beside(s *Sketch, near []vg.Length, x, half vg.Length) vg.Length {
	for k, middle := range near {
		reach := b.blocks[k*b.rows].width/2 + tagGap/2*s.Em()
		if off := x - middle; max(off, -off) < reach {
			if off < 0 {
				reach = -reach
			}
			if past := middle + reach - x; max(past, -past) < half {
				return middle + reach
			}
		}
	}
	return x
}

// tie draws the line from a tag whose row begins at from, past the rows up to edge, to
// its place. Where there is little room it ends closer to the place.
func (b TagBand) tie(s *Sketch, up, x, edge, from vg.Length, place vg.Point) {
	clear := min(tagClear*s.Em(), up*(edge-place.Y)-tagNear*s.Em())
	place.Y += up * max(clear, tagNear*s.Em())
	pen := s.Scaled(draw.LineStyle{Color: Line, Width: 0.6})
	s.StrokeLines(pen, []vg.Point{{X: x, Y: from}, {X: x, Y: edge}, place})
}

// centred sets lines one below the other about their middle.
func centred(l Lettering, lines ...string) block {
	b := sized(l, lines)
	b.draw = func(c vg.Canvas, at vg.Point) {
		for i, line := range lines {
			l.Draw(c, vg.Point{X: at.X + b.width/2, Y: at.Y - vg.Length(i)*l.line()}, atMiddle, atEnd, line)
		}
	}
	return b
}

// stackCentred sets one block below another about their middle.
func stackCentred(upper, lower block) block {
	b := block{width: max(upper.width, lower.width), height: upper.height + lower.height}
	b.draw = func(c vg.Canvas, at vg.Point) {
		upper.draw(c, vg.Point{X: at.X + (b.width-upper.width)/2, Y: at.Y})
		lower.draw(c, vg.Point{X: at.X + (b.width-lower.width)/2, Y: at.Y - upper.height})
	}
	return b
}
