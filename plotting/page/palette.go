package page

import (
	"image/color"

	"gonum.org/v1/plot/palette/moreland"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Colours of everything that is not data.
var (
	Paper = rgb(0xFFFFFF)
	Ink   = rgb(0x1B242D) // titles, names, what must be read
	Soft  = rgb(0x57626D) // numbers on axes, captions
	Line  = rgb(0x8A949D) // axis lines
	Faint = rgb(0xE1E5E8) // grid
	Shade = rgb(0xF1F3F4) // filled areas behind data
)

// Colours of curves, darkest first. Their CIE lightness falls in steps of about 8, so
// that they stay apart in grey print, and they stay apart for protan, deutan and tritan
// sight as simulated by Machado, Oliveira and Fernandes (IEEE TVCG 15, 2009); the tests
// hold both. The values were found by a random search for the largest least difference
// under these conditions.
var (
	Navy   = rgb(0x14326C)
	plum   = rgb(0x772B4E)
	moss   = rgb(0x396533)
	Signal = rgb(0xCC3C10) // kept for the curve that a figure is about
	Lagoon = rgb(0x208EA8)
	sand   = rgb(0xB68F5C)
)

// pens are the colours of ordinary curves in order of use: neighbours differ most.
var pens = []color.RGBA{Navy, Lagoon, plum, sand, moss}

// dashes are the dash patterns, in points at text size 10; the first is a full line.
var dashes = [][]vg.Length{
	nil,
	{6, 2.4},
	{1.5, 1.7},
	{8, 2, 1.5, 2},
	{3.4, 1.6},
	{9, 1.8, 1.5, 1.8, 1.5, 1.8},
}

// Hue returns the colour of the i-th ordinary curve, i ≥ 0: there are 5.
func Hue(i int) color.RGBA { return pens[i%len(pens)] }

// Pen returns the line of the i-th ordinary curve of a figure, i ≥ 0. Each of the first
// 30 differs from all others in colour, dash or both, and neighbours in both: there are 5
// colours and 6 dashes.
func Pen(i int) draw.LineStyle {
	return draw.LineStyle{Color: Hue(i), Width: 1.3, Dashes: dashes[i%len(dashes)]}
}

// Accent returns the heavy full line of the one curve that a figure is about.
func Accent() draw.LineStyle {
	return draw.LineStyle{Color: Signal, Width: 2.6}
}

// Aid returns the thin grey dashed line of theory, references and construction.
func Aid() draw.LineStyle {
	return draw.LineStyle{Color: Soft, Width: 0.8, Dashes: []vg.Length{3, 2}}
}

// Limit returns the dark dash-dotted line of what is acceptable.
func Limit() draw.LineStyle {
	return draw.LineStyle{Color: Ink, Width: 1.1, Dashes: []vg.Length{7, 2, 1.4, 2}}
}

// band returns the colour of a value at the fraction f of the scale of a Field, from
// light at 0 to dark at 1 with even steps of lightness. f outside [0, 1] takes the colour
// of the nearer end.
func band(f float64) color.Color {
	c, err := ramp.At(1 - min(max(f, 0), 1))
	if err != nil {
		panic(err) // the ramp covers [0, 1] and f is no NaN: Field.check refuses those
	}
	return c
}

var ramp = func() interface {
	At(float64) (color.Color, error)
} {
	r, err := moreland.NewLuminance([]color.Color{Navy, rgb(0x2E6A93), rgb(0x6FA6B4), rgb(0xB9D2CF), rgb(0xF6F3EA)})
	if err != nil {
		panic(err) // the five colours above are in order of lightness
	}
	r.SetMin(0)
	r.SetMax(1)
	return r
}()

func rgb(hex uint32) color.RGBA {
	return color.RGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xFF}
}
