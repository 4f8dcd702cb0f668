package plotting

import (
	"context"
	"errors"
	"fmt"
	"image"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// An Animation is one whole turn of a driveline: its yokes and crosses above the speeds of its shafts. It is made by
// NewAnimation.
//
// The yokes look the same again after half a turn but for their marks; the whole turn is shown because the axis of the
// curves is one.
type Animation struct {
	*turning
	AnimationOptions
}

// AnimationOptions say how an animation runs. Zero values stand for the defaults.
type AnimationOptions struct {
	Frames        int     // in a turn, 8 to 720; 0 means 60
	Seconds       float64 // for a turn, up to 600, and no less than 0.02 for a frame, which players would not show; 0 means 5
	Width, Height int     // pixels, 320 × 240 to 3840 × 2160; 0 means 720 × 450
}

// NewAnimation returns the animation of a driveline whose first shaft turns uniformly.
func NewAnimation(c *Case, o AnimationOptions) (*Animation, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	o = o.orDefaults()
	if err := o.check(); err != nil {
		return nil, err
	}
	return &Animation{c.over(Driving), o}, nil
}

func (o AnimationOptions) orDefaults() AnimationOptions {
	if o.Frames == 0 {
		o.Frames = 60
	}
	if o.Seconds == 0 {
		o.Seconds = 5
	}
	if o.Width == 0 && o.Height == 0 {
		o.Width, o.Height = 720, 480
	}
	return o
}

// Limits of an animation. A frame may be as short as players of GIF show it; mostPixels bounds the memory.
const (
	fewestFrames, mostFrames = 8, 720
	longestTurn              = 600.0 // s
	shortestFrame            = 0.02  // s
	smallestW, largestW      = 320, 3840
	smallestH, largestH      = 240, 2160
	mostPixels               = 300_000_000 // of all frames
)

func (o AnimationOptions) check() error {
	switch {
	case o.Frames < fewestFrames || o.Frames > mostFrames:
		return fmt.Errorf("frames: %d: want %d to %d", o.Frames, fewestFrames, mostFrames)
	case !(o.Seconds >= shortestFrame*float64(o.Frames) && o.Seconds <= longestTurn):
		return fmt.Errorf("duration of a turn: %g s: want %.4g s (%g s for each of %d frames) to %g s",
			o.Seconds, shortestFrame*float64(o.Frames), shortestFrame, o.Frames, longestTurn)
	case o.Width < smallestW || o.Width > largestW || o.Height < smallestH || o.Height > largestH:
		return fmt.Errorf("size: %d × %d pixels: want %d × %d to %d × %d pixels",
			o.Width, o.Height, smallestW, smallestH, largestW, largestH)
	case o.Width*o.Height*o.Frames > mostPixels:
		return fmt.Errorf("size: %d frames of %d × %d pixels: want at most %d million pixels in all",
			o.Frames, o.Width, o.Height, mostPixels/1_000_000)
	}
	return nil
}

// size returns the page that has one point for each pixel.
func (o AnimationOptions) size() Size {
	w, h := vg.Length(o.Width), vg.Length(o.Height)
	text := min(w/60, h/40)
	return Size{Width: w, Height: h, Text: text, Border: 1.2 * text}
}

// Figure returns frame i, counted from zero.
func (a *Animation) Figure(i int) *Figure {
	part := float64(i) / float64(a.Frames)
	yokes := &Panel{Bare: true}
	yokes.Add(a.yokesAt(2 * math.Pi * part))
	curves := speed.everyShaft(a.turning, a.leftName())
	curves.Add(a.moment(2 * math.Pi * part)...)
	return &Figure{
		Title:    "How does the driveline turn?",
		Subtitle: a.subtitle(),
		Rows:     []Row{{Panels: []*Panel{yokes}, Height: 1.7}, {Panels: []*Panel{curves}}},
		Legend:   LegendBottom,
		Caption:  a.caption(),
		Size:     a.size(),
	}
}

// moment marks a rotation of the first shaft, and where all shafts stand then.
func (a *Animation) moment(theta float64) []Layer {
	x := 360 * theta / (2 * math.Pi)
	points := Drawing{Draw: func(s *Sketch) {
		for k, m := range a.Analysis.Driving {
			at := XY{x, speed.unit * (m.At(theta).Ratio - speed.base)}
			s.Circle(a.colour(k), draw.LineStyle{Color: Paper, Width: 1}, at, 0.36*s.Em())
		}
	}}
	return []Layer{
		Rule{At: x, Upright: true, Label: fmt.Sprintf("θ = %.0f°", x), Pen: draw.LineStyle{Color: Ink, Width: 0.8}},
		points,
	}
}

// caption says what is seen, from where, and how much slower than it is.
func (a *Animation) caption() string {
	slow := fmt.Sprintf("One turn takes %.4g s here", a.Seconds)
	if a.RPM > 0 {
		slow += fmt.Sprintf(", %s times as long as at %.6g rev/min", significant(a.Seconds*a.RPM/60), a.RPM)
	}
	return slow + ". " + viewCaption
}

// GIF returns the animation as a file that runs forever. The same animation gives the same bytes.
func (a *Animation) GIF(ctx context.Context) ([]byte, error) {
	colours := a.palette()
	frames := make([]*image.Paletted, a.Frames)
	err := a.eachFrame(ctx, func(i int, f *Figure) error {
		img, err := Render(f, onePixelPerPoint)
		if err == nil {
			frames[i] = indexed(img, colours)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return encodeGIF(frames, a.Seconds)
}

// PNGs returns the frames of the animation as image files.
func (a *Animation) PNGs(ctx context.Context) ([][]byte, error) {
	frames := make([][]byte, a.Frames)
	err := a.eachFrame(ctx, func(i int, f *Figure) (err error) {
		frames[i], err = Encode(f, PNG, onePixelPerPoint)
		return err
	})
	return frames, err
}

var onePixelPerPoint = Options{DPI: 72}

// eachFrame does something with the figure of every frame, on all processors.
func (a *Animation) eachFrame(ctx context.Context, do func(i int, f *Figure) error) error {
	return inParallel(ctx, a.Frames, runtime.GOMAXPROCS(0), func(i int) error { return do(i, a.Figure(i)) })
}

// inParallel does something for each number from 0 up to n, this one left out, until it is all done, something fails or
// the context ends.
func inParallel(ctx context.Context, n, workers int, do func(i int) error) error {
	var next atomic.Int64
	var wg sync.WaitGroup
	failed := make([]error, workers)
	for w := range workers {
		wg.Go(func() {
			for ctx.Err() == nil && failed[w] == nil {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				failed[w] = do(i)
			}
		})
	}
	wg.Wait()
	if err := context.Cause(ctx); err != nil {
		return err
	}
	return errors.Join(failed...)
}
