package page

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"
)

// A pdfReader reads the files that document writes, by the grammar of ISO 32000-1, 7.2 to
// 7.5, and stricter: nothing may stand in a file but its objects, its table and its
// trailer.
type pdfReader struct {
	t       *testing.T
	objects map[reference]any
	streams map[reference][]byte // decompressed
	trailer map[pdfName]any
}

// Values are float64, []byte (strings), pdfName, pdfWord (operators), reference, []any and
// map[pdfName]any.
type (
	pdfName string
	pdfWord string
)

func readPDF(t *testing.T, file []byte) *pdfReader {
	t.Helper()
	r := &pdfReader{t, make(map[reference]any), make(map[reference][]byte), nil}
	const header = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n"
	end := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatchIndex(file)
	if !bytes.HasPrefix(file, []byte(header)) || end == nil {
		t.Fatalf("the file begins with %.20q and ends with %.20q", file, file[max(0, len(file)-20):])
	}
	table := atoi(t, file[end[2]:end[3]])
	head := regexp.MustCompile(`^xref\n0 (\d+)\n0000000000 65535 f \n`).FindSubmatch(file[table:])
	if head == nil {
		t.Fatalf("at %d: got %.40q, want the table", table, file[table:])
	}
	n := atoi(t, head[1])
	rows := file[table+len(head[0]):]
	begins := make(map[int]reference)
	for i := 1; i < n; i++ {
		if row := string(rows[20*(i-1):][:20]); row[10:] != " 00000 n \n" {
			t.Fatalf("row %d of the table: %q", i, row)
		}
		begins[atoi(t, rows[20*(i-1):][:10])] = reference(i)
	}
	trailer := rows[20*(n-1) : end[0]-(table+len(head[0]))]
	r.trailer = r.only(bytes.TrimPrefix(trailer, []byte("trailer\n"))).(map[pdfName]any)
	if r.trailer["Size"] != float64(n) {
		t.Errorf("size %v, want %d", r.trailer["Size"], n)
	}
	for at := len(header); at < table; {
		ref, found := begins[at]
		opening := fmt.Sprintf("%d 0 obj\n", ref)
		if !found || !bytes.HasPrefix(file[at:], []byte(opening)) {
			t.Fatalf("at %d: got %.30q, want object %d", at, file[at:], ref)
		}
		delete(begins, at)
		at += len(opening) + r.object(ref, file[at+len(opening):])
	}
	if len(begins) > 0 {
		t.Errorf("objects at %v: not found", begins)
	}
	for _, v := range r.objects {
		r.follow(v)
	}
	r.follow(r.trailer)
	return r
}

// object reads an object and returns its length.
func (r *pdfReader) object(ref reference, data []byte) int {
	r.t.Helper()
	value, rest := r.value(data)
	r.objects[ref] = value
	if dict, ok := value.(map[pdfName]any); ok && bytes.HasPrefix(rest, []byte("\nstream\n")) {
		length, _ := dict["Length"].(float64)
		rest = rest[len("\nstream\n"):]
		z, err := zlib.NewReader(bytes.NewReader(rest[:int(length)]))
		if err != nil {
			r.t.Fatal(err)
		}
		if r.streams[ref], err = io.ReadAll(z); err != nil {
			r.t.Fatal(err)
		}
		after, found := bytes.CutPrefix(rest[int(length):], []byte("\nendstream"))
		if !found {
			r.t.Fatalf("object %d: stream of another length than %v", ref, length)
		}
		rest = after
	}
	rest, found := bytes.CutPrefix(rest, []byte("\nendobj\n"))
	if !found {
		r.t.Fatalf("object %d goes on with %.30q", ref, rest)
	}
	return len(data) - len(rest)
}

// follow holds that all that is referred to is there.
func (r *pdfReader) follow(v any) {
	switch v := v.(type) {
	case reference:
		if r.objects[v] == nil {
			r.t.Errorf("object %d is missing", v)
		}
	case []any:
		for _, e := range v {
			r.follow(e)
		}
	case map[pdfName]any:
		for _, e := range v {
			r.follow(e)
		}
	}
}

var pdfTokens = regexp.MustCompile(`^\s*(?:(<<)|(>>)|<([0-9A-F]*)>|/([A-Za-z0-9+-]+)|(\[)|(\])|(\d+) 0 R\b|(-?\d+(?:\.\d+)?)|\(([A-Za-z]*)\)|([A-Za-z]+))`)

// value reads one value, or the end of an array or dictionary as nil.
func (r *pdfReader) value(data []byte) (value any, rest []byte) {
	r.t.Helper()
	m := pdfTokens.FindSubmatch(data)
	if m == nil {
		r.t.Fatalf("not a value: %.40q", data)
	}
	rest = data[len(m[0]):]
	var elements []any
	if m[1] != nil || m[5] != nil {
		for {
			var e any
			if e, rest = r.value(rest); e == nil {
				break
			}
			elements = append(elements, e)
		}
	}
	switch {
	case m[1] != nil:
		dict := make(map[pdfName]any)
		for i := 0; i < len(elements); i += 2 {
			dict[elements[i].(pdfName)] = elements[i+1]
		}
		return dict, rest
	case m[5] != nil:
		return append([]any{}, elements...), rest
	case m[3] != nil:
		text := make([]byte, len(m[3])/2)
		fmt.Sscanf(string(m[3]), "%x", &text)
		return text, rest
	case m[4] != nil:
		return pdfName(m[4]), rest
	case m[7] != nil:
		return reference(atoi(r.t, m[7])), rest
	case m[8] != nil:
		v, err := strconv.ParseFloat(string(m[8]), 64)
		if err != nil {
			r.t.Fatal(err)
		}
		return v, rest
	case m[9] != nil:
		return m[9], rest
	case m[10] != nil:
		return pdfWord(m[10]), rest
	}
	return nil, rest
}

// only reads one value with nothing but space behind it.
func (r *pdfReader) only(data []byte) any {
	r.t.Helper()
	v, rest := r.value(data)
	if len(bytes.TrimSpace(rest)) > 0 {
		r.t.Fatalf("after a value: %.40q", rest)
	}
	return v
}

// at follows names and indices from a value, through references.
func (r *pdfReader) at(v any, path ...any) any {
	r.t.Helper()
	for _, step := range path {
		if ref, ok := v.(reference); ok {
			v = r.objects[ref]
		}
		switch step := step.(type) {
		case string:
			v = v.(map[pdfName]any)[pdfName(step)]
		case int:
			v = v.([]any)[step]
		}
	}
	if v == nil {
		r.t.Fatalf("nothing at %v", path)
	}
	return v
}

// pages returns the pages of the document.
func (r *pdfReader) pages() []any {
	r.t.Helper()
	pages := r.at(r.trailer, "Root", "Pages", "Kids").([]any)
	if n := r.at(r.trailer, "Root", "Pages", "Count"); n != float64(len(pages)) {
		r.t.Errorf("%v pages counted, want %d", n, len(pages))
	}
	return pages
}

// unicode returns the characters for the codes of a font.
func (r *pdfReader) unicode(font any) map[uint16]string {
	r.t.Helper()
	chars := make(map[uint16]string)
	table := string(r.streams[r.at(font, "ToUnicode").(reference)])
	for _, block := range regexp.MustCompile(`(?s)(\d+) beginbfchar\n(.*?)endbfchar`).FindAllStringSubmatch(table, -1) {
		rows := strings.Split(strings.TrimSpace(block[2]), "\n")
		if n := atoi(r.t, []byte(block[1])); n != len(rows) || n > 100 {
			r.t.Errorf("a block of %d characters has %d", n, len(rows))
		}
		for _, row := range rows {
			var code uint16
			var digits string
			if _, err := fmt.Sscanf(row, "<%04X> <%s", &code, &digits); err != nil {
				r.t.Fatalf("row %q: %v", row, err)
			}
			chars[code] = fromUTF16(r.only([]byte("<" + digits)).([]byte))
		}
	}
	return chars
}

func fromUTF16(b []byte) string {
	var units []uint16
	for i := 0; i+1 < len(b); i += 2 {
		units = append(units, uint16(b[i])<<8|uint16(b[i+1]))
	}
	return string(utf16.Decode(units))
}

func atoi(t *testing.T, digits []byte) int {
	t.Helper()
	n, err := strconv.Atoi(string(digits))
	if err != nil {
		t.Fatal(err)
	}
	return n
}
