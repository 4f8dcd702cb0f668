package page

import (
	"io"
	"testing"

	"gonum.org/v1/plot/vg/vgsvg"
)

func BenchmarkEncode(b *testing.B) {
	for _, format := range []Format{PNG, SVG, PDF} {
		b.Run(string(format), func(b *testing.B) {
			f := demos()["sheet"]
			for b.Loop() {
				if _, err := Encode(f, format, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkSVG draws one figure with what makes it fast, and without: with no length of
// a text known before, on the canvas of the drawing library.
func BenchmarkSVG(b *testing.B) {
	f := demos()["one"]
	b.Run("with", func(b *testing.B) {
		for b.Loop() {
			if _, err := Encode(f, SVG, Options{}); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("without", func(b *testing.B) {
		for b.Loop() {
			widths.forget()
			l, err := f.arrange()
			if err != nil {
				b.Fatal(err)
			}
			c := vgsvg.New(l.size.Width, l.size.Height)
			l.draw(c)
			if _, err := c.WriteTo(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	})
}
