package main

import (
	"cmp"
	"context"
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
	"gonum.org/v1/plot/vg"

	"halfturn/plotting/page"
)

// imageFlags say into which image a figure is drawn, and how.
type imageFlags struct {
	flags                *pflag.FlagSet
	output, format, size string
	text                 float64
	noTitle, noCaption   bool
	options              page.Options

	// Set by check.
	still page.Format
	page  page.Size // zero: the one that suits the figure
}

func newImageFlags(flags *pflag.FlagSet) *imageFlags {
	f := &imageFlags{flags: flags}
	flags.StringVarP(&f.output, "output", "o", "", "`IMAGE` to write: its ending, .svg, .png or .pdf, is the format; - is standard output")
	flags.StringVar(&f.format, "format", "svg", "`format` of -o -")
	flags.StringVar(&f.size, "size", "figure", "`page`: "+strings.Join(sizeNames(), ", ")+", or as 89x60mm (mm, in, pt)")
	flags.Float64Var(&f.text, "text", 0, "size of the letters in `points`")
	flags.BoolVar(&f.noTitle, "no-title", false, "leave out what stands above the figure")
	flags.BoolVar(&f.noCaption, "no-caption", false, "leave out what stands below it")
	flags.IntVar(&f.options.DPI, "dpi", 144, "resolution of .png in `pixels` per inch, 20 to 1200")
	flags.BoolVar(&f.options.Outlines, "outlines", false, "text of .svg as outlines, alike on every machine")
	return f
}

// ending is the format of the output in small letters, such as "svg".
func (f *imageFlags) ending() (string, error) {
	switch {
	case f.output == "":
		return "", usagef("no output: add -o and the name of an image, such as -o figure.svg")
	case f.output == "-":
		return f.format, nil
	case f.flags.Changed("format"):
		return "", usagef("--format is for -o -: the ending of %s is its format", f.output)
	}
	return strings.ToLower(strings.TrimPrefix(filepath.Ext(f.output), ".")), nil
}

// onlyFor are the flags that one format alone uses.
var onlyFor = map[string]page.Format{"dpi": page.PNG, "outlines": page.SVG}

// check reads what the flags say of an image that stands still.
func (f *imageFlags) check() error {
	ending, err := f.ending()
	if err != nil {
		return err
	}
	name := f.output
	if name == "-" {
		name = "standard output." + ending
	}
	if f.still, err = page.FormatOf(name); err != nil {
		return usageError{err}
	}
	for flag, format := range onlyFor {
		if f.flags.Changed(flag) && f.still != format {
			return usagef("--%s: is for .%s, not for .%s", flag, format, f.still)
		}
	}
	if err := f.options.Check(); err != nil {
		return usageError{err}
	}
	f.page, err = f.pageSize()
	return err
}

// encode returns a figure as the bytes of its image.
func (f *imageFlags) encode(ctx context.Context, figure *page.Figure) ([]byte, error) {
	return await(ctx, func() ([]byte, error) { return page.Encode(figure, f.still, f.options) })
}

// write writes a figure to the output.
func (f *imageFlags) write(c *console, figure *page.Figure) error {
	image, err := f.encode(c.ctx, figure)
	if err != nil {
		return err
	}
	if f.still != page.SVG || f.options.Outlines {
		if err := remarkScripts(c, figure); err != nil {
			return err
		}
	}
	return c.write(f.output, image)
}

// remarkScripts tells of texts that an image with letters of its own cannot show.
func remarkScripts(c *console, figure *page.Figure) error {
	scripts, err := await(c.ctx, func() ([]string, error) { return page.Unwritable(figure) })
	if err == nil && len(scripts) > 0 {
		c.remark("the font of images has no letters of %s and draws boxes: an .svg without --outlines has them", strings.Join(scripts, ", "))
	}
	return err
}

// fit gives a figure the size and the texts that are asked for; one that is sized
// has its page already.
func (f *imageFlags) fit(figure *page.Figure, sized bool) {
	switch {
	case f.page == (page.Size{}) || sized:
	case f.page == page.Slide:
		figure.Size, figure.Caption = f.page, "" // who shows it says that
	default:
		figure.Size = f.page.Turned(figure.Size)
	}
	if f.text > 0 {
		figure.Size = cmp.Or(figure.Size, page.Single)
		figure.Size.Text, figure.Size.Least = vg.Length(f.text), 0
	}
	if f.noTitle {
		figure.Title, figure.Subtitle, figure.Facts = "", "", nil
	}
	if f.noCaption {
		figure.Caption = ""
	}
}

// sizes are the pages that a figure can be drawn on by their names.
var sizes = []struct {
	name string
	page.Size
}{
	{"figure", page.Size{}}, // the one that suits the figure
	{"slide", page.Slide},
	{"a4", page.A4},
	{"letter", page.Letter},
}

func sizeNames() []string {
	var names []string
	for _, s := range sizes {
		names = append(names, s.name)
	}
	return names
}

// measured matches a width and a height with their unit.
var measured = regexp.MustCompile(`^(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)(mm|in|pt|px)?$`)

// units are the units of sizes, in points.
var units = map[string]vg.Length{"mm": vg.Millimeter, "in": vg.Inch, "pt": vg.Points(1)}

// pageSize reads --size; zero stands for the size that suits the figure.
func (f *imageFlags) pageSize() (page.Size, error) {
	for _, s := range sizes {
		if s.name == f.size {
			return s.Size, nil
		}
	}
	m := measured.FindStringSubmatch(f.size)
	if m == nil || units[m[3]] == 0 {
		return page.Size{}, usagef("--size: %q: want one of %s, or as 89x60mm", f.size, strings.Join(sizeNames(), ", "))
	}
	width, height := length(m[1])*units[m[3]], length(m[2])*units[m[3]]
	text := min(max(width/58, 6), 15) // as on page.Single, but to be read
	return page.Size{Width: width, Height: height, Text: text, Least: max(text/2, leastText), Border: text}, nil
}

// pixels reads --size where it counts dots; zeros stand for the usual size.
func (f *imageFlags) pixels() (width, height int, err error) {
	if !f.flags.Changed("size") {
		return 0, 0, nil
	}
	if m := measured.FindStringSubmatch(f.size); m != nil && (m[3] == "" || m[3] == "px") {
		width, height = int(length(m[1])), int(length(m[2]))
	}
	if width == 0 || height == 0 {
		return 0, 0, usagef("--size: %q: want width and height in pixels, such as 1280x720", f.size)
	}
	return width, height, nil
}

// leastText is the size in points of ordinary text below which few can read it; that of
// axes and captions is a tenth smaller.
const leastText = 5

// length reads digits that measured has matched.
func length(digits string) vg.Length {
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 0 // more than any page: refused where pages are
	}
	return vg.Length(v)
}

// numbered returns the name of page i of several, with its number and name before
// the ending.
func (f *imageFlags) numbered(i int, name string) string {
	ending := filepath.Ext(f.output)
	return fmt.Sprintf("%s-%d-%s%s", strings.TrimSuffix(f.output, ending), i+1, name, ending)
}
