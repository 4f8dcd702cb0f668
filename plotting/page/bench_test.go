package page

import (
	"testing"
)

func BenchmarkEncode(b *testing.B) {
	figures := demos()
	for _, name := range []string{"one", "four", "sheet", "slide"} {
		for _, format := range []Format{PNG, SVG, PDF} {
			b.Run(name+"/"+string(format), func(b *testing.B) {
				for b.Loop() {
					if _, err := Encode(figures[name], format, Options{}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
