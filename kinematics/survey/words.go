package survey

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// How error messages show what was found. All of it may come from a file, be of
// any length and hold any character.

// quantity prints a number and its unit.
func quantity(v float64, unit string) string {
	return strings.TrimSpace(fmt.Sprintf("%.10g %s", v, unit))
}

// counted prints a number of things.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// quoted prints a text.
func quoted(s string) string { return strconv.Quote(clipped(s)) }

// clipped shortens a text to what fits into a message.
func clipped(s string) string {
	const longest = 40
	if r := []rune(s); len(r) > longest {
		return string(r[:longest]) + "…"
	}
	return s
}

// pathKey prints a name from a file as a part of a path.
func pathKey(key string) string {
	if plainKey.MatchString(key) {
		return key
	}
	return quoted(key)
}

var plainKey = regexp.MustCompile(`^[\w$-]{1,40}$`)

// oneOf lists what a field may be.
func oneOf[T ~string](among []T) string {
	if len(among) == 1 {
		return listed(among)
	}
	return "one of " + listed(among)
}

// listed prints names.
func listed[T ~string](names []T) string {
	words := make([]string, len(names))
	for i, name := range names {
		words[i] = quoted(string(name))
	}
	return strings.Join(words, ", ")
}
