package survey

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A node is one JSON value and the place where it begins.
type node struct {
	kind  kind
	text  string // the characters of a string; a number or literal as written
	items []item // members of an object or elements of a list, in order
	at    place
}

type kind int

const (
	objectNode  kind = iota
	listNode         // of any values
	textNode         // a JSON string
	numberNode       // any JSON number, also one too large for a float64
	literalNode      // true, false, null
)

// An item is a member of an object or, without a key, an element of a list.
type item struct {
	key   string
	keyAt place
	value *node
}

// jsonObject returns an object of the given keys and values in turn; a value is a
// string, a bool, an int, a float64 or a *node.
func jsonObject(pairs ...any) *node {
	n := &node{kind: objectNode}
	for i := 0; i < len(pairs); i += 2 {
		n.add(pairs[i].(string), pairs[i+1])
	}
	return n
}

// add appends a member to an object.
func (n *node) add(key string, value any) {
	n.items = append(n.items, item{key: key, value: jsonValue(value)})
}

func jsonValue(value any) *node {
	switch v := value.(type) {
	case *node:
		return v
	case string:
		return &node{kind: textNode, text: v}
	case float64:
		return &node{kind: numberNode, text: shortest(v)}
	case int, bool:
		return &node{kind: literalNode, text: fmt.Sprint(v)}
	}
	panic(fmt.Sprintf("survey: %T in JSON", value))
}

// jsonList returns a list of values such as jsonObject takes.
func jsonList[T any](values ...T) *node {
	n := &node{kind: listNode}
	for _, v := range values {
		n.items = append(n.items, item{value: jsonValue(v)})
	}
	return n
}

// shortest returns the shortest JSON number that reads back as v; of NaN and the
// infinities, which are no JSON, what strconv reads back.
func shortest(v float64) string {
	digits, err := json.Marshal(v)
	if err != nil {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	return string(digits)
}

// place is a position in a file; lines and columns count from 1, a column is
// one character.
type place struct{ line, column int }

// maxDepth of nested values; a driveline needs six.
const maxDepth = 16

// parse returns the one JSON value in src, which must be valid UTF-8. Members
// with the same name are all kept. The fault has no file name yet.
func parse(src []byte) (*node, *Fault) {
	if fault := checkSyntax(src); fault != nil {
		return nil, fault
	}
	p := &parser{
		decoder: json.NewDecoder(bytes.NewReader(src)),
		cursor:  cursor{src: src, at: place{1, 1}},
	}
	p.decoder.UseNumber()
	return p.value(1)
}

// parser builds nodes out of the tokens of a text known to be well-formed JSON.
type parser struct {
	decoder *json.Decoder
	cursor  cursor
}

func (p *parser) value(depth int) (*node, *Fault) {
	n := &node{at: p.start()}
	if depth > maxDepth {
		return nil, &Fault{
			Line: n.at.line, Column: n.at.column,
			Value: fmt.Sprintf("nested %d deep", depth),
			Want:  fmt.Sprintf("at most %d", maxDepth),
		}
	}
	switch token := p.token().(type) {
	case json.Delim:
		n.kind = listNode
		if token == '{' {
			n.kind = objectNode
		}
		for p.decoder.More() {
			it, fault := p.item(n.kind, depth)
			if fault != nil {
				return nil, fault
			}
			n.items = append(n.items, it)
		}
		p.token() // the closing bracket
	case string:
		n.kind, n.text = textNode, token
	case json.Number:
		n.kind, n.text = numberNode, token.String()
	case bool:
		n.kind, n.text = literalNode, fmt.Sprint(token)
	case nil:
		n.kind, n.text = literalNode, "null"
	}
	return n, nil
}

func (p *parser) item(in kind, depth int) (item, *Fault) {
	var it item
	if in == objectNode {
		it.keyAt = p.start()
		it.key = p.token().(string)
	}
	var fault *Fault
	it.value, fault = p.value(depth + 1)
	return it, fault
}

// token returns the next token. The text is well-formed, so there is one.
func (p *parser) token() json.Token {
	token, err := p.decoder.Token()
	if err != nil {
		panic(fmt.Sprintf("survey: token in well-formed JSON: %v", err))
	}
	return token
}

// start returns where the next token begins: behind what separates it from the
// token before.
func (p *parser) start() place {
	offset := int(p.decoder.InputOffset())
	for strings.IndexByte(" \t\r\n,:", p.cursor.src[offset]) >= 0 {
		offset++
	}
	return p.cursor.to(offset)
}

// cursor counts lines and columns on its way through a text, in one pass.
type cursor struct {
	src    []byte
	offset int
	at     place
}

// to returns the place at offset, which must not lie before the last one.
func (c *cursor) to(offset int) place {
	for c.offset < offset {
		r, size := utf8.DecodeRune(c.src[c.offset:])
		c.offset += size
		if r == '\n' {
			c.at = place{c.at.line + 1, 1}
		} else {
			c.at.column++
		}
	}
	return c.at
}

// String shows a value within an error message.
func (n *node) String() string {
	switch n.kind {
	case objectNode:
		return "an object"
	case listNode:
		return "a list"
	case textNode:
		return quoted(n.text)
	}
	return clipped(n.text)
}
