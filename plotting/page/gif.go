package page

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/gif"
	"math"
)

// indexed returns an image in the nearest colours of a palette, other than its
// transparent one. Pixels that are as in a ground of the same size need not be looked up.
func indexed(img, ground *image.RGBA, known *image.Paletted, colours color.Palette) *image.Paletted {
	dst := image.NewPaletted(img.Rect, colours)
	looked := make(map[uint32]uint8)
	for i := range dst.Pix {
		pixel := binary.LittleEndian.Uint32(img.Pix[4*i:])
		if ground != nil && pixel == binary.LittleEndian.Uint32(ground.Pix[4*i:]) {
			dst.Pix[i] = known.Pix[i]
			continue
		}
		index, ok := looked[pixel]
		if !ok {
			p := img.Pix[4*i : 4*i+4]
			index = uint8(1 + colours[1:].Index(color.RGBA{p[0], p[1], p[2], p[3]}))
			looked[pixel] = index
		}
		dst.Pix[i] = index
	}
	return dst
}

// encodeGIF returns the frames, all of one size and palette, as a file that shows them
// forever in turn, all together in a number of seconds. Each frame holds what differs
// from the one before it. The frames are used up.
func encodeGIF(frames []*image.Paletted, seconds float64) ([]byte, error) {
	first := frames[0]
	g := &gif.GIF{Config: image.Config{
		ColorModel: first.Palette,
		Width:      first.Rect.Dx(),
		Height:     first.Rect.Dy(),
	}}
	due := 0 // hundredths of a second
	for i, frame := range frames {
		if i > 0 {
			frame = difference(frames[i-1], frame)
			frames[i-1] = nil // a film in full is large
		}
		next := int(math.Round(100 * seconds * float64(i+1) / float64(len(frames))))
		g.Image = append(g.Image, frame)
		g.Delay = append(g.Delay, next-due)
		g.Disposal = append(g.Disposal, gif.DisposalNone)
		due = next
	}
	var buf bytes.Buffer
	err := gif.EncodeAll(&buf, g)
	return buf.Bytes(), err
}

// difference returns the part of a frame in which it differs from the one before, what
// does not differ in it being transparent.
func difference(before, frame *image.Paletted) *image.Paletted {
	var part image.Rectangle
	for y := frame.Rect.Min.Y; y < frame.Rect.Max.Y; y++ {
		for x := frame.Rect.Min.X; x < frame.Rect.Max.X; x++ {
			if i := frame.PixOffset(x, y); frame.Pix[i] != before.Pix[i] {
				part = part.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	if part.Empty() { // a frame has at least one pixel
		part = image.Rectangle{Min: frame.Rect.Min, Max: frame.Rect.Min.Add(image.Pt(1, 1))}
	}
	diff := image.NewPaletted(part, frame.Palette)
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			if i := frame.PixOffset(x, y); frame.Pix[i] != before.Pix[i] {
				diff.Pix[diff.PixOffset(x, y)] = frame.Pix[i]
			}
		}
	}
	return diff
}
