package plotting

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// light is the direction that light comes from relative to the picture: over the viewer's left shoulder.
func (v viewpoint) light() r3.Vec {
	return r3.Unit(r3.Add(r3.Add(r3.Scale(-0.4, v.right), r3.Scale(0.7, v.up)), r3.Scale(0.6, v.toward)))
}

// lightness returns how light a face of a solid is drawn, as a fraction of the way from its colour to that of paper:
// lighter toward the light, and lighter the farther away.
func (s *solid) lightness(v viewpoint, normal r3.Vec) float64 {
	const darkest, fromLight = 0.18, 0.42
	return darkest + fromLight*max(0, r3.Dot(normal, v.light())) + s.distance(v)
}

// distance returns how much lighter a solid is drawn for being farther away.
func (s *solid) distance(v viewpoint) float64 {
	const middle, eachUnit = 0.11, 0.22
	return middle + eachUnit*(v.depth(s.about)-v.depth(s.middle()))
}

// tones is the number of steps of lightness between a colour and paper.
const tones = 12

// tone returns the colour lightened by a fraction of the way to paper, in steps.
func tone(c color.RGBA, lightness float64) color.RGBA {
	k := int(math.Round(min(max(lightness, 0), 1) * tones))
	mix := func(from, to uint8) uint8 { return uint8((int(from)*(tones-k) + int(to)*k + tones/2) / tones) }
	return color.RGBA{mix(c.R, Paper.R), mix(c.G, Paper.G), mix(c.B, Paper.B), 0xFF}
}
