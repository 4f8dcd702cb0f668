package survey

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// object is a JSON object with a fixed set of fields.
type object []field

type field struct {
	key      string
	slot     slot
	required bool // must stand in the file
}

func must(key string, s slot) field { return field{key, s, true} }
func may(key string, s slot) field  { return field{key, s, false} }

func (o object) want() string { return "an object { … }" }

func (o object) blank() bool {
	for _, f := range o {
		if f.required || !f.slot.blank() {
			return false
		}
	}
	return true
}

func (o object) read(a *audit, path string, n *node) bool {
	if n.kind != objectNode {
		return false
	}
	members := o.members(a, path, n)
	for _, f := range o {
		at := member(path, f.key)
		if value, ok := members[f.key]; ok {
			readInto(f.slot, a, at, value)
		} else if f.required {
			a.report(at, "missing", f.slot.want())
		}
	}
	return true
}

// members returns the values of the known fields of n by name.
func (o object) members(a *audit, path string, n *node) map[string]*node {
	known := make([]string, len(o))
	for i, f := range o {
		known[i] = f.key
	}
	members := make(map[string]*node)
	for _, it := range n.items {
		switch first := members[it.key]; {
		case !slices.Contains(known, it.key):
			want := oneOf(known)
			if guess := nearest(it.key, known); guess != "" {
				want = fmt.Sprintf("%q, perhaps", guess)
			}
			a.reportAt(it.keyAt, member(path, pathKey(it.key)), "unknown field", want)
		case first != nil:
			a.reportAt(it.keyAt, member(path, it.key), "given twice",
				fmt.Sprintf("it once, as on line %d", first.at.line))
		default:
			members[it.key] = it.value
		}
	}
	return members
}

func (o object) check(a *audit, path string) {
	for _, f := range o {
		at := member(path, f.key)
		if f.required || a.given(at) || !f.slot.blank() {
			checkIn(f.slot, a, at)
		}
	}
}

func (o object) node() *node {
	n := &node{kind: objectNode}
	for _, f := range o {
		if f.required || !f.slot.blank() {
			n.items = append(n.items, item{key: f.key, value: f.slot.node()})
		}
	}
	return n
}

// optional is an object that a file may leave out; *dst is nil then.
type optional[T any] struct {
	dst    **T
	fields func(*T) object
}

func (s optional[T]) want() string { return object{}.want() }
func (s optional[T]) blank() bool  { return *s.dst == nil }
func (s optional[T]) node() *node  { return s.fields(*s.dst).node() }

func (s optional[T]) read(a *audit, path string, n *node) bool {
	*s.dst = new(T)
	return s.fields(*s.dst).read(a, path, n)
}

func (s optional[T]) check(a *audit, path string) {
	if *s.dst == nil {
		a.report(path, "missing", s.want())
		return
	}
	s.fields(*s.dst).check(a, path)
}

// list is a JSON array of low to high elements.
type list[T any] struct {
	dst       *[]T
	low, high int
	element   func(i int, v *T) slot
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

func (s list[T]) read(a *audit, path string, n *node) bool {
	if n.kind != listNode {
		return false
	}
	if !s.checkCount(a, path, len(n.items)) {
		return true
	}
	*s.dst = make([]T, len(n.items))
	for i, it := range n.items {
		readInto(s.element(i, &(*s.dst)[i]), a, element(path, i), it.value)
	}
	return true
}

func (s list[T]) check(a *audit, path string) {
	if !s.checkCount(a, path, len(*s.dst)) {
		return
	}
	for i := range *s.dst {
		checkIn(s.element(i, &(*s.dst)[i]), a, element(path, i))
	}
}

func (s list[T]) checkCount(a *audit, path string, count int) bool {
	ok := s.low <= count && count <= s.high
	if !ok {
		a.report(path, counted(count, "entry", "entries"), fmt.Sprintf("%d to %d", s.low, s.high))
	}
	return ok
}

func (s list[T]) node() *node {
	n := &node{kind: listNode}
	for i := range *s.dst {
		n.items = append(n.items, item{value: s.element(i, &(*s.dst)[i]).node()})
	}
	return n
}

// readInto gives s the value of n, which stands at path.
func readInto(s slot, a *audit, path string, n *node) {
	a.places[path] = n.at
	if !s.read(a, path, n) {
		a.report(path, n.String(), s.want()+hint(s, n))
	}
}

// checkIn checks the value of s at path, unless it could not be read.
func checkIn(s slot, a *audit, path string) {
	if !a.faulted[path] {
		s.check(a, path)
	}
}

// hint adds what is easily mistaken to what a slot wants.
func hint(s slot, n *node) string {
	if !strings.HasPrefix(s.want(), number{}.want()) {
		return ""
	}
	point := strings.Replace(n.text, ",", ".", 1)
	_, err := strconv.ParseFloat(point, 64)
	switch {
	case n.kind == literalNode && n.text == "null":
		return "; leave the field out when there is none"
	case n.kind != textNode || err != nil:
		return ""
	case point != n.text:
		return fmt.Sprintf("; write %s with a decimal point and without quotes", point)
	default:
		return fmt.Sprintf("; write %s without quotes", point)
	}
}
