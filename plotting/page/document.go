package page

import (
	"compress/zlib"
	"fmt"
	"image"
	"image/color"
	"maps"
	"slices"
	"strings"
	"unicode/utf16"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// A document is a PDF file in the making (ISO 32000-1): pages that share their fonts,
// images and degrees of opacity.
type document struct {
	objects
	tree, resources reference
	pages           []reference
	fonts           []*embedded
	fontOf          map[font.Face]*embedded // by the face without its size
	images          []reference
	opacities       map[uint8]bool
	facing          bool // two pages side by side
}

func newDocument() *document {
	d := &document{fontOf: make(map[font.Face]*embedded), opacities: make(map[uint8]bool)}
	d.buf = []byte("%PDF-1.7\n%\xE2\xE3\xCF\xD3\n") // not text: for programs that transfer it
	d.deflater = zlib.NewWriter(nil)
	d.tree, d.resources = d.reserve(), d.reserve()
	return d
}

// page adds a page with what is drawn on it.
func (d *document) page(width, height vg.Length, draw func(vg.Canvas)) {
	c := newPDFCanvas(d)
	draw(c)
	contents := d.stream("", c.buf)
	d.pages = append(d.pages, d.add("<< /Type /Page /Parent %v /MediaBox [0 0 %s %s] /Resources %v /Contents %v >>",
		d.tree, appendNumber(nil, width.Points()), appendNumber(nil, height.Points()), d.resources, contents))
}

// font returns a font with the document's glyphs of it, nil if it cannot be embedded.
func (d *document) font(f font.Face) *embedded {
	f.Font.Size = 0
	e, found := d.fontOf[f]
	if !found {
		if e = embed(f); e != nil {
			e.name = fmt.Sprintf("F%d", len(d.fonts)+1)
			d.fonts = append(d.fonts, e)
		}
		d.fontOf[f] = e
	}
	return e
}

// image adds an image and returns its name.
func (d *document) image(img image.Image) string {
	b := img.Bounds()
	var colours, opacities []byte
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			p := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
			colours, opacities = append(colours, p.R, p.G, p.B), append(opacities, p.A)
		}
	}
	entries := fmt.Sprintf("/Type /XObject /Subtype /Image /Width %d /Height %d /BitsPerComponent 8", b.Dx(), b.Dy())
	mask := d.stream(entries+" /ColorSpace /DeviceGray", opacities)
	d.images = append(d.images, d.stream(fmt.Sprintf("%s /ColorSpace /DeviceRGB /SMask %v", entries, mask), colours))
	return fmt.Sprintf("I%d", len(d.images))
}

// file returns the bytes of the file. It has no date, so that the same pages give the
// same bytes.
func (d *document) file(title string) []byte {
	var resources strings.Builder
	resources.WriteString("<< /Font <<")
	for _, f := range d.fonts {
		fmt.Fprintf(&resources, " /%s %v", f.name, f.write(&d.objects))
	}
	resources.WriteString(" >> /XObject <<")
	for i, image := range d.images {
		fmt.Fprintf(&resources, " /I%d %v", i+1, image)
	}
	resources.WriteString(" >> /ExtGState <<")
	for _, a := range slices.Sorted(maps.Keys(d.opacities)) {
		fmt.Fprintf(&resources, " /A%d << /ca %.3f /CA %.3[2]f >>", a, float64(a)/0xFF)
	}
	d.set(d.resources, "%s >> >>", &resources)
	d.set(d.tree, "<< /Type /Pages /Kids %v /Count %d >>", d.pages, len(d.pages))
	opened := ""
	if d.facing {
		opened = " /PageLayout /TwoPageRight"
	}
	catalog := d.add("<< /Type /Catalog /Pages %v%s >>", d.tree, opened)
	info := d.add("<< /Title %s /Author %s >>", pdfText(title), pdfText("halfturn"))
	return d.end(catalog, info)
}

// pdfText returns a text as a PDF string: in UTF-16, as hexadecimal digits.
func pdfText(s string) string {
	return "<FEFF" + utf16Digits(clean(s)) + ">"
}

func utf16Digits(s string) string {
	var digits strings.Builder
	for _, unit := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&digits, "%04X", unit)
	}
	return digits.String()
}
