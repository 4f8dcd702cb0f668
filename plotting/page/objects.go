package page

import (
	"bytes"
	"compress/zlib"
	"fmt"
)

// objects are the numbered objects of a PDF file, with a table of where each begins.
type objects struct {
	buf      []byte
	begins   []int
	deflater *zlib.Writer
}

// A reference names an object by its number, from 1.
type reference int

func (r reference) String() string { return fmt.Sprintf("%d 0 R", int(r)) }

// reserve returns a number for an object to be set later.
func (o *objects) reserve() reference {
	o.begins = append(o.begins, 0)
	return reference(len(o.begins))
}

func (o *objects) set(r reference, format string, values ...any) {
	o.begins[r-1] = len(o.buf)
	o.buf = fmt.Appendf(o.buf, "%d 0 obj\n", int(r))
	o.buf = fmt.Appendf(o.buf, format, values...)
	o.buf = append(o.buf, "\nendobj\n"...)
}

func (o *objects) add(format string, values ...any) reference {
	r := o.reserve()
	o.set(r, format, values...)
	return r
}

// stream adds compressed data with what its dictionary says beside its length.
func (o *objects) stream(entries string, data []byte) reference {
	var buf bytes.Buffer
	o.deflater.Reset(&buf)
	o.deflater.Write(data) // neither fails: a buffer takes all
	o.deflater.Close()
	return o.add("<< %s /Filter /FlateDecode /Length %d >>\nstream\n%s\nendstream", entries, buf.Len(), buf.Bytes())
}

// end returns the file with the table and the trailer, which point at its objects.
func (o *objects) end(root, info reference) []byte {
	table := len(o.buf)
	o.buf = fmt.Appendf(o.buf, "xref\n0 %d\n0000000000 65535 f \n", len(o.begins)+1)
	for _, at := range o.begins {
		o.buf = fmt.Appendf(o.buf, "%010d 00000 n \n", at)
	}
	return fmt.Appendf(o.buf, "trailer\n<< /Size %d /Root %v /Info %v >>\nstartxref\n%d\n%%%%EOF\n", len(o.begins)+1, root, info, table)
}
