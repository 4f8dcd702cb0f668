package main

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
	"gonum.org/v1/plot/vg"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics/survey"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

func plotCommand() command {
	return command{
		name:     "plot",
		operands: "FILE [FILE...] -o IMAGE",
		summary:  "a figure as SVG, PNG or PDF, the turning yokes as GIF",
		help: `Draws a figure of a driveline into IMAGE. Several FILEs are compared.

  halfturn plot my-driveline.json -o speed.svg
  halfturn plot --down 3,7,4 --rpm 3000 --figure acceleration -o accel.png
  halfturn plot before.json after.json -o compare.pdf --size slide
  halfturn plot my-driveline.json --figure motion -o turn.gif --seconds 8
  halfturn plot --figure lecture --down 0,15,5 -o lecture.pdf
  halfturn plot --figure exercises -o exercises.pdf
  halfturn plot my-driveline.json --size 89x60mm --no-caption -o column.pdf

Figures:
` + figureList(),
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			p := plotRequest{imageFlags: newImageFlags(flags)}
			flags.StringVar(&p.figure, "figure", "", "`name` of the figure, out of the list above")
			flags.BoolVar(&p.list, "list", false, "print the list above")
			flags.BoolVar(&p.coasting, "coasting", false, "the last shaft turns evenly and drives the others")
			flags.StringVar(&p.shaft, "shaft", "", "the `shaft` that phasing turns, by name or number (default: the one that can do most)")
			flags.IntVar(&p.animation.Frames, "frames", 60, "`images` in a turn of motion, 8 to 720")
			flags.Float64Var(&p.animation.Seconds, "seconds", 5, "`duration` of the turn in a .gif")
			from := newJudgedSource(flags)
			return func(c *console, operands []string) error { return p.run(c, from, operands) }
		},
	}
}

// figureList lists the figures by name.
func figureList() string {
	var b strings.Builder
	for _, f := range figures {
		fmt.Fprintf(&b, "  %-13s %s%s\n", f.name, f.shows, f.drivelines())
	}
	return b.String()
}

// plotRequest is what the flags of plot ask for.
type plotRequest struct {
	*imageFlags
	figure, shaft  string
	list, coasting bool
	animation      plotting.AnimationOptions
}

func (p *plotRequest) run(c *console, from *source, operands []string) error {
	if p.list {
		_, err := c.out.Write([]byte(figureList()))
		return err
	}
	f, err := p.choose(len(operands))
	if err != nil {
		return err
	}
	if err := p.refuseUnused(f); err != nil {
		return err
	}
	if f.paper {
		if err := p.checkPaper(f.name); err != nil {
			return err
		}
	}
	switch {
	case f.turn != nil:
		return p.animate(c, f, from, operands)
	case f.set != nil:
		return p.drawSet(c, f, from, operands)
	}
	if err := p.check(); err != nil {
		return err
	}
	s, err := p.subject(c, from, operands)
	if err != nil {
		return err
	}
	drawn, err := f.draw(s)
	if err != nil {
		return err
	}
	p.fit(drawn, f.sized)
	return p.write(c, drawn)
}

// checkPaper refuses pages on which the letters of a figure for paper could not be read.
func (p *plotRequest) checkPaper(figure string) error {
	const least = 100 * vg.Millimeter // of the shorter side
	size, err := p.pageSize()
	switch {
	case err != nil:
		return err
	case size == page.Slide:
		return usagef("--size slide: the figure %s is for paper, its letters would be too small on a screen: want a4, letter or a measure such as 297x210mm", figure)
	case size != (page.Size{}) && min(size.Width, size.Height) < least:
		return usagef("--size %s: the figure %s has too much on it for so small a page: want a4, letter or a measure of 100 mm at least both ways", p.size, figure)
	}
	return nil
}

// choose returns the figure for a number of files.
func (p *plotRequest) choose(files int) (figure, error) {
	standard := figures[0].name
	if files > 1 {
		standard = "compare"
	}
	f, err := figureNamed(cmp.Or(p.figure, standard))
	if err != nil {
		return figure{}, err
	}
	least, most := max(f.least, 1), max(f.most, 1)
	if n := max(files, 1); n < least || n > most {
		want := fmt.Sprintf("%d to %d", least, most)
		if least == most {
			want = fmt.Sprint(least)
		}
		return figure{}, usagef("the figure %s of %d drivelines: want %s", f.name, n, want)
	}
	return f, nil
}

// refuseUnused refuses flags that are given though the figure does not use them.
func (p *plotRequest) refuseUnused(f figure) error {
	used := "figure output format size " + f.takes
	if f.set == nil {
		used += " " + strings.Join(geometryFlags, " ")
	}
	if f.turn == nil {
		used += " dpi outlines text no-title no-caption"
	}
	return refuseUnused(p.flags, "the figure "+f.name, strings.Fields(used))
}

// subject reads and judges the drivelines of the operands or flags.
func (p *plotRequest) subject(c *console, from *source, operands []string) (subject, error) {
	s := subject{size: p.page}
	if p.coasting {
		s.drive = plotting.Coasting
	}
	for i := range max(1, len(operands)) {
		found, err := from.find(c, operands[i:min(i+1, len(operands))], findings.Options{})
		if err != nil {
			return subject{}, err
		}
		s.of = append(s.of, found)
	}
	if p.shaft != "" {
		var err error
		if s.shaft, err = innerShaft(s.of[0].Survey, p.shaft); err != nil {
			return subject{}, err
		}
	}
	return s, nil
}

// innerShaft returns the index of a shaft between two joints by its name or, counted from
// 1, its number.
func innerShaft(s *survey.Survey, text string) (int, error) {
	k := s.ShaftIndex(text)
	if n, err := strconv.Atoi(text); k < 0 && err == nil {
		k = n - 1
	}
	if last := len(s.Shafts) - 1; k < 1 || k >= last {
		return 0, usagef("--shaft: %q: want the name or the number, 2 to %d, of a shaft between two joints", text, last)
	}
	return k, nil
}
