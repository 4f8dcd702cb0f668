package page

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// leftward matches a run of text from right to left: letters of the scripts in use that
// run so, with the blanks between them. Numbers beside a name are no part of it.
var leftward = func() *regexp.Regexp {
	const letters = `[\p{Arabic}\p{Hebrew}\p{Syriac}\p{Thaana}\p{Nko}\p{Adlam}]+`
	return regexp.MustCompile(letters + `(?: +` + letters + `)*`)
}()

// isolated returns a text for a program that sets it by the Unicode Bidirectional
// Algorithm. Each run from right to left stands between a first strong isolate and a pop
// directional isolate (Unicode Standard Annex 9), without which it would draw the numbers
// after it to its left.
func isolated(s string) string { return leftward.ReplaceAllString(s, "\u2068$0\u2069") }

// inOrder returns the characters of a text as they are to be drawn from left to right:
// runs from right to left reversed, but for marks, which follow their letter, and without
// the characters that only tell how others are to be set. Letters that change their form
// beside others, as Arabic ones do, are beyond the font.
func inOrder(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, s)
	return leftward.ReplaceAllStringFunc(s, func(run string) string {
		chars := []rune(run)
		for from := 0; from < len(chars); { // marks and their letter change places first
			end := from + 1
			for end < len(chars) && unicode.Is(unicode.Mn, chars[end]) {
				end++
			}
			slices.Reverse(chars[from:end])
			from = end
		}
		slices.Reverse(chars)
		return string(chars)
	})
}
