package plotting

import (
	"testing"

	"halfturn/plotting/page"
)

// BenchmarkFigures builds and encodes figures of a four-shaft driveline, all but reading
// the file.
func BenchmarkFigures(b *testing.B) {
	c := twoPiece(b)
	for _, name := range []string{"speed", "vectors", "views", "sheet"} {
		for _, format := range []page.Format{page.SVG, page.PNG, page.PDF} {
			b.Run(name+"/"+string(format), func(b *testing.B) {
				for b.Loop() {
					f, err := everyFigure[name](c)
					if err != nil {
						b.Fatal(err)
					}
					if _, err := page.Encode(f, format, page.Options{}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
