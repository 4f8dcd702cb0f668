package page

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"path/filepath"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// A Format is a kind of image file.
type Format string

const (
	PNG Format = "png"
	SVG Format = "svg"
	PDF Format = "pdf"
)

// FormatOf returns the format that the ending of a file name asks for.
func FormatOf(path string) (Format, error) {
	ending := strings.ToLower(filepath.Ext(path))
	switch f := Format(strings.TrimPrefix(ending, ".")); f {
	case PNG, SVG, PDF:
		return f, nil
	}
	if ending == "" {
		return "", fmt.Errorf("figure file %q: no ending: want .png, .svg or .pdf", path)
	}
	return "", fmt.Errorf("figure file %q: ending %q: want .png, .svg or .pdf", path, ending)
}

// Options say how a figure is encoded. The zero value suits most.
type Options struct {
	DPI      int  // resolution of PNG in pixels per inch, 20 to 1200; 0 means 144
	Outlines bool // SVG: text as outlines, the same on every machine but not to be searched or edited
	// Fragment makes SVG to stand in a page: as large as its place there, without what is
	// for files, and with ids that begin with this.
	Fragment string
}

// Check refuses options that no figure can be encoded with.
func (o Options) Check() error {
	_, err := o.dpi()
	return err
}

func (o Options) dpi() (int, error) {
	switch {
	case o.DPI == 0:
		return 144, nil
	case o.DPI < 20 || o.DPI > 1200:
		return 0, fmt.Errorf("resolution: %d dpi: want 20 to 1200 dpi", o.DPI)
	}
	return o.DPI, nil
}

// Save writes a figure to a file in the format of its ending, whole or not at all.
func Save(path string, f *Figure, o Options) error {
	format, err := FormatOf(path)
	if err != nil {
		return err
	}
	data, err := Encode(f, format, o)
	if err != nil {
		return err
	}
	return WriteFile(path, data)
}

// Encode returns a figure as the bytes of a file. The same figure gives the same bytes.
// In PDF, text is in Liberation Sans, which the file brings along; in SVG it is in the
// same or, where that is missing, in Arial, which is as wide; there panels and their
// layers are groups with ids, panel-1 and panel-1-layer-1 the first of each.
func Encode(f *Figure, format Format, o Options) ([]byte, error) {
	switch format {
	case PNG:
		dpi, err := o.dpi()
		if err != nil {
			return nil, err
		}
		img, err := f.render(dpi, (*layout).draw)
		if err != nil {
			return nil, err
		}
		var buf bytes.Buffer
		if err := png.Encode(&buf, img); err != nil {
			return nil, err
		}
		return buf.Bytes(), nil
	case SVG:
		return f.encode(func(p *layout) ([]byte, error) { return p.svg(f.Title, o), nil })
	case PDF:
		if f == nil {
			return nil, errNoFigure
		}
		return Deck(f.Title, f)
	}
	return nil, fmt.Errorf("figure format %q: want %q, %q or %q", format, PNG, SVG, PDF)
}

// Draw draws the figure on any canvas, as large as that, with the text size and border
// of f.Size. All text comes as outlines, which look the same on every canvas.
func (f *Figure) Draw(c draw.Canvas) error {
	sized := *f
	sized.Size = f.size()
	sized.Size.Width, sized.Size.Height, sized.Size.Used = c.Size().X, c.Size().Y, 0
	_, err := sized.encode(func(p *layout) ([]byte, error) {
		c.Push()
		c.Translate(c.Min)
		p.draw(outlineText{c.Canvas})
		c.Pop()
		return nil, nil
	})
	return err
}

// Pixels returns how many a figure has as PNG.
func (f *Figure) Pixels(o Options) (float64, error) {
	dpi, err := o.dpi()
	size := f.size()
	return size.pixels(dpi), err
}

func (s Size) pixels(dpi int) float64 {
	return s.Width.Dots(float64(dpi)) * s.Height.Dots(float64(dpi))
}

// render returns what is drawn of a figure as an image.
func (f *Figure) render(dpi int, draw func(*layout, vg.Canvas)) (img *image.RGBA, err error) {
	_, err = f.encode(func(l *layout) ([]byte, error) {
		if n := l.size.pixels(dpi); n > largestImage {
			return nil, fmt.Errorf("image of %.0f million pixels: want at most %.0f million: a lower resolution or a smaller page", n/1e6, largestImage/1e6)
		}
		c := l.image(dpi)
		draw(l, outlineText{c})
		img = pixels(c)
		return nil, nil
	})
	return img, err
}

// image returns a canvas of the size of a page.
func (l *layout) image(dpi int) *vgimg.Canvas {
	return vgimg.NewWith(vgimg.UseWH(l.size.Width, l.size.Height), vgimg.UseDPI(dpi))
}

// largestImage bounds the memory that a PNG can ask for, in pixels of 4 bytes.
const largestImage = 150e6

var errNoFigure = errors.New("figure: is nil: want a figure")

// encode arranges a figure and has it drawn. The drawing library panics on what it cannot
// draw; what the checks should have caught and did not is returned as an error, never
// shown to a user as a crash.
func (f *Figure) encode(draw func(*layout) ([]byte, error)) (data []byte, err error) {
	if f == nil {
		return nil, errNoFigure
	}
	defer func() {
		switch fault := recover().(type) {
		case nil:
		case misplaced:
			data, err = nil, fmt.Errorf("%s: cannot be drawn: %w", f.named(), fault)
		default:
			panic(fault)
		}
	}()
	p, err := f.arrange()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", f.named(), err)
	}
	return draw(p)
}
