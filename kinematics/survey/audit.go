package survey

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// audit collects the faults of one driveline and knows where in the file each
// of its fields stands.
type audit struct {
	file   string           // "" for a Survey built in code
	places map[string]place // by path, of every known field read

	faults  Faults
	faulted map[string]bool // by path
}

func newAudit(file string) *audit {
	return &audit{file: file, places: make(map[string]place), faulted: make(map[string]bool)}
}

// report records a fault of the field at path. A field has one fault at most:
// later ones would only be consequences of the first.
func (a *audit) report(path, value, want string) {
	a.reportAt(a.place(path), path, value, want)
}

func (a *audit) reportAt(at place, path, value, want string) {
	if a.faulted[path] || len(a.faults) == maxFaults {
		return
	}
	a.faulted[path] = true
	a.faults = append(a.faults, &Fault{
		File: a.file, Line: at.line, Column: at.column,
		Path: path, Value: value, Want: want,
	})
}

// err returns the faults in the order of the file, or nil.
func (a *audit) err() error {
	if len(a.faults) == 0 {
		return nil
	}
	slices.SortStableFunc(a.faults, func(f, g *Fault) int {
		return cmp.Or(cmp.Compare(f.Line, g.Line), cmp.Compare(f.Column, g.Column))
	})
	return a.faults
}

// given reports whether the file has the field at path: a 0 in a file is a value,
// a 0 in a Survey built in code is a field left out.
func (a *audit) given(path string) bool {
	_, ok := a.places[path]
	return ok
}

// sound reports whether nothing at or below any of the paths is at fault, so
// that what follows from them can be judged.
func (a *audit) sound(paths ...string) bool {
	for faulted := range a.faulted {
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
func (a *audit) place(path string) place {
	for {
		at, ok := a.places[path]
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
