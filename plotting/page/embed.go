package page

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"math"
	"regexp"
	"slices"
	"unicode"

	"gonum.org/v1/plot/font"
)

// An embedded font is what the texts of a document use of a font. Each character has a
// glyph of its own there, so that what is searched or copied is the character, also where
// it is set as a small figure or as a box.
type embedded struct {
	face   font.Face
	tables trueType
	name   string // in the document
	codes  map[rune]uint16
	// By code: that of no character is 0.
	chars  []rune
	glyphs []setGlyph
	widths []int // in thousandths of the size
}

// embed prepares a font to be embedded; nil if it is not TrueType of the large kind.
func embed(f font.Face) *embedded {
	var source bytes.Buffer
	if _, err := f.Face.WriteSourceTo(nil, &source); err != nil {
		return nil // one font out of a file of several
	}
	e := &embedded{face: f, tables: readTrueType(source.Bytes()), codes: make(map[rune]uint16)}
	if !e.tables.placedByBytes() {
		return nil
	}
	e.add(unicode.ReplacementChar, setGlyph{size: 1})
	return e
}

// code returns the number that stands for a character which is drawn as another.
func (e *embedded) code(char, drawn rune) uint16 {
	code, found := e.codes[char]
	if !found {
		index, err := e.face.Face.GlyphIndex(nil, drawn)
		must(err)
		set := placeOf(char, 1)
		code = e.add(char, setGlyph{uint16(index), float64(set.size), -float64(set.drop)})
		e.codes[char] = code
	}
	return code
}

func (e *embedded) add(char rune, g setGlyph) uint16 {
	e.chars, e.glyphs = append(e.chars, char), append(e.glyphs, g)
	advance := float64(bigEndian.Uint16(e.tables.metrics(g.index)))
	e.widths = append(e.widths, int(math.Round(1000*g.size*advance/e.tables.perEm())))
	return uint16(len(e.chars) - 1)
}

// write adds the objects of the font (ISO 32000-1, 9.7 and 9.8).
func (e *embedded) write(o *objects) reference {
	file := e.tables.subset(e.glyphs)
	name := subsetTag(file) + "+" + notInName.ReplaceAllString(e.face.Name(), "")
	bounds, err := e.face.Face.Bounds(nil, 1000, 0)
	must(err)
	metrics, err := e.face.Face.Metrics(nil, 1000, 0)
	must(err)
	// The thickness of stems is for substitutes of fonts that are not embedded.
	descriptor := o.add("<< /Type /FontDescriptor /FontName /%s /Flags 4 /FontBBox [%d %d %d %d] /ItalicAngle 0 /Ascent %d /Descent %d /CapHeight %d /StemV 80 /FontFile2 %v >>",
		name, int(bounds.Min.X), -int(bounds.Max.Y), int(bounds.Max.X), -int(bounds.Min.Y), int(metrics.Ascent), -int(metrics.Descent), int(metrics.CapHeight),
		o.stream(fmt.Sprintf("/Length1 %d", len(file)), file))
	glyphs := o.add("<< /Type /Font /Subtype /CIDFontType2 /BaseFont /%s /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /FontDescriptor %v /CIDToGIDMap /Identity /W [0 %v] >>",
		name, descriptor, e.widths)
	return o.add("<< /Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H /DescendantFonts [%v] /ToUnicode %v >>",
		name, glyphs, o.stream("", e.toUnicode()))
}

// notInName is what stands in no name without being written otherwise.
var notInName = regexp.MustCompile(`[^A-Za-z0-9-]`)

// subsetTag returns six capitals that tell a subset from others of the same font.
func subsetTag(file []byte) string {
	sum := crc32.ChecksumIEEE(file)
	var tag [6]byte
	for i := range tag {
		tag[i] = byte('A' + sum%26)
		sum /= 26
	}
	return string(tag[:])
}

// toUnicode returns the table by which a reader finds the characters that were written.
func (e *embedded) toUnicode() []byte {
	var b bytes.Buffer
	b.WriteString(`/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <FFFF>
endcodespacerange
`)
	code := 1
	for chars := range slices.Chunk(e.chars[1:], 100) { // no more are allowed at once
		fmt.Fprintf(&b, "%d beginbfchar\n", len(chars))
		for _, char := range chars {
			fmt.Fprintf(&b, "<%04X> <%s>\n", code, utf16Digits(string(char)))
			code++
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString(`endcmap
CMapName currentdict /CMap defineresource pop
end
end
`)
	return b.Bytes()
}
