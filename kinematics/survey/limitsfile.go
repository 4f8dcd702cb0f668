package survey

import (
	"bytes"
	"io"
	"slices"
)

// ReadLimits returns the limits in the JSON text of r: those of a driveline, or of an
// object that has nothing but limits and perhaps a name, a note and a schema, in which
// a shop keeps its rules. name stands for the file in messages. Errors are those of
// Read.
func ReadLimits(name string, r io.Reader) (Limits, error) {
	src, err := readAll(name, r)
	if err != nil {
		return Limits{}, err
	}
	root, fault := decode(src)
	if fault != nil {
		fault.File = name
		return Limits{}, Faults{fault}
	}
	if slices.ContainsFunc(root.items, func(it item) bool { return it.key == "shafts" }) {
		s, err := Read(name, bytes.NewReader(src))
		if err != nil {
			return Limits{}, err
		}
		return s.Limits, nil
	}
	var l Limits
	c := newCollector(name)
	readInto(object{
		may("$schema", comment{note{new(string)}}, ""),
		may("name", text{new(string), ""}, ""),
		may("note", note{new(string)}, ""),
		must("limits", l.format(), ""),
	}, c, "", root)
	return l, c.err()
}
