package page

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"unicode/utf16"

	"gonum.org/v1/plot/vg/vgpdf"
)

// Deck returns figures of one size as one PDF document, a page for each. The same figures
// give the same bytes.
func Deck(title string, figures ...*Figure) ([]byte, error) {
	if len(figures) == 0 {
		return nil, errors.New("deck: no figures: want at least one")
	}
	var c *vgpdf.Canvas
	for i, f := range figures {
		_, err := f.encode(func(p *layout) ([]byte, error) {
			if c == nil {
				c = vgpdf.New(p.size.Width, p.size.Height)
			} else {
				if w, h := c.Size(); w != p.size.Width || h != p.size.Height {
					return nil, fmt.Errorf("deck: page %d is %s: want all pages of one size", i+1, p.size)
				}
				c.NextPage()
			}
			p.draw(outlineText{pdfCanvas{c}})
			return nil, nil
		})
		if err != nil {
			return nil, err
		}
	}
	var buf bytes.Buffer
	if _, err := c.WriteTo(&buf); err != nil {
		return nil, err
	}
	return described(undated(buf.Bytes()), title), nil
}

// pdfTrailer is the end of a document as the drawing library writes it.
var pdfTrailer = regexp.MustCompile(`/Size (\d+)\n/Root (\d+) 0 R\n/Info (\d+) 0 R\n>>\nstartxref\n(\d+)\n%%EOF\n?$`)

// described returns a PDF document with a title and with halfturn as its author, which
// the canvas of the drawing library cannot set. They are appended as PDF provides for
// changes: an object in place of an earlier one, and a table of where it stands (ISO
// 32000-1, 7.5.6).
func described(pdf []byte, title string) []byte {
	m := pdfTrailer.FindSubmatch(pdf)
	if m == nil {
		panic("page: the PDF canvas of the drawing library ends its files otherwise now")
	}
	size, root, info, table := m[1], m[2], m[3], m[4]
	out := bytes.NewBuffer(bytes.TrimRight(pdf, "\n"))
	out.WriteByte('\n')
	at := out.Len()
	fmt.Fprintf(out, "%s 0 obj\n<<\n/Title <%s>\n/Author (halfturn)\n/CreationDate (D:%s)\n>>\nendobj\n", info, pdfText(title), fixedDate)
	end := out.Len()
	fmt.Fprintf(out, "xref\n%s 1\n%010d 00000 n \n", info, at)
	fmt.Fprintf(out, "trailer\n<<\n/Size %s\n/Root %s 0 R\n/Info %s 0 R\n/Prev %s\n>>\n", size, root, info, table)
	out.WriteString("startxref\n" + strconv.Itoa(end) + "\n%%EOF\n")
	return out.Bytes()
}

// pdfText returns a text as the hexadecimal digits of a PDF string in UTF-16.
func pdfText(s string) string {
	digits := "FEFF"
	for _, unit := range utf16.Encode([]rune(clean(s))) {
		digits += fmt.Sprintf("%04X", unit)
	}
	return digits
}
