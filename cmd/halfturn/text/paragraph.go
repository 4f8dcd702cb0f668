package text

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Width is how wide the lines of text output may be, in characters.
const Width = 80

// Wrap returns a lead and behind it a text, in lines that fit Width; what does not
// fit the first line stands below the text, not below the lead.
func Wrap(lead, text string) string {
	indent := utf8.RuneCountInString(lead)
	column := indent
	var b strings.Builder
	b.WriteString(lead)
	for i, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case column+1+n > Width:
			b.WriteString("\n" + strings.Repeat(" ", indent))
			column = indent
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += n
	}
	return b.String() + "\n"
}

// Brief shortens a name to at most n characters.
func Brief(name string, n int) string {
	r := []rune(name)
	if len(r) <= n {
		return name
	}
	return string(r[:n-1]) + "…"
}

// Count words a number of things, such as "1 joint" and "2 joints".
func Count[N int | int64](n N, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return fmt.Sprintf("%d %s", n, thing)
}

// Minus returns a number with the sign that a reader knows instead of a hyphen. What is
// typed or read by programs keeps the hyphen.
func Minus(number string) string {
	if rest, negative := strings.CutPrefix(number, "-"); negative {
		return "−" + rest
	}
	return number
}

// Sentence makes a sentence of a clause that starts with an ASCII letter.
func Sentence(clause string) string { return strings.ToUpper(clause[:1]) + clause[1:] + "." }
