package survey

import (
	"fmt"
	"slices"
	"strconv"
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
		c.report(path, quantity(v, b.unit), b.wantOf(v))
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

// limitSet is the object of Limits, which people take for the name of a set.
type limitSet struct{ object }

func (s limitSet) want() string { return fmt.Sprintf(`an object such as {"set": %q}`, SetNames[0]) }
