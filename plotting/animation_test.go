package plotting

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image/gif"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"halfturn/plotting/page"
)

func newAnimation(t testing.TB, c *Case, o AnimationOptions) *Animation {
	t.Helper()
	a, err := NewAnimation(c, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// standardTurn is what the command makes unless told otherwise.
var standardTurn = AnimationOptions{Frames: 60, Seconds: 5}

// A turn of the usual 60 frames takes less than 1 MB: here a fifth of them, which differ
// no less from each other, take less than a fifth of that.
func TestGIFIsSmall(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"two-piece", "twelve shafts"} { // the largest of few joints, and many
		data, err := newAnimation(t, turningCases(t)[name], AnimationOptions{Frames: 12, Seconds: 1}).GIF(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if len(data) >= 200_000 {
			t.Errorf("%s: got %d bytes, want less than 200 kB", name, len(data))
		}
		g, err := gif.DecodeAll(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		sum := 0
		for _, d := range g.Delay {
			sum += d
		}
		if len(g.Image) != 12 || sum != 100 || g.Config.Width != 720 {
			t.Errorf("%s: got %d frames in %d/100 s, %d pixels wide, want 12 in 100/100 s, 720 wide", name, len(g.Image), sum, g.Config.Width)
		}
	}
}

// The images are those of the figures, and the same every time.
func TestAnimationIsDeterministic(t *testing.T) {
	t.Parallel()
	const n = 8
	a := newAnimation(t, twoPiece(t), AnimationOptions{Frames: n, Seconds: 1, Width: 480, Height: 320})
	images, err := a.PNGs(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for i := range n {
		want, err := page.Encode(a.Figure(i), page.PNG, page.Options{DPI: 72})
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(images[i], want) {
			t.Errorf("image %d: got other bytes than of its figure alone", i)
		}
	}
	first, err := a.GIF(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if second, err := a.GIF(t.Context()); err != nil || !bytes.Equal(first, second) {
		t.Errorf("a second run gave other bytes, %v", err)
	}
}

// From frame to frame only the yokes and the marker move: axes, ticks and all texts stay.
func TestFramesKeepTheirLayout(t *testing.T) {
	t.Parallel()
	for name, c := range turningCases(t) {
		a := newAnimation(t, c, AnimationOptions{Frames: 16})
		first, err := a.Figure(0).Places()
		if err != nil {
			t.Fatal(err)
		}
		for i := 1; i < 16; i++ {
			places, err := a.Figure(i).Places()
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(places, first) {
				t.Errorf("%s: frame %d: panels at %v, want them at %v", name, i, places, first)
			}
		}
	}
}

// The marker stands on the curves.
func TestMarkerIsOnTheCurves(t *testing.T) {
	t.Parallel()
	c := twoPiece(t)
	a := newAnimation(t, c, AnimationOptions{Frames: 24})
	for i := range 24 {
		curves := a.Figure(i).Rows[1].Panels[0]
		want := 360 * float64(i) / 24
		for _, layer := range curves.Moving {
			if rule, ok := layer.(page.Rule); ok && rule.Upright {
				if rule.At != want || rule.Label != fmt.Sprintf("θ = %.0f°", want) {
					t.Errorf("frame %d: marker %q at %v, want %v", i, rule.Label, rule.At, want)
				}
			}
		}
		for k, p := range a.points(want) {
			for _, layer := range curves.Layers {
				curve, ok := layer.(page.Curve)
				if !ok || curve.Pen.Color != c.colour(k) {
					continue
				}
				x, y := columns(curve)
				at := slices.Index(x, want)
				if at < 0 || p.X != want || y[at] != p.Y {
					t.Errorf("frame %d: shaft %d marked at %v, its curve has %v", i, k+1, p, y[at])
				}
			}
		}
	}
}

// The yokes stand where the marker says.
func TestYokesStandAtTheMarker(t *testing.T) {
	t.Parallel()
	c := twoPiece(t)
	a := newAnimation(t, c, AnimationOptions{Frames: 9})
	for i := range 9 {
		got := strokes(t, a.Figure(i).Rows[0].Panels[0].Moving[0].(page.Drawing))
		want := strokes(t, c.yokesAt(2*math.Pi*float64(i)/9))
		before := strokes(t, c.yokesAt(2*math.Pi*(float64(i)-0.1)/9))
		if !sameLines(got, want) || sameLines(got, before) {
			t.Errorf("frame %d shows another rotation than its marker", i)
		}
	}
}

// sameLines reports whether lines are the same but for rounding.
func sameLines(a, b []vg.Path) bool {
	return slices.EqualFunc(a, b, func(p, q vg.Path) bool {
		return slices.EqualFunc(p, q, func(c, d vg.PathComp) bool {
			return c.Type == d.Type && math.Hypot(float64(c.Pos.X-d.Pos.X), float64(c.Pos.Y-d.Pos.Y)) < 1e-9
		})
	})
}

func TestCaptionTellsThePace(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		rpm  float64
		o    AnimationOptions
		want string
	}{
		{"slower", 3000, AnimationOptions{Frames: 60, Seconds: 5}, "One turn takes 5 s here, 250 times as long as at 3000 rev/min."},
		{"at a crawl", 6, AnimationOptions{Frames: 60, Seconds: 5}, "One turn takes 5 s here, 0.500 times as long as at 6 rev/min."},
		{"no speed", 0, AnimationOptions{Frames: 60, Seconds: 2.5}, "One turn takes 2.5 s here."},
		{"shown by hand", 3000, AnimationOptions{Frames: 36}, "36 images make one turn."},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			a := newAnimation(t, newCase(t, test.rpm, [][2]float64{{0, 0}, {9, 0}}), test.o)
			if got := a.Figure(3).Caption; !strings.HasPrefix(got, test.want+" Seen from the right, 35° from behind") {
				t.Errorf("got %q, want it to begin with %q and the viewpoint", got, test.want)
			}
		})
	}
}

func TestAnimationRefuses(t *testing.T) {
	t.Parallel()
	c := twoPiece(t)
	for _, test := range []struct {
		name string
		c    *Case
		o    AnimationOptions
		want string
	}{
		{"no case", nil, standardTurn, "case: is nil"},
		{"too few frames", c, AnimationOptions{Frames: 7, Seconds: 5}, "frames: 7: want 8 to 720"},
		{"too many frames", c, AnimationOptions{Frames: 721}, "frames: 721: want 8 to 720"},
		{"frames too short", c, AnimationOptions{Frames: 100, Seconds: 1.9}, "duration of a turn: 1.9 s: want 2 s (0.02 s for each of 100 frames) to 600 s"},
		{"too long", c, AnimationOptions{Frames: 100, Seconds: 601}, "duration of a turn: 601 s"},
		{"negative", c, AnimationOptions{Frames: 100, Seconds: -1}, "duration of a turn: -1 s"},
		{"not a number", c, AnimationOptions{Frames: 100, Seconds: math.NaN()}, "duration of a turn: NaN s"},
		{"infinite", c, AnimationOptions{Frames: 100, Seconds: math.Inf(1)}, "duration of a turn: +Inf s"},
		{"too small", c, AnimationOptions{Frames: 60, Width: 479, Height: 400}, "size: 479 × 400 pixels: want 480 × 320 to 3840 × 2160 pixels"},
		{"no height", c, AnimationOptions{Frames: 60, Width: 640}, "size: 640 × 0 pixels"},
		{"too large", c, AnimationOptions{Frames: 60, Width: 1280, Height: 2161}, "size: 1280 × 2161 pixels"},
		{"too much", c, AnimationOptions{Frames: 720, Width: 1920, Height: 1080}, "720 frames of 1920 × 1080 pixels: want at most 300 million pixels in all"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if _, err := NewAnimation(test.c, test.o); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got error %v, want %q", err, test.want)
			}
		})
	}
	if _, err := newAnimation(t, c, AnimationOptions{Frames: 8}).GIF(t.Context()); err == nil || !strings.Contains(err.Error(), "0 s") {
		t.Errorf("GIF without a duration: got error %v", err)
	}
}

func TestAnimationEndsWithItsContext(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	a := newAnimation(t, twoPiece(t), standardTurn)
	if data, err := a.GIF(ctx); data != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("GIF: got %d bytes and error %v, want none and %v", len(data), err, context.Canceled)
	}
	if images, err := a.PNGs(ctx); images != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("PNGs: got %d images and error %v, want none and %v", len(images), err, context.Canceled)
	}
}

func TestYokes(t *testing.T) {
	t.Parallel()
	for name, c := range turningCases(t) {
		f, err := Yokes(c, 1)
		if err != nil {
			t.Fatal(err)
		}
		texts := inks(t, f)
		for k := range c.Joints {
			angle := degrees(c.Analysis.Bends[k].Angle)
			if !slices.ContainsFunc(texts, func(i ink) bool { return strings.HasSuffix(i.text, angle) }) {
				t.Errorf("%s: the angle of joint %d, %s, is not written", name, k+1, angle)
			}
		}
	}
	if _, err := Yokes(twoPiece(t), math.NaN()); err == nil {
		t.Error("a rotation that is no number: got no error")
	}
	if _, err := Yokes(nil, 0); err == nil {
		t.Error("no case: got no error")
	}
}

func BenchmarkGIF(b *testing.B) {
	for _, name := range []string{"single, 35°", "two-piece", "twelve shafts"} {
		b.Run(name, func(b *testing.B) {
			a := newAnimation(b, turningCases(b)[name], standardTurn)
			for b.Loop() {
				data, err := a.GIF(b.Context())
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(data)), "bytes")
			}
		})
	}
}

// Everything that is drawn in one colour is in the palette as it is, and a pixel takes 7
// bits at most.
func TestPaletteHoldsWhatIsDrawn(t *testing.T) {
	t.Parallel()
	c := turningCases(t)["twelve shafts"]
	colours := newAnimation(t, c, standardTurn).palette()
	if len(colours) > 128 {
		t.Errorf("palette of %d colours: want at most 128", len(colours))
	}
	var drawn recorder.Canvas
	f, err := Yokes(c, 1)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Draw(draw.NewCanvas(&drawn, f.Size.Width, f.Size.Height)); err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, a := range drawn.Actions {
		if set, ok := a.(*recorder.SetColor); ok {
			seen++
			if !slices.Contains(colours[1:], set.Color) {
				t.Errorf("colour %v is drawn and not in the palette", set.Color)
			}
		}
	}
	if seen < 100 {
		t.Errorf("%d colours set: want those of all faces", seen)
	}
}
