package main

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"halfturn/plotting"
	"halfturn/plotting/page"
)

func plotCommand() command {
	return command{
		name:     "plot",
		operands: "FILE [FILE...] -o IMAGE",
		summary:  "a figure as SVG, PNG or PDF",
		help:     plotHelp(),
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			p := plotRequest{flags: flags}
			flags.StringVar(&p.figure, "figure", "", "`name` of the figure, out of the list above")
			flags.BoolVar(&p.coasting, "coasting", false, "the last shaft turns evenly and drives the others")
			p.imageFlags = newImageFlags(flags)
			from := newJudgedSource(flags)
			return func(c *console, operands []string) error { return p.run(c, from, operands) }
		},
	}
}

func plotHelp() string {
	var b strings.Builder
	b.WriteString(`Draws a figure of a driveline into IMAGE. Several FILEs are compared.

  halfturn plot my-driveline.json -o speed.svg
  halfturn plot --down 3,7,4 --rpm 3000 --figure acceleration -o accel.png
  halfturn plot before.json after.json -o compare.pdf --size slide

Figures:
`)
	for _, f := range figures {
		fmt.Fprintf(&b, "  %-13s %s\n", f.name, f.shows)
	}
	return b.String()
}

// plotRequest is what the flags of plot ask for.
type plotRequest struct {
	*imageFlags
	flags    *pflag.FlagSet
	figure   string
	coasting bool
}

func (p *plotRequest) run(c *console, from *source, operands []string) error {
	if err := p.check(); err != nil {
		return err
	}
	f, err := p.choose(len(operands))
	if err != nil {
		return err
	}
	pages, err := p.pages(c, from, operands, f)
	if err != nil {
		return err
	}
	images := make([][]byte, len(pages))
	for i, drawn := range pages {
		if images[i], err = page.Encode(drawn.Figure, p.format, p.options); err != nil {
			return err
		}
	}
	for i, drawn := range pages {
		if err := c.write(p.path(i, drawn.Name), images[i]); err != nil {
			return err
		}
	}
	return nil
}

// pages draws what is asked for: one page without a name, or those of a set.
func (p *plotRequest) pages(c *console, from *source, operands []string, f figure) ([]plotting.Page, error) {
	if f.set != nil {
		if len(operands) > 0 || slices.ContainsFunc(quickFlags, p.flags.Changed) {
			return nil, usagef("--figure %s needs no driveline: leave out FILE and the flags that describe one", f.name)
		}
		return f.set(p.page)
	}
	subject, err := newPlotSubject(c, from, operands)
	if err != nil {
		return nil, err
	}
	subject.size = p.page
	if p.coasting {
		subject.drive = plotting.Coasting
	}
	drawn, err := f.draw(subject)
	if err != nil {
		return nil, err
	}
	if !f.sized && p.page != (page.Size{}) {
		drawn.Size = p.page
	}
	return []plotting.Page{{Figure: drawn}}, nil
}

// path returns the file of the i-th page: the output, with number and name before
// the ending if the page has a name.
func (p *plotRequest) path(i int, name string) string {
	if name == "" {
		return p.output
	}
	ending := filepath.Ext(p.output)
	return fmt.Sprintf("%s-%d-%s%s", strings.TrimSuffix(p.output, ending), i+1, name, ending)
}

// choose returns the figure for a number of files.
func (p *plotRequest) choose(files int) (figure, error) {
	standard := "speed"
	if files > 1 {
		standard = "compare"
	}
	f, err := figureNamed(cmp.Or(p.figure, standard))
	if err != nil {
		return figure{}, err
	}
	if p.coasting && !f.coasts {
		return figure{}, usagef("--coasting: the figure %s has no choice between driving and coasting", f.name)
	}
	if n, least, most := max(files, 1), max(f.least, 1), max(f.most, 1); n < least || n > most {
		want := fmt.Sprintf("%d to %d", least, most)
		if least == most {
			want = fmt.Sprint(least)
		}
		return figure{}, usagef("the figure %s of %d drivelines: want %s", f.name, n, want)
	}
	return f, nil
}
