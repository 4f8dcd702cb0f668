package survey

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// text is a JSON string in one line.
type text struct {
	dst     *string
	implied string // what leaving it out means
}

// maxText is in characters; a heading or a column has no room for more.
const maxText = 100

func (s text) want() string { return "a text in double quotes" }
func (s text) blank() bool  { return *s.dst == "" || *s.dst == s.implied }
func (s text) node() *node  { return jsonValue(*s.dst) }

func (s text) schema() *node {
	no := `\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069`
	return jsonObject("type", "string", "maxLength", maxText,
		"pattern", "^[^"+no+"]*[^\\s"+no+"][^"+no+"]*$")
}

func (s text) read(c *collector, path string, n *node) bool {
	if n.kind != textNode {
		return false
	}
	*s.dst = n.text
	switch {
	case strings.TrimSpace(n.text) == "":
		c.report(path, quoted(n.text), "a text that is not blank")
	case !plain(n.text):
		c.report(path, quoted(n.text), "a text without line ends, tabs and other control characters")
	case utf8.RuneCountInString(n.text) > maxText:
		c.report(path, quoted(n.text), fmt.Sprintf("a text of at most %d characters", maxText))
	}
	return true
}

// note is any text, of several lines if need be.
type note struct{ dst *string }

func (s note) want() string  { return text{}.want() }
func (s note) blank() bool   { return *s.dst == "" }
func (s note) node() *node   { return jsonValue(*s.dst) }
func (s note) schema() *node { return jsonObject("type", "string") }

func (s note) read(c *collector, path string, n *node) bool {
	*s.dst = n.text
	if !plain(strings.NewReplacer("\n", "", "\t", "").Replace(n.text)) {
		c.report(path, quoted(n.text), "a text without control characters other than line ends and tabs")
	}
	return n.kind == textNode
}

// comment is a note of which the Survey keeps nothing.
type comment struct{ note }

func (s comment) read(_ *collector, _ string, n *node) bool { return n.kind == textNode }

// choice is a JSON string out of a list.
type choice[T ~string] struct {
	dst     *T
	implied T // what leaving it out means
	among   []T
}

func (s choice[T]) want() string { return oneOf(s.among) }
func (s choice[T]) blank() bool  { return *s.dst == "" || *s.dst == s.implied }
func (s choice[T]) node() *node  { return jsonValue(string(*s.dst)) }

func (s choice[T]) schema() *node {
	var words []string
	for _, w := range s.among {
		words = append(words, string(w))
	}
	n := jsonObject("enum", jsonList(words...))
	if s.implied != "" {
		n.add("default", string(s.implied))
	}
	return n
}

func (s choice[T]) read(c *collector, path string, n *node) bool {
	if n.kind != textNode {
		return false
	}
	if !slices.Contains(s.among, T(n.text)) {
		c.report(path, quoted(n.text), s.want())
		return true
	}
	*s.dst = T(n.text)
	return true
}

// tyreSize is the size of a tyre as it stands on its side.
type tyreSize struct{ text }

func (s tyreSize) schema() *node {
	return jsonObject("type", "string", "pattern", tyrePattern.String())
}

func (s tyreSize) read(c *collector, path string, n *node) bool {
	if n.kind != textNode {
		return false
	}
	*s.dst = n.text
	if _, ok := TyreDiameter(n.text); !ok {
		c.report(path, quoted(n.text), `a size such as "235/60R16" or "31x10.5R15"; of another tyre, tyre_diameter or rolling_radius instead`)
	}
	return true
}

// plain reports whether a terminal, a page and a file can take s as it is: without
// control characters, and without those that turn the direction of all that
// follows (the embeddings, overrides and isolates of Unicode).
func plain(s string) bool {
	return utf8.ValidString(s) && !strings.ContainsFunc(s, func(r rune) bool {
		return unicode.IsControl(r) || '\u202a' <= r && r <= '\u202e' || '\u2066' <= r && r <= '\u2069'
	})
}
