package page

import (
	"maps"
	"slices"
	"unicode"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"
)

// Unwritable returns the scripts of a figure's texts that PNG and PDF cannot show, by
// their English names: those of which the font lacks characters, which come out as boxes.
// SVG leaves them to the program that shows it.
func Unwritable(f *Figure) ([]string, error) {
	c := &textReader{scripts: make(map[string]bool)}
	_, err := f.encode(func(p *layout) ([]byte, error) {
		p.draw(c)
		return nil, nil
	})
	return slices.Sorted(maps.Keys(c.scripts)), err
}

// textReader is a canvas that notes the scripts of which it cannot write a character.
type textReader struct {
	recorder.Canvas
	scripts map[string]bool
}

func (c *textReader) FillString(f font.Face, _ vg.Point, s string) {
	for _, r := range s {
		index, err := f.Face.GlyphIndex(nil, placeOf(r, f.Font.Size).char)
		must(err)
		if index == 0 {
			c.scripts[scriptOf(r)] = true
		}
	}
}

// scriptOf names the script of a character, "symbols" where it belongs to none.
func scriptOf(r rune) string {
	for name, table := range unicode.Scripts {
		if name != "Common" && name != "Inherited" && unicode.Is(table, r) {
			return name
		}
	}
	return "symbols"
}
