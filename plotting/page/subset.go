package page

import (
	"encoding/binary"
	"math"
	"slices"
)

// A trueType is the tables of a TrueType font by their names.
type trueType map[string][]byte

var bigEndian = binary.BigEndian

// readTrueType returns the tables of a font that has been parsed before.
func readTrueType(source []byte) trueType {
	tables := make(trueType)
	for i := range int(bigEndian.Uint16(source[4:])) {
		entry := source[12+16*i:]
		begin, length := bigEndian.Uint32(entry[8:]), bigEndian.Uint32(entry[12:])
		tables[string(entry[:4])] = source[begin:][:length]
	}
	return tables
}

// perEm returns how many units of the font's grid are its size.
func (t trueType) perEm() float64 { return float64(bigEndian.Uint16(t["head"][18:])) }

// placedByBytes reports whether the font has outlines, with their places in bytes, as
// large fonts do.
func (t trueType) placedByBytes() bool {
	return t["glyf"] != nil && bigEndian.Uint16(t["head"][50:]) == 1
}

// glyph returns the outline of a glyph and the instructions that fit it to pixels.
func (t trueType) glyph(i uint16) []byte {
	places := t["loca"][4*int(i):]
	return t["glyf"][bigEndian.Uint32(places):bigEndian.Uint32(places[4:])]
}

// metrics returns the advance and the left bearing of a glyph. The last glyphs of a font
// share their advance.
func (t trueType) metrics(i uint16) []byte {
	hmtx, full := t["hmtx"], int(bigEndian.Uint16(t["hhea"][34:]))
	if int(i) < full {
		return hmtx[4*int(i):][:4]
	}
	advance, bearing := hmtx[4*(full-1):][:2], hmtx[4*full+2*(int(i)-full):][:2]
	return slices.Concat(advance, bearing)
}

// parts returns where the numbers of the glyphs stand of which a glyph is composed, none
// for one with an outline of its own.
func parts(glyph []byte) [][]byte {
	if len(glyph) == 0 || int16(bigEndian.Uint16(glyph)) >= 0 {
		return nil
	}
	const words, scale, more, scaleXY, matrix = 0x01, 0x08, 0x20, 0x40, 0x80
	var parts [][]byte
	for at, flags := 10, uint16(more); flags&more != 0; {
		flags = bigEndian.Uint16(glyph[at:])
		parts = append(parts, glyph[at+2:at+4])
		at += 6
		for _, extra := range []struct {
			flag  uint16
			bytes int
		}{{words, 2}, {scale, 2}, {scaleXY, 4}, {matrix, 8}} {
			if flags&extra.flag != 0 {
				at += extra.bytes
			}
		}
	}
	return parts
}

// A setGlyph is a glyph of a font as it is set: at a part of the size, above the base line
// by another part.
type setGlyph struct {
	index      uint16
	size, rise float64
}

// set returns the outline and the metrics of a glyph as it is set. One that is not at full
// size is composed of the full one alone.
func (t trueType) set(g setGlyph) (glyph, metrics []byte) {
	glyph, metrics = slices.Clone(t.glyph(g.index)), slices.Clone(t.metrics(g.index))
	if g.size == 1 || len(glyph) == 0 {
		return glyph, metrics
	}
	put := func(b []byte, v float64) { bigEndian.PutUint16(b, uint16(int16(math.Round(v)))) }
	resize := func(b []byte, shift float64) { put(b, g.size*float64(int16(bigEndian.Uint16(b)))+shift) }
	rise := g.rise * t.perEm()
	resize(metrics, 0)
	resize(metrics[2:], 0)
	glyph = append(glyph[:10], make([]byte, 10)...)
	put(glyph, -1)
	for i, shift := range []float64{0, rise, 0, rise} { // of its corners
		resize(glyph[2+2*i:], shift)
	}
	const words, offsets, scale = 0x01, 0x02, 0x08
	put(glyph[10:], words|offsets|scale)
	bigEndian.PutUint16(glyph[12:], g.index)
	put(glyph[16:], rise)
	put(glyph[18:], g.size*(1<<14))
	return glyph, metrics
}

// subset returns a font of some glyphs of another, numbered as they are given, with those
// that they are composed of after them. It has the tables that a PDF file needs of a font
// (ISO 32000-1, 9.9) and those of its instructions.
func (t trueType) subset(glyphs []setGlyph) []byte {
	glyphs = slices.Clone(glyphs)
	numbers := make(map[uint16]uint16) // of parts, by those in the font
	var glyf, hmtx []byte
	loca := make([]byte, 4)
	for i := 0; i < len(glyphs); i++ {
		glyph, metrics := t.set(glyphs[i])
		for _, part := range parts(glyph) {
			old := bigEndian.Uint16(part)
			if _, found := numbers[old]; !found {
				numbers[old] = uint16(len(glyphs))
				glyphs = append(glyphs, setGlyph{index: old, size: 1})
			}
			bigEndian.PutUint16(part, numbers[old])
		}
		glyf = padded(append(glyf, glyph...))
		hmtx = append(hmtx, metrics...)
		loca = bigEndian.AppendUint32(loca, uint32(len(glyf)))
	}
	head, hhea, maxp := slices.Clone(t["head"]), slices.Clone(t["hhea"]), slices.Clone(t["maxp"])
	bigEndian.PutUint32(head[8:], 0)  // the sum of the file, which comes last
	bigEndian.PutUint16(head[50:], 1) // places in bytes
	bigEndian.PutUint16(hhea[34:], uint16(len(glyphs)))
	bigEndian.PutUint16(maxp[4:], uint16(len(glyphs)))
	return trueType{
		"cvt ": t["cvt "], "fpgm": t["fpgm"], "glyf": glyf, "head": head, "hhea": hhea,
		"hmtx": hmtx, "loca": loca, "maxp": maxp, "prep": t["prep"],
	}.file()
}

// file returns the bytes of a font, in which tables of nothing are left out.
func (t trueType) file() []byte {
	var names []string
	for name, table := range t {
		if len(table) > 0 {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	power, steps := 1, uint16(0) // the largest power of two up to the number of tables
	for 2*power <= len(names) {
		power, steps = 2*power, steps+1
	}
	file := bigEndian.AppendUint32(nil, 0x00010000)
	for _, v := range []uint16{uint16(len(names)), uint16(16 * power), steps, uint16(16 * (len(names) - power))} {
		file = bigEndian.AppendUint16(file, v)
	}
	at := len(file) + 16*len(names)
	head := at
	for _, name := range names {
		if name == "head" {
			head = at
		}
		file = append(file, name...)
		for _, v := range []uint32{checksum(t[name]), uint32(at), uint32(len(t[name]))} {
			file = bigEndian.AppendUint32(file, v)
		}
		at += len(padded(t[name]))
	}
	for _, name := range names {
		file = append(file, padded(t[name])...)
	}
	bigEndian.PutUint32(file[head+8:], 0xB1B0AFBA-checksum(file))
	return file
}

// padded returns a table with zeros up to a multiple of four bytes.
func padded(table []byte) []byte {
	return append(table[:len(table):len(table)], make([]byte, -len(table)&3)...)
}

// checksum returns the sum of a table as numbers of four bytes.
func checksum(table []byte) uint32 {
	var sum uint32
	for word := range slices.Chunk(padded(table), 4) {
		sum += bigEndian.Uint32(word)
	}
	return sum
}
