package page

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"math/rand/v2"
	"slices"
	"testing"
)

// played returns what a player of GIF shows after each frame, and each frame's duration
// in hundredths of a second.
func played(t *testing.T, data []byte) (shown []*image.RGBA, delays []int) {
	t.Helper()
	g, err := gif.DecodeAll(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if g.LoopCount != 0 {
		t.Errorf("loop count %d, want 0: forever", g.LoopCount)
	}
	screen := image.NewRGBA(image.Rect(0, 0, g.Config.Width, g.Config.Height))
	for i, part := range g.Image {
		if g.Disposal[i] != gif.DisposalNone {
			t.Errorf("frame %d: disposal %d, want %d: it stays", i, g.Disposal[i], gif.DisposalNone)
		}
		draw.Draw(screen, part.Rect, part, part.Rect.Min, draw.Over)
		copied := *screen
		copied.Pix = bytes.Clone(screen.Pix)
		shown = append(shown, &copied)
	}
	return shown, g.Delay
}

// Only what changes is stored, and yet the player shows every frame whole.
func TestGIFShowsEveryFrame(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	colours := color.Palette{color.RGBA{}, Paper, Ink, Signal, Navy}
	frames := make([]*image.Paletted, 12)
	for i := range frames {
		frames[i] = image.NewPaletted(image.Rect(0, 0, 40, 30), colours)
		for p := range frames[i].Pix {
			frames[i].Pix[p] = 1
			if i > 0 {
				frames[i].Pix[p] = frames[i-1].Pix[p]
			}
		}
		if i == 5 {
			continue // the same as the one before
		}
		for range rnd.IntN(20) {
			frames[i].Pix[rnd.IntN(40*30)] = uint8(1 + rnd.IntN(4))
		}
	}
	data, err := encodeGIF(slices.Clone(frames), 1)
	if err != nil {
		t.Fatal(err)
	}
	shown, delays := played(t, data)
	if len(shown) != len(frames) {
		t.Fatalf("got %d frames, want %d", len(shown), len(frames))
	}
	sum := 0
	for i, frame := range frames {
		for y := range 30 {
			for x := range 40 {
				if got, want := shown[i].RGBAAt(x, y), frame.At(x, y); got != want {
					t.Fatalf("frame %d at (%d, %d): got %v, want %v", i, x, y, got, want)
				}
			}
		}
		if d := delays[i]; d != 8 && d != 9 {
			t.Errorf("frame %d lasts %d/100 s, want the nearest to 100/12", i, d)
		}
		sum += delays[i]
	}
	if sum != 100 {
		t.Errorf("the frames last %d/100 s, want 100", sum)
	}
}

func TestDifference(t *testing.T) {
	t.Parallel()
	colours := color.Palette{color.RGBA{}, Paper, Ink}
	before := image.NewPaletted(image.Rect(0, 0, 9, 9), colours)
	for i := range before.Pix {
		before.Pix[i] = 1
	}
	after := *before
	after.Pix = bytes.Clone(before.Pix)
	after.SetColorIndex(2, 3, 2)
	after.SetColorIndex(6, 4, 2)
	got := difference(before, &after)
	if want := image.Rect(2, 3, 7, 5); got.Rect != want {
		t.Fatalf("got part %v, want %v", got.Rect, want)
	}
	for y := 3; y < 5; y++ {
		for x := 2; x < 7; x++ {
			want := uint8(0)
			if (x == 2 && y == 3) || (x == 6 && y == 4) {
				want = 2
			}
			if got := got.ColorIndexAt(x, y); got != want {
				t.Errorf("(%d, %d): colour %d, want %d", x, y, got, want)
			}
		}
	}
	if got := difference(before, before); got.Rect.Dx() != 1 || got.Rect.Dy() != 1 || got.Pix[0] != 0 {
		t.Errorf("no change: got %v, want one transparent pixel", got.Rect)
	}
}

// Colours of the palette stay what they are; any other becomes the nearest, and none
// becomes transparent.
func TestIndexed(t *testing.T) {
	t.Parallel()
	colours := color.Palette{color.RGBA{}, Paper, Ink, Soft, Navy, Signal, Lagoon, color.RGBA{R: 200, G: 200, B: 200, A: 0xFF}}
	rnd := rand.New(rand.NewPCG(1, 1))
	img := image.NewRGBA(image.Rect(0, 0, 60, 60))
	for i := range 60 * 60 {
		c := color.RGBA{uint8(rnd.IntN(256)), uint8(rnd.IntN(256)), uint8(rnd.IntN(256)), 0xFF}
		if i < len(colours)-1 {
			c = colours[1+i].(color.RGBA)
		}
		img.SetRGBA(i%60, i/60, c)
	}
	got := indexed(img, nil, nil, colours)
	square := func(a, b uint8) int { return (int(a) - int(b)) * (int(a) - int(b)) }
	for i, index := range got.Pix {
		c := img.RGBAAt(i%60, i/60)
		if index == 0 {
			t.Fatalf("%v became transparent", c)
		}
		if i < len(colours)-1 && colours[index] != c {
			t.Errorf("%v of the palette became %v", c, colours[index])
		}
		apart := func(p color.Color) int {
			q := p.(color.RGBA)
			return square(c.R, q.R) + square(c.G, q.G) + square(c.B, q.B)
		}
		for _, other := range colours[1:] {
			if apart(other) < apart(colours[index]) {
				t.Fatalf("%v became %v: %v is nearer", c, colours[index], other)
			}
		}
	}
}
