package survey_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

// TestSchema walks the schema and asks Read, at every place of a file, whether it
// takes exactly what the schema says: the names of the fields, those required,
// the words of a list of words, the ends of a range, the length of a list, the
// types. It needs no knowledge of either but the form of Read's faults.
func TestSchema(t *testing.T) {
	t.Parallel()
	var root schema
	if err := json.Unmarshal(survey.Schema(), &root); err != nil {
		t.Fatal(err)
	}
	w := &schemaWalk{t: t}
	w.value("", &root, func(inside string) string { return inside })
	if w.fields < 50 {
		t.Errorf("got %d fields: the walk missed most of the schema", w.fields)
	}
}

// schema is the part of JSON Schema that ours uses.
type schema struct {
	Description string
	Type        any // a string or several

	Properties           map[string]*schema
	Required             []string
	AdditionalProperties *bool

	Items              *schema
	MinItems, MaxItems int
	MaxLength          int

	Enum    []string
	Pattern string
	AnyOf   []*schema

	Minimum, Maximum, ExclusiveMinimum, ExclusiveMaximum *float64
}

type schemaWalk struct {
	t      *testing.T
	fields int
}

// value compares s with what Read wants at path; wrap puts a value there.
func (w *schemaWalk) value(path string, s *schema, wrap func(inside string) string) {
	for _, alternative := range s.AnyOf {
		w.value(path, alternative, wrap)
	}
	if s.Type != nil || s.Enum != nil {
		w.types(path, s, wrap)
	}
	switch {
	case s.Properties != nil:
		w.object(path, s, wrap)
	case s.Items != nil:
		w.list(path, s, wrap)
	case s.Enum != nil:
		want := `one of "` + strings.Join(s.Enum, `", "`) + `"`
		if got := w.fault(wrap(`"?"`), path); got == nil || got.Want != want {
			w.t.Errorf("%s: got fault %v, want %s", path, got, want)
		}
	case s.Pattern != "":
		w.pattern(path, s, wrap)
	case s.Minimum != nil || s.ExclusiveMinimum != nil:
		w.bounds(path, s, wrap)
	}
}

func (w *schemaWalk) object(path string, s *schema, wrap func(string) string) {
	if s.AdditionalProperties == nil || *s.AdditionalProperties {
		w.t.Errorf("%s: got other fields allowed in the schema", path)
	}
	at := func(key string) string { return strings.TrimPrefix(path+"."+key, ".") }

	unknown := w.fault(wrap(`{"?": 1}`), at(`"?"`))
	if unknown == nil {
		w.t.Fatalf("%s: got no fault for an unknown field", path)
	}
	known := strings.Split(strings.TrimPrefix(unknown.Want, "one of "), ", ")
	for i := range known {
		known[i] = strings.Trim(known[i], `"`)
	}
	slices.Sort(known)
	if keys := slices.Sorted(maps.Keys(s.Properties)); !slices.Equal(known, keys) {
		w.t.Errorf("%s: got fields\n%q by Read and\n%q by the schema", path, known, keys)
	}
	for key, property := range s.Properties {
		w.fields++
		missing := w.fault(wrap(`{}`), at(key))
		if got, want := missing != nil && missing.Value == "missing", slices.Contains(s.Required, key); got != want {
			w.t.Errorf("%s: got required %t by Read and %t by the schema", at(key), got, want)
		}
		if property.Description == "" {
			w.t.Errorf("%s: got no description", at(key))
		}
		w.value(at(key), property, func(inside string) string {
			return wrap(fmt.Sprintf("{%q: %s}", key, inside))
		})
	}
}

func (w *schemaWalk) list(path string, s *schema, wrap func(string) string) {
	for count, want := range map[int]bool{
		s.MinItems - 1: false, s.MinItems: true, s.MaxItems: true, s.MaxItems + 1: false,
	} {
		file := wrap("[" + strings.TrimSuffix(strings.Repeat("{},", count), ",") + "]")
		fault := w.fault(file, path)
		miscounted := fault != nil && (strings.Contains(fault.Value, " entr") || strings.Contains(fault.Value, " reading"))
		if miscounted == want {
			w.t.Errorf("%s: got fault %v for %d entries", path, fault, count)
		}
	}
	others := strings.Repeat(", {}", s.MinItems-1) // for Read to look at the entries at all
	w.value(path+"[0]", s.Items, func(inside string) string { return wrap("[" + inside + others + "]") })
}

// types compares the types that s and Read take.
func (w *schemaWalk) types(path string, s *schema, wrap func(string) string) {
	types, several := s.Type.([]any)
	if !several {
		types = []any{s.Type}
	}
	if s.Enum != nil {
		types = []any{"string"}
	}
	either := map[string]bool{ // by one of several types
		"number": strings.HasPrefix(w.want(path, wrap), "a number or a list"),
		"string": strings.HasPrefix(w.want(path, wrap), "a name or a list"),
		"array":  strings.Contains(w.want(path, wrap), " or a list"),
	}
	for kind, value := range map[string]string{
		"object": "{}", "array": "[0]", "string": `"x"`, "number": "1", "boolean": "true", "null": "null",
	} {
		fault := w.fault(wrap(value), path)
		refused := fault != nil && fault.Want == w.want(path, wrap)
		allowed := slices.Contains(types, any(kind)) || either[kind]
		if kind == "null" && fault != nil {
			refused = fault.Value == "null"
		}
		if kind == "string" && s.Enum != nil {
			refused = false // by its words, which are compared elsewhere
		}
		if refused == allowed {
			w.t.Errorf("%s: got %v for type %s, want allowed %t", path, fault, kind, allowed)
		}
	}
}

// want returns what Read says it wants at path, found by what no field takes.
func (w *schemaWalk) want(path string, wrap func(string) string) string {
	fault := w.fault(wrap("true"), path)
	if fault == nil {
		w.t.Fatalf("%s: got no fault for true", path)
	}
	return fault.Want
}

// bounds compares the ends of a range.
func (w *schemaWalk) bounds(path string, s *schema, wrap func(string) string) {
	down, up := math.Inf(-1), math.Inf(1)
	inside := func(v *float64, toward float64, open bool) (last float64, first float64) {
		if open {
			return math.Nextafter(*v, -toward), *v
		}
		return *v, math.Nextafter(*v, toward)
	}
	low, high := s.Minimum, s.Maximum
	if s.ExclusiveMinimum != nil {
		low = s.ExclusiveMinimum
	}
	if s.ExclusiveMaximum != nil {
		high = s.ExclusiveMaximum
	}
	if low == nil || high == nil {
		w.t.Errorf("%s: got a range with an open end in the schema", path)
		return
	}
	lowest, below := inside(low, down, s.ExclusiveMinimum != nil)
	highest, above := inside(high, up, s.ExclusiveMaximum != nil)
	outside := w.fault(wrap("1e300"), path)
	if outside == nil {
		w.t.Errorf("%s: got no fault for 1e300", path)
		return
	}
	for v, want := range map[float64]bool{lowest: true, highest: true, below: false, above: false} {
		fault := w.fault(wrap(fmt.Sprint(v)), path)
		if got := fault == nil || !strings.HasPrefix(fault.Want, outside.Want); got != want { // a hint may follow
			w.t.Errorf("%s: got fault %v for %g, want allowed %t", path, fault, v, want)
		}
	}
}

// pattern compares on some texts.
func (w *schemaWalk) pattern(path string, s *schema, wrap func(string) string) {
	pattern := regexp.MustCompile(javaEscape.ReplaceAllString(s.Pattern, `\x{$1}`))
	for _, text := range []string{
		"", " ", "a", " a b ", "a\tb", "a\n", "\u0085", "½°", "235/60R16", "235/60 R 16", "P235/75R15", "LT285/70R17",
		"315/80R22.5", "31x10.5R15", "33x12.50 R 15LT", "31x10.5", "31X10.5R15", "35x12.50-17", "205/65R16C 107/105T", "7.50R16", "231x10.5R15", strings.Repeat("ö", 100), strings.Repeat("ö", 101), "a\u202eb", "\u2066", "\u200e", "235-60-16", "235/60R6", "035/60R16", "235/60R16 100H",
	} {
		quoted, _ := json.Marshal(text)
		fault := w.fault(wrap(string(quoted)), path)
		// A name can also be unknown, which no pattern can say.
		got := fault == nil || !strings.HasPrefix(fault.Want, "a text") && !strings.HasPrefix(fault.Want, "a size")
		want := pattern.MatchString(text) && (s.MaxLength == 0 || len([]rune(text)) <= s.MaxLength)
		if got != want {
			w.t.Errorf("%s: got fault %v for %q, want allowed %t", path, fault, text, want)
		}
	}
}

// javaEscape is how the dialect of JSON Schema writes what Go writes as \x{…}.
var javaEscape = regexp.MustCompile(`\\u([0-9a-f]{4})`)

// fault returns the fault of the file at path, or nil.
func (w *schemaWalk) fault(file, path string) *survey.Fault {
	_, err := survey.Read("schema.json", strings.NewReader(file))
	var faults survey.Faults
	if err != nil && !errors.As(err, &faults) {
		w.t.Fatal(err)
	}
	for _, f := range faults {
		if f.Path == path {
			return f
		}
	}
	return nil
}
