package plotting

import "testing"

// BenchmarkFigures builds and encodes figures of a four-shaft driveline, all but reading the file.
func BenchmarkFigures(b *testing.B) {
	c := twoPiece(b)
	for _, name := range []string{"speed", "vectors", "views", "sheet"} {
		for _, format := range []Format{SVG, PNG, PDF} {
			b.Run(name+"/"+string(format), func(b *testing.B) {
				for b.Loop() {
					f, err := everyFigure[name](c)
					if err != nil {
						b.Fatal(err)
					}
					if _, err := Encode(f, format, Options{}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
