package scene

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// light is the direction that light comes from relative to the picture: over the viewer's
// left shoulder.
func (v View) light() r3.Vec {
	return r3.Unit(r3.Add(r3.Add(r3.Scale(-0.4, v.right), r3.Scale(0.7, v.up)), r3.Scale(0.6, v.toward)))
}

// lightness returns how light a face of a solid is drawn, as a fraction of the way from
// its colour to that of paper: lighter toward the light, and lighter the farther away.
func (s *solid) lightness(v View, normal r3.Vec) float64 {
	const darkest, fromLight = 0.18, 0.42
	return darkest + fromLight*max(0, r3.Dot(normal, v.light())) + s.distance(v)
}

// distance returns how much lighter a solid is drawn for being farther away.
func (s *solid) distance(v View) float64 {
	const middle, eachUnit = 0.11, 0.22
	return middle + eachUnit*(v.depth(s.about)-v.depth(s.middle()))
}

// Tones is the number of steps of lightness between a colour and white paper.
const Tones = 12

// Tone returns the colour lightened by a fraction of the way to paper, in steps.
func Tone(c color.RGBA, lightness float64) color.RGBA {
	k := int(math.Round(min(max(lightness, 0), 1) * Tones))
	mix := func(from uint8) uint8 { return uint8((int(from)*(Tones-k) + 0xFF*k + Tones/2) / Tones) }
	return color.RGBA{mix(c.R), mix(c.G), mix(c.B), 0xFF}
}
