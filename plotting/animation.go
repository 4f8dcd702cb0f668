package plotting

import (
	"context"
	"fmt"
	"image/color"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"halfturn/kinematics"
	"halfturn/plotting/page"
	"halfturn/plotting/scene"
)

// An Animation is one whole turn of a driveline: its yokes and crosses above the speeds
// of its shafts. It is made by NewAnimation.
//
// The yokes look the same again after half a turn but for their marks; the whole turn is
// shown because the axis of the curves is one.
type Animation struct {
	*turning
	options AnimationOptions
}

// AnimationOptions say how an animation runs.
type AnimationOptions struct {
	Frames        int     // in the turn, 8 to 720
	Seconds       float64 // for the turn, at least 0.02 for each frame, up to 600; 0: none, the frames are shown by hand
	Width, Height int     // pixels, 480 × 320 to 3840 × 2160; both 0: 720 wide and as high as the driveline needs
	// Progress, unless nil, is told of the frames drawn.
	Progress func(done, all int64, thing string)
}

// NewAnimation returns the animation of a driveline whose first shaft turns uniformly.
func NewAnimation(c *Case, o AnimationOptions) (*Animation, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if o.Width == 0 && o.Height == 0 {
		const usual, each = 3, 6 // joints, and pixels for each more
		o.Width, o.Height = 720, 480+each*max(0, len(c.Joints)-usual)
		o.Height = min(o.Height, largestH)
	}
	if err := o.check(); err != nil {
		return nil, err
	}
	return &Animation{c.over(Driving), o}, nil
}

// Limits of an animation. Players show no shorter frames; they slow down instead.
const (
	fewestFrames, mostFrames = 8, 720
	longestTurn              = 600.0 // s
	shortestFrame            = 0.02  // s
	smallestW, largestW      = 480, 3840
	smallestH, largestH      = 320, 2160
	mostPixels               = 300_000_000 // in all frames, which bounds the memory
)

func (o AnimationOptions) check() error {
	switch {
	case o.Frames < fewestFrames || o.Frames > mostFrames:
		return fmt.Errorf("frames: %d: want %d to %d", o.Frames, fewestFrames, mostFrames)
	case o.Seconds != 0 && !(o.Seconds >= shortestFrame*float64(o.Frames) && o.Seconds <= longestTurn):
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
func (o AnimationOptions) size() page.Size {
	w, h := vg.Length(o.Width), vg.Length(o.Height)
	text := min(w/60, h/40)
	return page.Size{Width: w, Height: h, Text: text, Border: 1.2 * text}
}

// Figure returns frame i, counted from zero.
func (a *Animation) Figure(i int) *page.Figure {
	deg := 360 * float64(i) / float64(a.options.Frames)
	yokes := &page.Panel{Bare: true}
	yokes.Moving = []plot.Plotter{a.yokesAt(deg * kinematics.Degree)}
	curves := speed.everyShaft(a.turning, a.leftName())
	curves.Moving = a.moment(deg)
	return &page.Figure{
		Title:    "How does the driveline turn?",
		Subtitle: a.subtitle(),
		Rows:     []page.Row{{Panels: []*page.Panel{yokes}, Height: 1.7}, {Panels: []*page.Panel{curves}}},
		Legend:   page.LegendBottom,
		Caption:  a.caption(),
		Size:     a.options.size(),
	}
}

// moment marks a rotation of the first shaft, in degrees, and where all shafts stand
// then.
func (a *Animation) moment(deg float64) []plot.Plotter {
	return []plot.Plotter{
		page.Rule{At: deg, Upright: true, Label: fmt.Sprintf("θ = %.0f°", deg), Pen: draw.LineStyle{Color: page.Ink, Width: 0.8}},
		page.Drawing{Draw: func(s *page.Sketch) {
			for k, p := range a.points(deg) {
				s.Circle(a.colour(k), draw.LineStyle{Color: page.Paper, Width: 1}, p, 0.36*s.Em())
			}
		}},
	}
}

// points returns where the curves of all shafts are at a rotation of the first one, in
// degrees.
func (a *Animation) points(deg float64) []plotter.XY {
	var points []plotter.XY
	for _, m := range a.motions {
		state := m.At(deg * kinematics.Degree)
		points = append(points, plotter.XY{X: deg, Y: speed.unit * (speed.of(state) - speed.base)})
	}
	return points
}

// caption says how much slower than the driveline this is, and from where it is seen.
func (a *Animation) caption() string {
	pace := fmt.Sprintf("%d images make one turn", a.options.Frames)
	if seconds := a.options.Seconds; seconds > 0 {
		pace = fmt.Sprintf("One turn takes %.4g s here", seconds)
		if a.RPM > 0 {
			pace += fmt.Sprintf(", %s times as long as at %.6g rev/min", significant(seconds*a.RPM/60), a.RPM)
		}
	}
	return pace + ". " + viewCaption
}

// palette returns the colours of an animation: all tones of its shafts, steel and ink,
// which are also those between text or lines and the paper. Colour 0 is transparent.
func (a *Animation) palette() color.Palette {
	colours := color.Palette{color.RGBA{}}
	add := func(c color.RGBA) {
		if !slices.Contains(colours, color.Color(c)) {
			colours = append(colours, c)
		}
	}
	for _, c := range []color.RGBA{page.Line, page.Faint, page.Shade} {
		add(c)
	}
	bases := []color.RGBA{page.Ink, page.Soft}
	for k := range a.Shafts {
		bases = append(bases, a.colour(k))
	}
	for _, c := range bases {
		for k := range scene.Tones + 1 {
			add(scene.Tone(c, float64(k)/scene.Tones))
		}
	}
	return colours
}

// GIF returns the animation, which must have a duration, as a file that runs forever. The
// same animation gives the same bytes. It fails with the error of ctx if that ends first.
func (a *Animation) GIF(ctx context.Context) ([]byte, error) {
	if a.options.Seconds == 0 {
		return nil, fmt.Errorf("duration of a turn: 0 s: want one above 0")
	}
	return a.film().GIF(ctx, a.options.Seconds, a.palette())
}

// PNGs returns the frames of the animation as image files. It fails with the error of ctx
// if that ends first.
func (a *Animation) PNGs(ctx context.Context) ([][]byte, error) { return a.film().PNGs(ctx) }

// film returns the frames, with one pixel for each point.
func (a *Animation) film() page.Film {
	return page.Film{Frames: a.options.Frames, Figure: a.Figure, DPI: 72, Progress: a.options.Progress}
}
