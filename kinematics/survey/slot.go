package survey

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A slot is a value of the file and the variable of a Survey that holds it. The
// tables of format.go are made of slots; reading, checking and writing walk them.
type slot interface {
	// want says in words what the file must hold here.
	want() string
	// read takes the value of n, which stands at path, and reports what is wrong
	// inside it. It returns false when n is something else than wanted.
	read(a *audit, path string, n *node) bool
	// blank reports whether a file may leave the value out.
	blank() bool
	// check reports what is wrong with the value by itself.
	check(a *audit, path string)
	// node returns what read would take.
	node() *node
}

// A rule says which numbers a field may have.
type rule struct {
	holds func(v float64) bool // false for NaN
	unit  string               // "" for a plain number
	want  string
}

// above holds over (low, high], within over [low, high], between over (low, high).
func above(low, high float64) func(float64) bool {
	return func(v float64) bool { return low < v && v <= high }
}

func within(low, high float64) func(float64) bool {
	return func(v float64) bool { return low <= v && v <= high }
}

func between(low, high float64) func(float64) bool {
	return func(v float64) bool { return low < v && v < high }
}

func (r rule) check(a *audit, path string, v float64) {
	if !r.holds(v) {
		a.report(path, quantity(v, r.unit), r.want)
	}
}

// number is a JSON number.
type number struct {
	dst  *float64
	rule rule
}

func (s number) want() string { return "a number" }
func (s number) blank() bool  { return *s.dst == 0 }
func (s number) node() *node  { return numberOf(*s.dst) }

func (s number) read(a *audit, path string, n *node) bool {
	if n.kind != numberNode {
		return false
	}
	v, err := strconv.ParseFloat(n.text, 64)
	if err != nil { // too large: every JSON number is a Go number
		a.report(path, n.String(), s.rule.want)
	}
	*s.dst = v
	return true
}

func (s number) check(a *audit, path string) { s.rule.check(a, path, *s.dst) }

// readings is one number or a list of repeated readings.
type readings struct {
	dst  *Readings
	rule rule
}

const maxReadings = 100

func (s readings) want() string { return "a number or a list of readings" }
func (s readings) blank() bool  { return *s.dst == nil }

func (s readings) read(a *audit, path string, n *node) bool {
	switch n.kind {
	case numberNode:
		*s.dst = make(Readings, 1)
		return number{&(*s.dst)[0], s.rule}.read(a, path, n)
	case listNode:
		return s.list().read(a, path, n)
	}
	return false
}

func (s readings) check(a *audit, path string) {
	if len(*s.dst) == 1 && !a.given(element(path, 0)) {
		s.rule.check(a, path, (*s.dst)[0])
		return
	}
	s.list().check(a, path)
}

func (s readings) node() *node {
	if len(*s.dst) == 1 {
		return numberOf((*s.dst)[0])
	}
	return s.list().node()
}

func (s readings) list() list[float64] {
	return list[float64]{(*[]float64)(s.dst), 1, maxReadings, func(_ int, v *float64) slot {
		return number{v, s.rule}
	}}
}

// text is a JSON string in one line.
type text struct {
	dst     *string
	implied string // what leaving it out means
}

func (s text) want() string { return "a text in double quotes" }
func (s text) blank() bool  { return *s.dst == "" || *s.dst == s.implied }
func (s text) node() *node  { return textOf(*s.dst) }

func (s text) read(a *audit, path string, n *node) bool {
	if n.kind != textNode {
		return false
	}
	*s.dst = n.text
	s.check(a, path) // here, where "" does not yet stand for what it implies
	return true
}

func (s text) check(a *audit, path string) {
	const longest = 100 // characters; a heading or a column has no room for more
	switch {
	case strings.TrimSpace(*s.dst) == "":
		a.report(path, quoted(*s.dst), "a text that is not blank")
	case !plain(*s.dst):
		a.report(path, quoted(*s.dst), "a text without line ends, tabs and other control characters")
	case utf8.RuneCountInString(*s.dst) > longest:
		a.report(path, quoted(*s.dst), fmt.Sprintf("a text of at most %d characters", longest))
	}
}

// note is any text, of several lines if need be.
type note struct{ text }

func (s note) read(_ *audit, _ string, n *node) bool {
	*s.dst = n.text
	return n.kind == textNode
}

func (s note) check(a *audit, path string) {
	if !plain(strings.NewReplacer("\n", "", "\t", "").Replace(*s.dst)) {
		a.report(path, quoted(*s.dst), "a text without control characters other than line ends and tabs")
	}
}

// dropped is a note of which the Survey keeps nothing.
type dropped struct{ note }

func (s dropped) check(*audit, string) {}

// plain reports whether a terminal, a page and a file can take s as it is: without
// control characters, and without those that turn the direction of all that
// follows (Bidi_Control of the embedding, override and isolate kinds).
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
func (s choice[T]) node() *node  { return textOf(string(*s.dst)) }

func (s choice[T]) read(a *audit, path string, n *node) bool {
	if n.kind != textNode {
		return false
	}
	*s.dst = T(n.text)
	s.check(a, path) // as for text
	return true
}

func (s choice[T]) check(a *audit, path string) {
	if !slices.Contains(s.among, *s.dst) {
		a.report(path, quoted(string(*s.dst)), s.want())
	}
}

// limit is one entry of Limits: a number, or null to switch the limit off.
type limit struct {
	limits *Limits
	name   string
}

func (s limit) want() string { return "a number, or null to switch the limit off" }

func (s limit) blank() bool {
	_, set := s.limits.Values[s.name]
	return !set && !slices.Contains(s.limits.Off, s.name)
}

func (s limit) read(a *audit, path string, n *node) bool {
	if n.kind == literalNode && n.text == "null" {
		s.limits.Off = append(s.limits.Off, s.name)
		return true
	}
	var v float64
	if !(number{&v, limitRule}).read(a, path, n) {
		return false
	}
	if s.limits.Values == nil {
		s.limits.Values = make(map[string]float64)
	}
	s.limits.Values[s.name] = v
	return true
}

func (s limit) check(a *audit, path string) {
	v, set := s.limits.Values[s.name]
	switch off := slices.Contains(s.limits.Off, s.name); {
	case set && off:
		a.report(path, "both a value and off", "one of the two")
	case set:
		limitRule.check(a, path, v)
	}
}

func (s limit) node() *node {
	if v, set := s.limits.Values[s.name]; set {
		return numberOf(v)
	}
	return &node{kind: literalNode, text: "null"}
}

// maybe is a number that may be left out where 0 is a value.
type maybe struct {
	dst  **float64
	rule rule
}

func (s maybe) want() string { return number{}.want() }
func (s maybe) blank() bool  { return *s.dst == nil }
func (s maybe) node() *node  { return numberOf(**s.dst) }

func (s maybe) read(a *audit, path string, n *node) bool {
	*s.dst = new(float64)
	return number{*s.dst, s.rule}.read(a, path, n)
}

func (s maybe) check(a *audit, path string) { s.rule.check(a, path, **s.dst) }

// method is readings by one of several methods, of which a file gives one.
type method struct {
	by   Method
	dst  *Method
	vals readings
}

func (s method) want() string {
	if s.by == ByTurned {
		return "a list of two readings"
	}
	return s.vals.want()
}
func (s method) blank() bool { return *s.dst != s.by }
func (s method) node() *node { return s.vals.node() }

func (s method) read(a *audit, path string, n *node) bool {
	if s.by == ByTurned && n.kind != listNode {
		return false
	}
	if *s.dst != "" {
		a.report(path, "given beside "+string(*s.dst), fmt.Sprintf("%s or %s, never both", *s.dst, s.by))
		return true
	}
	*s.dst = s.by
	return s.vals.read(a, path, n)
}

func (s method) check(a *audit, path string) {
	if s.by == ByTurned && len(*s.vals.dst) != 2 {
		a.report(path, counted(len(*s.vals.dst), "reading", "readings"), "2, the second with the gauge turned end for end")
		return
	}
	if *s.dst == s.by {
		s.vals.check(a, path)
	}
}

// names is one name or a list of them.
type names struct{ dst *[]string }

func (s names) want() string { return "a name or a list of names" }
func (s names) blank() bool  { return len(*s.dst) == 0 }
func (s names) node() *node {
	if len(*s.dst) == 1 {
		return textOf((*s.dst)[0])
	}
	return s.list().node()
}

func (s names) read(a *audit, path string, n *node) bool {
	switch n.kind {
	case textNode:
		*s.dst = make([]string, 1)
		return text{&(*s.dst)[0], ""}.read(a, path, n)
	case listNode:
		return s.list().read(a, path, n)
	}
	return false
}

func (s names) check(a *audit, path string) {
	if len(*s.dst) == 1 && !a.given(element(path, 0)) {
		text{&(*s.dst)[0], ""}.check(a, path)
		return
	}
	s.list().check(a, path)
}

func (s names) list() list[string] {
	return list[string]{s.dst, 1, maxShafts - 2, func(_ int, v *string) slot { return text{v, ""} }}
}
