package main

import (
	"strings"

	"github.com/spf13/pflag"

	"halfturn/plotting"
)

// imageFlags say into which image a figure is drawn, and how.
type imageFlags struct {
	output, size string
	options      plotting.Options
}

func newImageFlags(flags *pflag.FlagSet) *imageFlags {
	f := new(imageFlags)
	flags.StringVarP(&f.output, "output", "o", "", "`IMAGE` to write: its ending, .svg, .png or .pdf, is the format")
	flags.StringVar(&f.size, "size", "figure", "`page`: "+strings.Join(sizeNames(), ", "))
	flags.IntVar(&f.options.DPI, "dpi", 144, "resolution of PNG in `pixels` per inch, 20 to 1200")
	flags.BoolVar(&f.options.Outlines, "outlines", false, "text of SVG as outlines, alike on every machine")
	return f
}

// page returns the format and the size of the page; the size is zero where the
// figure chooses it.
func (f *imageFlags) page() (plotting.Format, plotting.Size, error) {
	format, err := plotting.FormatOf(f.output)
	if err != nil {
		return "", plotting.Size{}, usageError{err}
	}
	size, err := sizeNamed(f.size)
	return format, size, err
}
