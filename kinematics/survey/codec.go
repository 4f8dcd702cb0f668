package survey

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A codec is a value of the file and the variable of a Survey that holds it. The
// table in format.go is made of codecs; reading, checking, writing and the schema
// walk it.
type codec interface {
	// want says in words what the file must hold here.
	want() string
	// read takes the value of n, which stands at path, and reports what is wrong
	// with it. It returns false where n is something else than wanted.
	read(c *collector, path string, n *node) bool
	// blank reports whether a file may leave the value out.
	blank() bool
	// node returns what read would take, nil where there is nothing at all.
	node() *node
	// schema returns the JSON Schema of what read takes.
	schema() *node
}

// bounds say which numbers a field may have.
type bounds struct {
	what      string // such as "a slope"
	low, high float64
	aboveLow  bool // low itself is out
	belowHigh bool // high itself is out
	unit      string
}

// A rule gives the bounds of a number when they are asked for: some depend on what
// stands before it in the file, such as the unit of lengths.
type rule func() bounds

// above is over (low, high], within over [low, high], between over (low, high).

func above(low, high float64, what, unit string) rule {
	return func() bounds { return bounds{what, low, high, true, false, unit} }
}

func within(low, high float64, what, unit string) rule {
	return func() bounds { return bounds{what, low, high, false, false, unit} }
}

func between(low, high float64, what, unit string) rule {
	return func() bounds { return bounds{what, low, high, true, true, unit} }
}

func (b bounds) want() string {
	low, high := strconv.FormatFloat(b.low, 'f', -1, 64), strconv.FormatFloat(b.high, 'f', -1, 64)
	format := "%s from %s to %s %s"
	switch {
	case b.belowHigh:
		format = "%s between %s and %s %s"
	case b.aboveLow:
		format = "%s above %s and at most %s %s"
	}
	return strings.TrimSpace(fmt.Sprintf(format, b.what, low, high, b.unit))
}

// hold reports whether v lies within the bounds; NaN does not.
func (b bounds) hold(v float64) bool {
	return (b.low < v || b.low == v && !b.aboveLow) && (v < b.high || v == b.high && !b.belowHigh)
}

func (b bounds) schema(types any) *node {
	low, high := "minimum", "maximum"
	if b.aboveLow {
		low = "exclusiveMinimum"
	}
	if b.belowHigh {
		high = "exclusiveMaximum"
	}
	return jsonObject("type", types, low, b.low, high, b.high)
}

// number is a JSON number; in a Survey 0 is not given.
type number struct {
	dst  *float64
	rule rule
}

func (s number) want() string  { return "a number" }
func (s number) blank() bool   { return *s.dst == 0 }
func (s number) node() *node   { return jsonValue(*s.dst) }
func (s number) schema() *node { return s.rule().schema("number") }

func (s number) read(c *collector, path string, n *node) bool {
	if n.kind != numberNode {
		return false
	}
	v, err := strconv.ParseFloat(n.text, 64)
	switch b := s.rule(); {
	case err != nil: // too large: every JSON number is a Go number
		c.report(path, n.String(), b.want())
	case !b.hold(v):
		c.report(path, quantity(v, b.unit), b.want())
	}
	*s.dst = v
	return true
}

// entered is a number of which 0 is a value like others; nil is not given.
type entered struct {
	dst  **float64
	rule rule
}

func (s entered) want() string  { return number{}.want() }
func (s entered) blank() bool   { return *s.dst == nil }
func (s entered) schema() *node { return s.rule().schema("number") }

func (s entered) node() *node {
	if *s.dst == nil {
		return nil
	}
	return jsonValue(**s.dst)
}

func (s entered) read(c *collector, path string, n *node) bool {
	*s.dst = new(float64)
	return number{*s.dst, s.rule}.read(c, path, n)
}

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

// plain reports whether a terminal, a page and a file can take s as it is: without
// control characters, and without those that turn the direction of all that
// follows (the embeddings, overrides and isolates of Unicode).
func plain(s string) bool {
	return utf8.ValidString(s) && !strings.ContainsFunc(s, func(r rune) bool {
		return unicode.IsControl(r) || '\u202a' <= r && r <= '\u202e' || '\u2066' <= r && r <= '\u2069'
	})
}

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

// limit is one entry of Limits: a number, or null to switch the limit off.
type limit struct {
	limits *Limits
	name   string
}

var limitRule = above(0, 1e9, "a limit", "")

func (s limit) want() string  { return "a number, or null to switch the limit off" }
func (s limit) schema() *node { return limitRule().schema(jsonList("number", "null")) }

func (s limit) blank() bool {
	_, set := s.limits.Values[s.name]
	return !set && !slices.Contains(s.limits.Off, s.name)
}

func (s limit) node() *node {
	if v, set := s.limits.Values[s.name]; set {
		return jsonValue(v)
	}
	return &node{kind: literalNode, text: "null"}
}

func (s limit) read(c *collector, path string, n *node) bool {
	if n.kind == literalNode && n.text == "null" {
		s.limits.Off = append(s.limits.Off, s.name)
		return true
	}
	var v float64
	if !(number{&v, limitRule}).read(c, path, n) {
		return false
	}
	if s.limits.Values == nil {
		s.limits.Values = make(map[string]float64)
	}
	s.limits.Values[s.name] = v
	return true
}

// measured is a quantity by one of several methods, of which a file gives one.
type measured struct {
	by  Method
	dst *Method // of the quantity
	codec
}

func (s measured) blank() bool { return *s.dst != s.by || s.codec.blank() }

func (s measured) read(c *collector, path string, n *node) bool {
	*s.dst = s.by
	return s.codec.read(c, path, n)
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
		c.report(path, quoted(n.text), `a size such as "235/60R16"`)
	}
	return true
}

// limitSet is the object of Limits, which people take for the name of a set.
type limitSet struct{ object }

func (s limitSet) want() string { return fmt.Sprintf(`an object such as {"set": %q}`, SetNames[0]) }

// comment is a note of which the Survey keeps nothing.
type comment struct{ note }

func (s comment) read(_ *collector, _ string, n *node) bool { return n.kind == textNode }
