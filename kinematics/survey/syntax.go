package survey

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"unicode"
	"unicode/utf8"
)

// checkSyntax says where and in plain words why src is not well-formed JSON; it
// returns nil when it is.
func checkSyntax(src []byte) *Fault {
	// The line end tells a text that stops too early, at offset len(src), from
	// one that is wrong in its last character.
	var whole json.RawMessage
	err := json.Unmarshal(append(slices.Clip(src), '\n'), &whole)
	if err == nil {
		return nil
	}
	var syntax *json.SyntaxError
	if !errors.As(err, &syntax) {
		return &Fault{Value: err.Error(), Want: "a JSON object"}
	}
	offset := int(syntax.Offset) - 1
	c := cursor{src: src, at: place{1, 1}}
	at := c.to(offset)
	value, want := describe(src, offset)
	return &Fault{Line: at.line, Column: at.column, Value: value, Want: want}
}

// describe names what stands at offset, where the JSON stops making sense, and
// what was wanted there, with the usual slips of a hand-written file in mind.
func describe(src []byte, offset int) (value, want string) {
	before := bytes.TrimRightFunc(src[:offset], unicode.IsSpace)
	if offset == len(src) {
		if len(before) == 0 {
			return "empty file", "a driveline: { … }"
		}
		return "unexpected end of file", "the rest: a quote, bracket or brace is still open"
	}
	r, _ := utf8.DecodeRune(src[offset:])
	value = fmt.Sprintf("unexpected %q", r)
	var last byte
	if len(before) > 0 {
		last = before[len(before)-1]
	}
	switch {
	case json.Valid(before):
		want = "nothing more after the end of the driveline"
	case r == '\'' || r == '‘' || r == '’' || r == '“' || r == '”' || r == '„':
		want = `straight double quotes: "`
	case r == '/' || r == '#':
		want = `no comments, only the field "note"`
	case r < ' ':
		want = "no line end or tab inside a text: close it with a double quote"
	case shortEscape.Match(src[:offset]):
		want = `four hexadecimal digits behind \u`
	case last == ',' && (r == '}' || r == ']' || r == ','):
		want = "one more entry behind the comma, or no comma"
	case last == ',' && isDigit(r) && len(before) > 1 && isDigit(rune(before[len(before)-2])):
		want = "a decimal point instead of the comma, as in 6.1"
	case r == '+' || r == '.' || last == '.' || last == '-' || last == '0' && isDigit(r):
		want = "a number such as 6.1, -0.5 or 12"
	case !bytes.ContainsAny(before, "{["):
		want = "a driveline: { … }"
	case last == '\\':
		want = `\\ for a backslash in a text`
	case last == '{' || last == ',' && !inList(before):
		want = "the name of a field in double quotes"
	case last == ':' || last == '[' || last == ',':
		want = `a number, a "text", a list [ … ] or an object { … }`
		if r == '[' || r == '{' { // which is one of these, but one too many
			want = "less deeply nested lists and objects"
		}
	default:
		want = "a comma between two entries, a colon behind a field's name or a closing bracket"
	}
	return value, want
}

// inList reports whether the innermost bracket open at the end of src is that of
// a list.
func inList(src []byte) bool {
	var open []json.Delim
	decoder := json.NewDecoder(bytes.NewReader(src))
	for {
		token, err := decoder.Token()
		if err != nil {
			return len(open) > 0 && open[len(open)-1] == '['
		}
		switch token {
		case json.Delim('{'), json.Delim('['):
			open = append(open, token.(json.Delim))
		case json.Delim('}'), json.Delim(']'):
			open = open[:len(open)-1]
		}
	}
}

var shortEscape = regexp.MustCompile(`\\u[0-9A-Fa-f]{0,3}$`)

func isDigit(r rune) bool { return '0' <= r && r <= '9' }
