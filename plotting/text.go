package plotting

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

// letters are the kinds of text on a page, all in proportion to its text size.
type letters struct {
	title    lettering // the question that a figure answers
	subtitle lettering // which case it is
	heading  lettering // of a panel
	name     lettering // legend, labels in drawings
	label    lettering // quantity and unit of an axis
	number   lettering // ticks
	caption  lettering
}

func lettersFor(s Size) letters {
	regular, bold := sans("LiberationSans-Regular"), sans("LiberationSans-Bold")
	return letters{
		title:    lettering{bold.at(1.4 * s.Text), Ink},
		subtitle: lettering{regular.at(s.Text), Soft},
		heading:  lettering{bold.at(s.Text), Ink},
		name:     lettering{regular.at(0.95 * s.Text), Ink},
		label:    lettering{regular.at(0.9 * s.Text), Soft},
		number:   lettering{regular.at(0.9 * s.Text), Soft},
		caption:  lettering{regular.at(0.9 * s.Text), Soft},
	}
}

// em is the size of ordinary text, the unit of all distances.
func (l letters) em() vg.Length {
	return l.subtitle.face.Font.Size
}

// lettering is a typeface at one size in one colour.
type lettering struct {
	face  font.Face
	color color.Color
}

// Heights of Liberation Sans as fractions of its size, from the font's OS/2 and hhea tables.
const (
	capHeight = 1409. / 2048
	ascent    = 1854. / 2048
	descent   = 434. / 2048
	leading   = 1.25 // distance of base lines
)

func (l lettering) width(s string) vg.Length {
	_, width := layOut(l.face, s)
	return width
}

// line is the distance from one base line to the next.
func (l lettering) line() vg.Length {
	return leading * l.face.Font.Size
}

// Where a text stands relative to its point: across, 0 puts the left end there, 1 the right end; up, 0 puts the base
// line there, 1 the top of the capitals.
const (
	atStart  = 0
	atMiddle = 0.5
	atEnd    = 1
)

// draw writes one line of text at a point.
func (l lettering) draw(c vg.Canvas, at vg.Point, across, up float64, s string) {
	c.SetColor(l.color)
	c.FillString(l.face, l.origin(at, across, up, s), s)
}

// drawClear writes one line of text with a rim of paper, so that it can be read on top of lines.
func (l lettering) drawClear(c vg.Canvas, at vg.Point, across, up float64, s string) {
	c.SetColor(Paper)
	c.SetLineDash(nil, 0)
	c.SetLineWidth(0.36 * l.face.Font.Size)
	c.Stroke(outline(l.face, l.origin(at, across, up, s), s))
	l.draw(c, at, across, up, s)
}

// origin returns where the base line of a text begins.
func (l lettering) origin(at vg.Point, across, up float64, s string) vg.Point {
	return vg.Point{
		X: at.X - vg.Length(across)*l.width(s),
		Y: at.Y - vg.Length(up)*capHeight*l.face.Font.Size,
	}
}

// wrap breaks a text into lines no wider than width, at spaces where it can and inside words where it must.
func (l lettering) wrap(s string, width vg.Length) []string {
	var lines []string
	line := ""
	for _, word := range words(s) {
		for word != "" {
			joined := strings.TrimSpace(line + " " + word)
			if l.width(joined) <= width {
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
var units = []string{"%", "deg²", "rev/min", "rad/s²", "Hz", "ω²"}

// fitting returns the longest beginning of a word that is no wider than width, at least one character.
func (l lettering) fitting(word string, width vg.Length) string {
	end := 0
	for i, r := range word {
		next := i + utf8.RuneLen(r)
		if end > 0 && l.width(word[:next]) > width {
			break
		}
		end = next
	}
	return word[:end]
}

// clean makes a text from outside fit for every format: valid UTF-8, one line, no control characters, which an SVG
// file may not hold.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\uFFFE' || r == '\uFFFF' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

// brief shortens a name to n characters.
func brief(name string, n int) string {
	name = clean(name)
	r := []rune(name)
	if len(r) <= n {
		return name
	}
	return strings.TrimRight(string(r[:n-1]), " ,.-") + "…"
}

// upperFirst makes a text that starts with a small ASCII letter start a sentence.
func upperFirst(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

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
