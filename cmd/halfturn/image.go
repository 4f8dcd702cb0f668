package main

import (
	"strings"

	"github.com/spf13/pflag"

	"halfturn/plotting/page"
)

// imageFlags say into which image a figure is drawn, and how.
type imageFlags struct {
	output, size string
	options      page.Options

	// Set by check.
	format page.Format
	page   page.Size // zero: the one that suits the figure
}

func newImageFlags(flags *pflag.FlagSet) *imageFlags {
	f := new(imageFlags)
	flags.StringVarP(&f.output, "output", "o", "", "`IMAGE` to write: its ending, .svg, .png or .pdf, is the format")
	flags.StringVar(&f.size, "size", "figure", "`page`: "+strings.Join(sizeNames(), ", "))
	flags.IntVar(&f.options.DPI, "dpi", 144, "resolution of PNG in `pixels` per inch, 20 to 1200")
	flags.BoolVar(&f.options.Outlines, "outlines", false, "text of SVG as outlines, alike on every machine")
	return f
}

// check reads what the flags say.
func (f *imageFlags) check() (err error) {
	if f.output == "" {
		return usagef("no output: add -o and the name of an image, such as -o figure.svg")
	}
	if f.format, err = page.FormatOf(f.output); err != nil {
		return usageError{err}
	}
	if err := f.options.Check(); err != nil {
		return usageError{err}
	}
	f.page, err = sizeNamed(f.size)
	return err
}

// sizes are the pages that a figure can be drawn on.
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

func sizeNamed(name string) (page.Size, error) {
	for _, s := range sizes {
		if s.name == name {
			return s.Size, nil
		}
	}
	return page.Size{}, usagef("--size: %q: want one of %s", name, strings.Join(sizeNames(), ", "))
}
