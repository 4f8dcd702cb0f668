package page

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
)

// A mark is what one call of a canvas has left on a page.
type mark struct {
	kind   string // text, f or S
	text   string
	points []vg.Point // ends of the parts of a path
	curved bool
	size   float64 // of text; width of a line
	colour color.NRGBA
	dashes []float64
}

// marks reads the contents of a page. The points of a text are its ends.
func (r *pdfReader) marks(page any) (marks []mark) {
	r.t.Helper()
	operands := map[pdfWord]int{
		"j": 1, "w": 1, "d": 2, "rg": 3, "RG": 3, "gs": 1, "q": 0, "Q": 0, "cm": 6, "m": 2, "l": 2, "c": 6, "h": 0,
		"f": 0, "S": 0, "BT": 0, "ET": 0, "Tf": 2, "Td": 2, "TJ": 1, "Do": 1,
	}
	resources := r.at(page, "Resources")
	var m mark
	var stroke, fill, opacity = [3]float64{}, [3]float64{}, 1.0
	var font any
	var size, width float64
	var dashes []float64
	var at vg.Point
	var values []any
	inText := false
	rest := r.streams[r.at(page, "Contents").(reference)]
	for len(bytes.TrimSpace(rest)) > 0 {
		var v any
		v, rest = r.value(rest)
		word, ok := v.(pdfWord)
		if !ok {
			values = append(values, v)
			continue
		}
		if n, known := operands[word]; !known || n != len(values) {
			r.t.Fatalf("operator %q of %d values %v", word, len(values), values)
		}
		number := func(i int) float64 { return values[i].(float64) }
		point := func(i int) vg.Point { return vg.Point{X: vg.Length(number(i)), Y: vg.Length(number(i + 1))} }
		paint := func(c [3]float64) color.NRGBA {
			b := func(v float64) uint8 { return uint8(math.Round(0xFF * v)) }
			return color.NRGBA{b(c[0]), b(c[1]), b(c[2]), b(opacity)}
		}
		switch word {
		case "w":
			width = number(0)
		case "d":
			dashes = nil
			for _, d := range values[0].([]any) {
				dashes = append(dashes, d.(float64))
			}
		case "rg", "RG":
			c := [3]float64{number(0), number(1), number(2)}
			if word == "rg" {
				fill = c
			} else {
				stroke = c
			}
		case "gs":
			opacity = r.at(resources, "ExtGState", string(values[0].(pdfName)), "ca").(float64)
		case "m", "l":
			m.points = append(m.points, point(0))
		case "c":
			m.points = append(m.points, point(4))
			m.curved = true
		case "f", "S":
			m.kind, m.colour = string(word), paint(fill)
			if word == "S" {
				m.colour, m.size, m.dashes = paint(stroke), width, dashes
			}
			marks = append(marks, m)
			m = mark{}
		case "BT", "ET":
			inText = word == "BT"
		case "Tf":
			font, size = r.at(resources, "Font", string(values[0].(pdfName))), number(1)
		case "Td":
			at = point(0)
		case "TJ":
			text, width := r.shown(font, values[0].([]any))
			ends := []vg.Point{at, {X: at.X + vg.Length(width*size/1000), Y: at.Y}}
			marks = append(marks, mark{kind: "text", text: text, points: ends, size: size, colour: paint(fill)})
			if !inText {
				r.t.Error("text outside of a text object")
			}
		case "q", "Q", "cm":
			r.t.Fatalf("operator %q: figures are drawn without", word)
		}
		values = nil
	}
	return marks
}

// shown returns a text that is shown and its width in thousandths of its size.
func (r *pdfReader) shown(font any, pieces []any) (text string, width float64) {
	r.t.Helper()
	chars, widths := r.unicode(font), r.at(font, "DescendantFonts", 0, "W", 1).([]any)
	for _, piece := range pieces {
		switch piece := piece.(type) {
		case float64:
			width -= piece
		case []byte:
			for i := 0; i < len(piece); i += 2 {
				code := bigEndian.Uint16(piece[i:])
				text += chars[code]
				width += widths[code].(float64)
			}
		}
	}
	return text, width
}

// svgMarks reads the same from the SVG file of a figure. A text has a kind of start,
// middle or end, where its only point is.
func svgMarks(t *testing.T, svg []byte, height float64) (marks []mark) {
	t.Helper()
	decoder := xml.NewDecoder(bytes.NewReader(svg))
	var m *mark
	for {
		token, err := decoder.Token()
		if err != nil {
			return marks
		}
		switch token := token.(type) {
		case xml.EndElement:
			m = nil
		case xml.CharData:
			if m != nil {
				m.text += string(token)
			}
		case xml.StartElement:
			attributes := make(map[string]string)
			for _, a := range token.Attr {
				attributes[a.Name.Local] = a.Value
			}
			number := func(name string, otherwise float64) float64 {
				if v, err := strconv.ParseFloat(attributes[name], 64); err == nil {
					return v
				}
				return otherwise
			}
			paint := func(name string) (c color.NRGBA) {
				if _, err := fmt.Sscanf(attributes[name], "#%02x%02x%02x", &c.R, &c.G, &c.B); err != nil {
					t.Fatalf("%s %q: %v", name, attributes[name], err)
				}
				c.A = uint8(math.Round(0xFF * number(name+"-opacity", 1)))
				return c
			}
			if attributes["transform"] != "" {
				t.Fatal("transform: figures are drawn without")
			}
			next := mark{kind: "S", size: number("stroke-width", 0)}
			switch {
			case token.Name.Local != "text" && (token.Name.Local != "path" || attributes["d"] == ""):
				continue
			case attributes["fill"] == "none":
				next.colour = paint("stroke")
			default:
				next.kind, next.colour = "f", paint("fill")
			}
			for _, d := range strings.Fields(attributes["stroke-dasharray"]) {
				v, _ := strconv.ParseFloat(d, 64)
				next.dashes = append(next.dashes, v)
			}
			if token.Name.Local == "path" {
				next.points, next.curved = svgEnds(t, attributes["d"], height)
			} else {
				next.kind, next.size = "start", number("font-size", 0)
				if anchor := attributes["text-anchor"]; anchor != "" {
					next.kind = anchor
				}
				next.points = []vg.Point{{X: vg.Length(number("x", 0)), Y: vg.Length(height - number("y", 0))}}
			}
			marks = append(marks, next)
			m = &marks[len(marks)-1]
		}
	}
}

var svgParts = regexp.MustCompile(`([A-Z])([^A-Z]*)`)

// svgEnds returns the ends of the parts of a path.
func svgEnds(t *testing.T, d string, height float64) (ends []vg.Point, curved bool) {
	t.Helper()
	for _, part := range svgParts.FindAllStringSubmatch(d, -1) {
		if part[1] == "Z" {
			continue
		}
		numbers := strings.Fields(part[2])
		x, errX := strconv.ParseFloat(numbers[len(numbers)-2], 64)
		y, errY := strconv.ParseFloat(numbers[len(numbers)-1], 64)
		if errX != nil || errY != nil {
			t.Fatalf("path %q", d)
		}
		ends = append(ends, vg.Point{X: vg.Length(x), Y: vg.Length(height - y)})
		curved = curved || strings.Contains("QCA", part[1])
	}
	return ends, curved
}
