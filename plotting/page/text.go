package page

import (
	"image/color"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/vg"
)

// Letters are the kinds of text on a page, all in proportion to its text size.
type Letters struct {
	Title    Lettering // the question that a figure answers
	Subtitle Lettering // which case it is
	Heading  Lettering // of a panel
	Name     Lettering // legend, labels in drawings
	Label    Lettering // quantity and unit of an axis
	Number   Lettering // ticks
	Caption  Lettering
}

func lettersFor(s Size) Letters {
	regular, bold := sans("LiberationSans-Regular"), sans("LiberationSans-Bold")
	return Letters{
		Title:    Lettering{bold.at(1.4 * s.Text), Ink},
		Subtitle: Lettering{regular.at(s.Text), Soft},
		Heading:  Lettering{bold.at(s.Text), Ink},
		Name:     Lettering{regular.at(0.95 * s.Text), Ink},
		Label:    Lettering{regular.at(0.9 * s.Text), Soft},
		Number:   Lettering{regular.at(0.9 * s.Text), Soft},
		Caption:  Lettering{regular.at(0.9 * s.Text), Soft},
	}
}

// Em returns the size of ordinary text, the measure for distances that are not data.
func (l Letters) Em() vg.Length {
	return l.Subtitle.face.Font.Size
}

// Lettering is a typeface at one size in one colour.
type Lettering struct {
	face  font.Face
	color color.Color
}

// Heights of Liberation Sans as fractions of its size, from the font's OS/2 and hhea
// tables.
const (
	capHeight = 1409. / 2048
	ascent    = 1854. / 2048
	descent   = 434. / 2048
	leading   = 1.25 // distance of base lines
)

// line is the distance from one base line to the next.
func (l Lettering) line() vg.Length {
	return leading * l.face.Font.Size
}

// Where a text stands relative to its point.
const (
	atStart  = 0
	atMiddle = 0.5
	atEnd    = 1
)

// Draw writes one line of text at a point. Across, 0 puts the left end there and 1 the
// right end; up, 0 puts the base line there and 1 the top of the capitals.
func (l Lettering) Draw(c vg.Canvas, at vg.Point, across, up float64, s string) {
	if s == "" {
		return
	}
	if sketch, ok := c.(*Sketch); ok {
		c = sketch.Canvas.Canvas
	}
	at.Y -= vg.Length(up) * capHeight * l.face.Font.Size
	if svg, ok := c.(*svgCanvas); ok {
		svg.fillText(l, at, across, s)
		return
	}
	at.X -= vg.Length(across) * l.Width(s)
	c.SetColor(l.color)
	c.FillString(l.face, at, inOrder(s))
}

// drawClear is Draw on a ground of paper, so that the text can be read on top of lines.
func (l Lettering) drawClear(c vg.Canvas, at vg.Point, across, up float64, s string) {
	c.SetColor(Paper)
	c.Fill(l.ground(at, across, up, s).Path())
	l.Draw(c, at, across, up, s)
}

// ground returns the place of a text that Draw writes, with a little room around it.
func (l Lettering) ground(at vg.Point, across, up float64, s string) vg.Rectangle {
	const room = 0.12
	size, width := l.face.Font.Size, l.Width(s)
	left, base := at.X-vg.Length(across)*width, at.Y-vg.Length(up)*capHeight*size
	below := vg.Length(0)
	if strings.ContainsFunc(s, unicode.IsLetter) { // no numeral descends
		below = descent
	}
	return vg.Rectangle{
		Min: vg.Point{X: left - room*size, Y: base - (below+room)*size},
		Max: vg.Point{X: left + width + room*size, Y: base + (capHeight+room)*size},
	}
}

// wrap breaks a text into lines no wider than width, at spaces where it can and inside
// words where it must.
func (l Lettering) wrap(s string, width vg.Length) []string {
	var lines []string
	line := ""
	for _, word := range words(s) {
		for word != "" {
			joined := strings.TrimSpace(line + " " + word)
			if l.Width(joined) <= width {
				line = joined
				break
			}
			if line != "" {
				lines, line = append(lines, line), ""
				continue
			}
			head := l.fitting(word, width)
			lines, word = append(lines, head), word[len(head):]
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// words parts a text at its spaces, but not between a number and its unit.
func words(s string) []string {
	var words []string
	for _, word := range strings.Fields(s) {
		unit := slices.Contains(units, strings.TrimRight(word, ".,;:)"))
		if n := len(words) - 1; unit && n >= 0 && strings.ContainsAny(words[n][len(words[n])-1:], "0123456789") {
			words[n] += " " + word
		} else {
			words = append(words, word)
		}
	}
	return words
}

// units are those that stand apart from their numbers.
var units = []string{"%", "deg²", "rev/min", "rad/s²", "Hz", "ω²", "N", "N·m"}

// fitting returns the longest beginning of a word that is no wider than width, at least
// one character.
func (l Lettering) fitting(word string, width vg.Length) string {
	end := 0
	for i, r := range word {
		next := i + utf8.RuneLen(r)
		if end > 0 && l.Width(word[:next]) > width {
			break
		}
		end = next
	}
	return word[:end]
}

// clean makes a text from outside fit for every format: valid UTF-8, one line, no control
// characters, which an SVG file may not hold.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\uFFFE' || r == '\uFFFF' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

// A typeface is a font of no particular size.
type typeface struct{ font.Face }

func sans(name string) typeface {
	for _, f := range liberation.Collection() { // parsed once per process
		if f.Name() == name {
			return typeface{f}
		}
	}
	panic("plotting: font " + name + " is missing from the drawing library")
}

func (t typeface) at(size vg.Length) font.Face {
	f := t.Face
	f.Font.Size = size
	return f
}
