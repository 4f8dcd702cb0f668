package page

import (
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// outlineText is a canvas that draws text as filled outlines, which look the same
// wherever they are shown.
type outlineText struct {
	vg.Canvas
}

func (c outlineText) FillString(f font.Face, at vg.Point, s string) {
	c.Fill(outline(f, at, s))
}

// ppem is the resolution at which glyphs are read: the 2048 units per em of the font
// itself, in the 1/64 units of its reader, so that nothing is rounded.
const ppem = 2048 << 6

// outline returns the outlines of one line of text whose base line begins at a point.
func outline(f font.Face, at vg.Point, s string) vg.Path {
	var path vg.Path
	places, _ := layOut(f, s)
	for _, place := range places {
		index, err := f.Face.GlyphIndex(nil, place.char)
		must(err)
		segments, err := f.Face.LoadGlyph(nil, index, ppem, nil)
		must(err)
		scale := place.size / ppem
		for i, seg := range segments {
			var p [3]vg.Point
			for k, a := range seg.Args {
				p[k] = vg.Point{
					X: at.X + place.x + vg.Length(a.X)*scale,
					Y: at.Y - place.drop - vg.Length(a.Y)*scale,
				}
			}
			// The kinds of segment are numbered as in golang.org/x/image/font/sfnt.
			switch seg.Op {
			case 0:
				if i > 0 {
					path.Close()
				}
				path.Move(p[0])
			case 1:
				path.Line(p[0])
			case 2:
				path.QuadTo(p[0], p[1])
			case 3:
				path.CubeTo(p[0], p[1], p[2])
			}
		}
		if len(segments) > 0 {
			path.Close()
		}
	}
	return path
}
