package survey

import (
	"bytes"
	"fmt"
	"io"
	"unicode/utf8"
)

// maxSize of a driveline file in bytes.
const maxSize = 1 << 20

// Read returns the driveline in the JSON text of r, valid and with everything
// filled in that a file may leave out. name stands for the file in messages; "-"
// is standard input.
//
// A text that is no driveline gives Faults: all that can be found in one go, each
// a *Fault with its line and column. Any other error is from reading r.
func Read(name string, r io.Reader) (*Survey, error) {
	if name == "-" {
		name = "standard input"
	}
	src, err := readAll(name, r)
	if err != nil {
		return nil, err
	}
	root, fault := decode(src)
	if fault != nil {
		fault.File = name
		return nil, Faults{fault}
	}
	s, c := newSurvey(), newCollector(name)
	readInto(s.format(), c, "", root)
	if !c.faulted[""] {
		s = s.Complete()
		s.check(c)
	}
	if err := c.err(); err != nil {
		return nil, err
	}
	return s, nil
}

// readAll reads a file, or as much of one that is too large as tells so.
func readAll(name string, r io.Reader) ([]byte, error) {
	src, err := io.ReadAll(io.LimitReader(r, maxSize+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return src, nil
}

// Validate checks a Survey built in code as Read checks a file; what a file may
// leave out may be left out here. The error is Faults whose paths are those of a
// file, without line and column.
func (s *Survey) Validate() error {
	s = s.Complete()
	c := newCollector("")
	// The values by themselves are what a file would be refused for.
	readInto(newSurvey().format(), c, "", s.format().node())
	s.check(c)
	return c.err()
}

// newSurvey returns an empty Survey to be read into: the unit of its lengths stands
// in messages.
func newSurvey() *Survey { return &Survey{Units: Millimetre} }

// decode returns the JSON value in the bytes of a file.
func decode(src []byte) (*node, *Fault) {
	if len(src) > maxSize {
		return nil, &Fault{Value: "more than 1 MiB", Want: "a driveline file of 1 MiB at most"}
	}
	src = bytes.TrimPrefix(src, []byte("\ufeff")) // byte order mark
	if !utf8.Valid(src) {
		c := cursor{src: src, at: place{1, 1}}
		at := c.to(len(validPrefix(src)))
		return nil, &Fault{
			Line: at.line, Column: at.column,
			Value: "a byte that is not UTF-8", Want: "a file saved as UTF-8",
		}
	}
	return parse(src)
}

// validPrefix returns the longest part of src, from its start, that is UTF-8.
func validPrefix(src []byte) []byte {
	for i := 0; i < len(src); {
		r, size := utf8.DecodeRune(src[i:])
		if r == utf8.RuneError && size == 1 {
			return src[:i]
		}
		i += size
	}
	return src
}
