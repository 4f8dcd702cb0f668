package main

import (
	"slices"

	"halfturn/plotting/page"
)

// animate draws a driveline turning, into a .gif or numbered images.
func (p *plotRequest) animate(c *console, f figure, from *source, operands []string) error {
	ending, err := p.movingEnding(f)
	if err != nil {
		return err
	}
	if p.animation.Width, p.animation.Height, err = p.pixels(); err != nil {
		return err
	}
	s, err := p.subject(c, from, operands)
	if err != nil {
		return err
	}
	tell, wipe := c.progress()
	p.animation.Progress = tell
	a, err := f.turn(s, p.animation)
	if err != nil {
		return usageError{err}
	}
	if err := remarkScripts(c, a.Figure(0)); err != nil {
		return err
	}
	if ending == "gif" {
		data, err := await(c.ctx, func() ([]byte, error) { return a.GIF(c.ctx) })
		wipe()
		if err != nil {
			return err
		}
		return c.write(p.output, data)
	}
	images, err := await(c.ctx, func() ([][]byte, error) { return a.PNGs(c.ctx) })
	wipe()
	if err != nil {
		return err
	}
	names, err := page.WriteFrames(c.ctx, p.output, images)
	if err == nil {
		c.remark("wrote %s to %s", quoted(names[0]), quoted(names[len(names)-1]))
	}
	return err
}

// movingEnding returns the format that the output asks for, gif or png, and refuses what
// cannot be said of it.
func (p *plotRequest) movingEnding(f figure) (string, error) {
	if p.output == "-" && !p.flags.Changed("format") {
		p.format = "gif"
	}
	ending, err := p.ending()
	switch {
	case err != nil:
		return "", err
	case !slices.Contains([]string{"gif", "png"}, ending):
		return "", usagef("--figure %s: %q: want an ending .gif, or .png for numbered images", f.name, p.output)
	case ending == "png" && p.output == "-":
		return "", usagef("--figure %s as png makes several images: want the name of a file", f.name)
	case ending == "png" && p.flags.Changed("seconds"):
		return "", usagef("--seconds: numbered images have no duration: want a .gif")
	case ending == "png":
		p.animation.Seconds = 0
	case p.animation.Seconds == 0:
		return "", usagef("--seconds: 0: want a duration above 0 s")
	}
	return ending, nil
}
