package survey

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Fault is one thing wrong with a driveline. It prints as
//
//	drive.json:7:21: shafts[2].down: 95 deg: want a slope between -90 and 90 deg
type Fault struct {
	File         string // as named to Read; "" for a Survey built in code
	Line, Column int    // from 1, a column is one character; 0: no place in a file
	Path         string // of the field, as in "shafts[2].down"; "": the whole file
	Value        string // what was found, with its unit
	Want         string // what would have been accepted
}

func (f *Fault) Error() string {
	var b strings.Builder
	if f.File != "" {
		b.WriteString(f.File)
		if f.Line > 0 {
			fmt.Fprintf(&b, ":%d:%d", f.Line, f.Column)
		}
		b.WriteString(": ")
	}
	if f.Path != "" {
		b.WriteString(f.Path + ": ")
	}
	b.WriteString(f.Value + ": want " + f.Want)
	return b.String()
}

// Faults is the error of Read and Validate: every fault found, in the order of
// the file, one on a line. A file that is no driveline at all does not flood the
// screen: after 100 faults no more are recorded.
type Faults []*Fault

const maxFaults = 100

func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the single faults, each a *Fault.
func (fs Faults) Unwrap() []error {
	errs := make([]error, len(fs))
	for i, f := range fs {
		errs[i] = f
	}
	return errs
}

// collector gathers the faults of one driveline and knows where in the file each
// of its fields stands.
type collector struct {
	file   string           // "" for a Survey built in code
	places map[string]place // by path, of every known field read

	faults  Faults
	faulted map[string]bool // by path
}

func newCollector(file string) *collector {
	return &collector{file: file, places: make(map[string]place), faulted: make(map[string]bool)}
}

// report records a fault of the field at path. A field has one fault at most:
// later ones would only be consequences of the first.
func (c *collector) report(path, value, want string) {
	c.reportAt(c.place(path), path, value, want)
}

func (c *collector) reportAt(at place, path, value, want string) {
	if c.faulted[path] || len(c.faults) == maxFaults {
		return
	}
	c.faulted[path] = true
	c.faults = append(c.faults, &Fault{
		File: c.file, Line: at.line, Column: at.column,
		Path: path, Value: value, Want: want,
	})
}

// err returns the faults in the order of the file, or nil.
func (c *collector) err() error {
	if len(c.faults) == 0 {
		return nil
	}
	slices.SortStableFunc(c.faults, func(f, g *Fault) int {
		return cmp.Or(cmp.Compare(f.Line, g.Line), cmp.Compare(f.Column, g.Column))
	})
	return c.faults
}

// sound reports whether nothing at or below any of the paths is at fault, so
// that what follows from them can be judged.
func (c *collector) sound(paths ...string) bool {
	for faulted := range c.faulted {
		for _, path := range paths {
			rest, below := strings.CutPrefix(faulted, path)
			if below && (rest == "" || rest[0] == '.' || rest[0] == '[') {
				return false
			}
		}
	}
	return true
}

// place returns where the field at path stands, or the nearest field around it.
func (c *collector) place(path string) place {
	for {
		at, ok := c.places[path]
		if ok || path == "" {
			return at
		}
		path = path[:max(0, strings.LastIndexAny(path, ".["))]
	}
}

// member returns the path of a field of the object at path.
func member(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// element returns the path of an element of the list at path.
func element(path string, i int) string {
	return fmt.Sprintf("%s[%d]", path, i)
}
