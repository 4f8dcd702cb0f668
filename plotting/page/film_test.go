package page

import (
	"bytes"
	"errors"
	"fmt"
	"image/color"
	"image/png"
	"sync/atomic"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// film is a mark that runs along a curve, with a label above the data area that runs with
// it.
func film(frames int) Film {
	return Film{Frames: frames, DPI: 40, Figure: func(i int) *Figure {
		p := demoSpeed("speed")
		at := 360 * float64(i) / float64(frames)
		p.Moving = []plot.Plotter{
			Rule{At: at, Upright: true, Label: fmt.Sprintf("θ = %.0f°", at), Pen: Aid()},
			Mark{At: plotter.XY{X: at, Y: 0.5}, Color: Signal, Marker: draw.CircleGlyph{}},
		}
		f := &Figure{Title: "How does it turn?"}
		f.Add(p)
		return f
	}}
}

// Each frame is its figure, though what stands still is drawn once.
func TestFilmShowsItsFigures(t *testing.T) {
	t.Parallel()
	const n = 6
	f := film(n)
	files, err := f.PNGs(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	colours := color.Palette{color.RGBA{}, Paper, Ink, Soft, Faint, Signal, Navy, Lagoon}
	data, err := f.GIF(t.Context(), 1, colours)
	if err != nil {
		t.Fatal(err)
	}
	shown, _ := played(t, data)
	for i := range n {
		img, err := f.Figure(i).render(40, (*layout).draw)
		if err != nil {
			t.Fatal(err)
		}
		var want bytes.Buffer
		if err := png.Encode(&want, img); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(files[i], want.Bytes()) {
			t.Errorf("image %d is not that of its figure", i)
		}
		nearest := indexed(img, nil, nil, colours)
		for p := range nearest.Pix {
			x, y := p%nearest.Stride, p/nearest.Stride
			if got := shown[i].RGBAAt(x, y); got != nearest.At(x, y) {
				t.Fatalf("frame %d of the GIF at (%d, %d): got %v, want %v", i, x, y, got, nearest.At(x, y))
			}
		}
	}
}

// Progress rises by one frame at a time up to all of them.
func TestFilmProgress(t *testing.T) {
	t.Parallel()
	const n = 5
	f := film(n)
	told := int64(0)
	f.Progress = func(done, all int64, thing string) {
		if told++; done != told || all != n || thing != "frame" {
			t.Errorf("told %d of %d %ss, want %d of %d frames", done, all, thing, told, n)
		}
	}
	if _, err := f.PNGs(t.Context()); err != nil || told != n {
		t.Errorf("told %d times and error %v, want %d times", told, err, n)
	}
}

func TestInParallel(t *testing.T) {
	t.Parallel()
	for _, workers := range []int{1, 2, 7, 40} {
		var done [30]atomic.Int32
		err := inParallel(t.Context(), len(done), workers, func(i int) error {
			done[i].Add(1)
			return nil
		})
		if err != nil {
			t.Errorf("%d workers: %v", workers, err)
		}
		for i := range done {
			if n := done[i].Load(); n != 1 {
				t.Errorf("%d workers: %d was done %d times", workers, i, n)
			}
		}
		fault := errors.New("a fault")
		err = inParallel(t.Context(), 30, workers, func(i int) error {
			if i == 11 {
				return fault
			}
			return nil
		})
		if err != fault {
			t.Errorf("%d workers: got error %v, want %v", workers, err, fault)
		}
	}
}
