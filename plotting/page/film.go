package page

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"runtime"
	"sync"

	"gonum.org/v1/plot/vg/vgimg"
)

// A Film is a number of figures that are alike but for the Moving layers of their panels,
// so that what stands still is drawn once.
type Film struct {
	Frames int
	Figure func(i int) *Figure // i from 0; called by several goroutines
	DPI    int                 // as of Options
	// Progress, unless nil, is told of every frame that is drawn, never twice at a time.
	Progress func(done, all int64, thing string)
}

// GIF returns the film as a file that shows it forever, each time in a number of seconds,
// in the nearest colours of a palette, of which the first is to be transparent. The same
// film gives the same bytes. It fails with the error of ctx if that ends first.
func (f Film) GIF(ctx context.Context, seconds float64, colours color.Palette) ([]byte, error) {
	s, err := f.still()
	if err != nil {
		return nil, err
	}
	ground := indexed(s.ground, nil, nil, colours)
	frames := make([]*image.Paletted, f.Frames)
	err = f.eachFrame(ctx, s, func(i int, img *image.RGBA) error {
		frames[i] = indexed(img, s.ground, ground, colours)
		return nil
	})
	if err != nil {
		return nil, err
	}
	return encodeGIF(frames, seconds)
}

// PNGs returns the frames as image files. It fails with the error of ctx if that ends
// first.
func (f Film) PNGs(ctx context.Context) ([][]byte, error) {
	s, err := f.still()
	if err != nil {
		return nil, err
	}
	files := make([][]byte, f.Frames)
	err = f.eachFrame(ctx, s, func(i int, img *image.RGBA) error {
		var file bytes.Buffer
		err := png.Encode(&file, img)
		files[i] = file.Bytes()
		return err
	})
	if err != nil {
		return nil, err
	}
	return files, nil
}

// A still is what all frames of a film have in common.
type still struct {
	ground *image.RGBA
	places []Place
	dpi    int
}

func (f Film) still() (*still, error) {
	first := f.Figure(0)
	dpi, err := Options{DPI: f.DPI}.dpi()
	if err != nil {
		return nil, err
	}
	places, err := first.Places()
	if err != nil {
		return nil, err
	}
	ground, err := first.render(dpi, (*layout).drawStill)
	return &still{ground, places, dpi}, err
}

// frame draws a figure of the film.
func (s *still) frame(f *Figure) (*image.RGBA, error) {
	f.Held = s.places
	var img *image.RGBA
	_, err := f.encode(func(l *layout) ([]byte, error) {
		c := l.image(s.dpi)
		img = pixels(c)
		copy(img.Pix, s.ground.Pix)
		l.drawMoving(outlineText{c})
		return nil, nil
	})
	return img, err
}

// eachFrame does something with every frame, on all processors.
func (f Film) eachFrame(ctx context.Context, s *still, do func(i int, img *image.RGBA) error) error {
	var counting sync.Mutex
	drawn := int64(0)
	return inParallel(ctx, f.Frames, runtime.GOMAXPROCS(0), func(i int) error {
		img, err := s.frame(f.Figure(i))
		if err != nil {
			return err
		}
		if err := do(i, img); err != nil || f.Progress == nil {
			return err
		}
		counting.Lock()
		defer counting.Unlock()
		drawn++
		f.Progress(drawn, int64(f.Frames), "frame")
		return nil
	})
}

// inParallel does something for each number from 0 up to n, this one left out, until it
// is done, something fails or the context ends.
func inParallel(ctx context.Context, n, workers int, do func(i int) error) error {
	var working sync.WaitGroup
	failed := make([]error, workers)
	for w := range workers {
		working.Go(func() {
			for i := w; i < n && failed[w] == nil && ctx.Err() == nil; i += workers {
				failed[w] = do(i)
			}
		})
	}
	working.Wait()
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("interrupted: %w", err)
	}
	return cmp.Or(failed...)
}

// pixels returns what an image canvas draws on.
func pixels(c *vgimg.Canvas) *image.RGBA { return c.Image().(*image.RGBA) }
