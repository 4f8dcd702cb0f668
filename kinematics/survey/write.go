package survey

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// Write writes the driveline as a file that Read reads back unchanged: the fields
// in a fixed order, what goes without saying left out, numbers as short as they
// can be, a shaft or a joint on one line. It writes nothing and returns what
// Validate returns when the Survey is not valid.
func (s *Survey) Write(w io.Writer) error {
	if err := s.Validate(); err != nil {
		return err
	}
	var b bytes.Buffer
	printNode(&b, s.Complete().format().node(), "", true)
	b.WriteByte('\n')
	_, err := w.Write(b.Bytes())
	return err
}

// lineWidth up to which an object or list is kept on one line.
const lineWidth = 100

// printNode prints n at the given indent: on one line where it fits and is not
// wanted broken, else each of its items on a line of its own.
func printNode(b *bytes.Buffer, n *node, indent string, broken bool) {
	open, end := brackets(n.kind)
	line := oneLine(n)
	if open == "" || !broken && utf8.RuneCountInString(indent+line) <= lineWidth {
		b.WriteString(line)
		return
	}
	b.WriteString(open)
	deeper := indent + "  "
	for i, it := range n.items {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString("\n" + deeper + label(it))
		printNode(b, it.value, deeper, false)
	}
	b.WriteString("\n" + indent + end)
}

func oneLine(n *node) string {
	switch n.kind {
	case textNode:
		return quoteJSON(n.text)
	case numberNode, literalNode:
		return n.text
	}
	parts := make([]string, len(n.items))
	for i, it := range n.items {
		parts[i] = label(it) + oneLine(it.value)
	}
	open, end := brackets(n.kind)
	return open + strings.Join(parts, ", ") + end
}

func brackets(k kind) (open, end string) {
	switch k {
	case objectNode:
		return "{", "}"
	case listNode:
		return "[", "]"
	}
	return "", ""
}

func label(it item) string {
	if it.key == "" {
		return ""
	}
	return quoteJSON(it.key) + ": "
}

func quoteJSON(s string) string {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false) // "<" and "&" are for people to read
	if err := e.Encode(s); err != nil {
		panic(fmt.Sprintf("survey: a text is always JSON: %v", err))
	}
	return strings.TrimSuffix(b.String(), "\n")
}
