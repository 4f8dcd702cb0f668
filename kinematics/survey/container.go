package survey

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// object is a JSON object with a fixed set of fields.
type object []field

// A field is one row of the table.
type field struct {
	key      string
	codec    codec
	doc      string   // for the schema
	required bool     // must stand in the file; of a choice, one of them
	choice   []string // keys of which a file gives one at most; nil: no choice
}

func must(key string, of codec, doc string) field {
	return field{key: key, codec: of, doc: doc, required: true}
}

func may(key string, of codec, doc string) field {
	return field{key: key, codec: of, doc: doc}
}

// oneOfThese makes a choice of fields that exclude each other.
func oneOfThese(fields ...field) object {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	for i := range fields {
		fields[i].choice = keys
	}
	return fields
}

func (o object) want() string { return "an object { … }" }

func (o object) blank() bool {
	return !slices.ContainsFunc(o, func(f field) bool { return f.required || !f.codec.blank() })
}

func (o object) node() *node {
	n := &node{kind: objectNode}
	for _, f := range o {
		value := f.codec.node()
		if value != nil && (f.required && f.choice == nil || !f.codec.blank()) {
			n.add(f.key, value)
		}
	}
	return n
}

func (o object) schema() *node {
	var required []string
	var exclusive, oneRequired []*node
	properties := jsonObject()
	for i, f := range o {
		value := f.codec.schema()
		value.add("description", f.doc)
		properties.add(f.key, value)
		switch {
		case f.choice == nil && f.required:
			required = append(required, f.key)
		case f.required:
			oneRequired = append(oneRequired, jsonObject("required", jsonList(f.key)))
		case f.choice != nil:
			for _, g := range o[:i] {
				if slices.Equal(g.choice, f.choice) {
					exclusive = append(exclusive, jsonObject("required", jsonList(g.key, f.key)))
				}
			}
		}
	}
	n := jsonObject("type", "object", "additionalProperties", false)
	if required != nil {
		n.add("required", jsonList(required...))
	}
	if oneRequired != nil {
		n.add("oneOf", jsonList(oneRequired...))
	}
	if exclusive != nil {
		n.add("not", jsonObject("anyOf", jsonList(exclusive...)))
	}
	n.add("properties", properties)
	return n
}

func (o object) read(c *collector, path string, n *node) bool {
	if n.kind != objectNode {
		return false
	}
	members := o.members(c, path, n)
	for _, f := range o {
		at := member(path, f.key)
		value, given := members[f.key]
		rivals := slices.DeleteFunc(slices.Clone(f.choice), func(key string) bool { return members[key] == nil })
		switch {
		case given && len(rivals) > 1 && rivals[0] != f.key:
			c.reportAt(value.at, at, "given beside "+rivals[0], "only one of "+strings.Join(f.choice, ", "))
		case given:
			readInto(f.codec, c, at, value)
		case f.required && f.choice == nil:
			c.report(at, "missing", f.codec.want())
		case f.required && len(rivals) == 0:
			c.report(path, "none of "+strings.Join(f.choice, ", "), "one of them")
		}
	}
	return true
}

// members returns the values of the known fields of n by name.
func (o object) members(c *collector, path string, n *node) map[string]*node {
	known := make([]string, len(o))
	for i, f := range o {
		known[i] = f.key
	}
	members := make(map[string]*node)
	for _, it := range n.items {
		switch first := members[it.key]; {
		case !slices.Contains(known, it.key):
			c.reportAt(it.keyAt, member(path, pathKey(it.key)), "unknown field", suggestion(it.key, known))
		case first != nil:
			c.reportAt(it.keyAt, member(path, it.key), "given twice",
				fmt.Sprintf("it once, as on line %d", first.at.line))
		default:
			members[it.key] = it.value
		}
	}
	return members
}

// optional is an object that a file may leave out; *dst is nil then.
type optional[T any] struct {
	dst    **T
	fields func(*T) object
}

func (s optional[T]) want() string  { return object{}.want() }
func (s optional[T]) blank() bool   { return *s.dst == nil }
func (s optional[T]) schema() *node { return s.fields(new(T)).schema() }

func (s optional[T]) node() *node {
	if *s.dst == nil {
		return nil
	}
	return s.fields(*s.dst).node()
}

func (s optional[T]) read(c *collector, path string, n *node) bool {
	*s.dst = new(T)
	return s.fields(*s.dst).read(c, path, n)
}

// list is a JSON array of low to high elements.
type list[T any] struct {
	dst       *[]T
	low, high int
	element   func(i int, v *T) codec
}

func (s list[T]) want() string { return "a list [ … ]" }

// blank is a list of entries that go without saying, such as plain joints.
func (s list[T]) blank() bool {
	for i := range *s.dst {
		if !s.element(i, &(*s.dst)[i]).blank() {
			return false
		}
	}
	return true
}

func (s list[T]) node() *node {
	n := &node{kind: listNode}
	for i := range *s.dst {
		n.items = append(n.items, item{value: s.element(i, &(*s.dst)[i]).node()})
	}
	return n
}

func (s list[T]) schema() *node {
	return jsonObject("type", "array", "minItems", s.low, "maxItems", s.high,
		"items", s.element(0, new(T)).schema())
}

func (s list[T]) read(c *collector, path string, n *node) bool {
	if n.kind != listNode {
		return false
	}
	if count := len(n.items); count < s.low || s.high < count {
		want := fmt.Sprintf("%d to %d", s.low, s.high)
		if s.low == s.high {
			want = strconv.Itoa(s.low)
		}
		c.report(path, counted(count, "entry", "entries"), want)
		return true
	}
	*s.dst = make([]T, len(n.items))
	for i, it := range n.items {
		readInto(s.element(i, &(*s.dst)[i]), c, element(path, i), it.value)
	}
	return true
}

// several is one element or a list of them.
type several[T any] struct {
	list[T]
	words string // what the file must hold
}

func (s several[T]) want() string { return s.words }
func (s several[T]) blank() bool  { return *s.dst == nil }

func (s several[T]) node() *node {
	if len(*s.dst) == 1 {
		return s.element(0, &(*s.dst)[0]).node()
	}
	return s.list.node()
}

func (s several[T]) schema() *node {
	return jsonObject("anyOf", jsonList(s.element(0, new(T)).schema(), s.list.schema()))
}

func (s several[T]) read(c *collector, path string, n *node) bool {
	if n.kind == listNode {
		return s.list.read(c, path, n)
	}
	one := make([]T, 1)
	*s.dst = one
	return s.element(0, &one[0]).read(c, path, n)
}

// readInto gives s the value of n, which stands at path.
func readInto(s codec, c *collector, path string, n *node) {
	c.places[path] = n.at
	if !s.read(c, path, n) {
		c.report(path, n.String(), s.want()+hint(s, n))
	}
}
