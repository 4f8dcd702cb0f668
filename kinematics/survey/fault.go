package survey

import (
	"fmt"
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
