package page

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// placedChar is where a character stands on its line.
type placedChar struct {
	char    rune
	x, drop vg.Length // from the beginning of the line; below the base line
	size    vg.Length
}

// layOut returns the places of all characters of a line of text, kerned, and its width.
func layOut(f font.Face, s string) (places []placedChar, width vg.Length) {
	size := f.Font.Size
	previous, err := f.Face.GlyphIndex(nil, ' ')
	must(err)
	for i, r := range s {
		p := placeOf(r, size)
		index, err := f.Face.GlyphIndex(nil, p.char)
		must(err)
		if index == 0 {
			p.char = missing
			index, err = f.Face.GlyphIndex(nil, missing)
			must(err)
		}
		// The reader reports pairs without kerning as errors.
		if kern, err := f.Face.Kern(nil, previous, index, ppem, 0); err == nil && i > 0 && p.drop == 0 {
			width += vg.Length(kern) * size / ppem
		}
		previous = index
		advance, err := f.Face.GlyphAdvance(nil, index, ppem, 0)
		must(err)
		p.x = width
		if p.char == missing && unicode.Is(wide, r) {
			advance = ppem
		}
		width += vg.Length(advance) * p.size / ppem
		places = append(places, p)
	}
	return places, width
}

// placeOf returns how a character is set in a text of a size.
func placeOf(char rune, size vg.Length) placedChar {
	for _, set := range []struct {
		chars string
		drop  vg.Length
	}{{subscripts, subscriptDrop}, {superscripts, exponentDrop}} {
		if before, _, found := strings.Cut(set.chars, string(char)); found {
			figure := []rune(figures)[utf8.RuneCountInString(before)]
			return placedChar{char: figure, size: smallSize * size, drop: set.drop * size}
		}
	}
	return placedChar{char: char, size: size}
}

// missing stands for characters that the font lacks: nothing in a name may vanish.
const missing = '□'

// wide are the characters, as wide as they are high, of East Asia and of pictures. The font
// has none of them, but programs that show SVG take them from another. They are those of
// width W or F in Unicode Standard Annex 11, rounded to blocks.
var wide = &unicode.RangeTable{
	R16: []unicode.Range16{
		{Lo: 0x1100, Hi: 0x115F, Stride: 1}, // Hangul
		{Lo: 0x2E80, Hi: 0xA4CF, Stride: 1}, // Han, kana, Yi
		{Lo: 0xAC00, Hi: 0xD7A3, Stride: 1}, // Hangul
		{Lo: 0xF900, Hi: 0xFAFF, Stride: 1}, // Han
		{Lo: 0xFE30, Hi: 0xFE6F, Stride: 1}, // punctuation
		{Lo: 0xFF00, Hi: 0xFF60, Stride: 1}, // Latin in the width of Han
		{Lo: 0xFFE0, Hi: 0xFFE6, Stride: 1}, // currencies in it
	},
	R32: []unicode.Range32{
		{Lo: 0x1F300, Hi: 0x1F64F, Stride: 1}, // pictures
		{Lo: 0x1F680, Hi: 0x1F6FF, Stride: 1}, // vehicles
		{Lo: 0x1F900, Hi: 0x1F9FF, Stride: 1}, // more pictures
		{Lo: 0x20000, Hi: 0x3FFFD, Stride: 1}, // Han
	},
}

// Subscripts and superscripts are set as small figures: the subscripts of the font stand
// too far apart, and it lacks half of the superscripts.
const (
	subscripts    = "₀₁₂₃₄₅₆₇₈₉"
	superscripts  = "⁰¹²³⁴⁵⁶⁷⁸⁹⁻"
	figures       = "0123456789−"
	smallSize     = 0.66
	subscriptDrop = 0.14
	exponentDrop  = -0.36
)

// must panics on errors that only a broken font file gives, and the font is built in.
func must(err error) {
	if err != nil {
		panic(err)
	}
}
