package main

import (
	"context"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"halfturn/plotting"
	"halfturn/plotting/page"
)

func motionCommand() command {
	return command{
		name:     "motion",
		operands: "FILE -o ANIMATION",
		summary:  "yokes, crosses and speeds over a turn, animated",
		help: `Shows the driveline turning once: the yokes and crosses of every joint in space,
and below them the speed of every shaft with a mark that runs along. Angles and
rotations are true; shafts are shortened, and the caption says how much slower
it runs than the driveline.

  halfturn motion my-driveline.json -o turn.gif
  halfturn motion --down 0,35 --rpm 500 -o joint.gif --seconds 8 --frames 96
  halfturn motion my-driveline.json -o slides/turn.png --size 1920x1080

A .gif runs forever. A .png gives numbered images, turn-01.png and so on.
`,
		prepare: func(flags *pflag.FlagSet) func(*console, []string) error {
			m := motionRequest{flags: flags}
			flags.StringVarP(&m.output, "output", "o", "", "`ANIMATION` to write: .gif for one file, .png for numbered images")
			flags.IntVar(&m.options.Frames, "frames", 60, "`images` in the turn, 8 to 720")
			flags.Float64Var(&m.options.Seconds, "seconds", 5, "`duration` of the turn in a .gif")
			flags.StringVar(&m.size, "size", "", "`WIDTHxHEIGHT` in pixels (default 720 and as high as needed)")
			from := newSource(flags)
			return func(c *console, operands []string) error { return m.run(c, from, operands) }
		},
	}
}

// motionRequest is what the flags of motion ask for.
type motionRequest struct {
	flags        *pflag.FlagSet
	output, size string
	options      plotting.AnimationOptions
}

func (m *motionRequest) run(c *console, from *source, operands []string) error {
	write, err := m.writer()
	if err != nil {
		return err
	}
	if err := m.readSize(); err != nil {
		return err
	}
	sv, err := from.survey(c, operands)
	if err != nil {
		return err
	}
	subject, err := plotting.NewCase(sv)
	if err != nil {
		return err
	}
	a, err := plotting.NewAnimation(subject, m.options)
	if err != nil {
		return usageError{err}
	}
	return write(c.ctx, c, a)
}

// writer returns what writes an animation as the ending of the output asks for.
func (m *motionRequest) writer() (func(context.Context, *console, *plotting.Animation) error, error) {
	switch ending := strings.ToLower(filepath.Ext(m.output)); {
	case m.output == "":
		return nil, usagef("no output: add -o and the name of an animation, such as -o turn.gif")
	case ending == ".gif" && m.options.Seconds == 0:
		return nil, usagef("--seconds: 0: want a duration above 0 s")
	case ending == ".gif":
		return m.writeGIF, nil
	case ending == ".png" && m.flags.Changed("seconds"):
		return nil, usagef("--seconds: numbered images have no duration: want a .gif")
	case ending == ".png":
		m.options.Seconds = 0
		return m.writePNGs, nil
	case ending == "":
		return nil, usagef("animation %q: no ending: want .gif or .png", m.output)
	default:
		return nil, usagef("animation %q: ending %q: want .gif or .png", m.output, ending)
	}
}

func (m *motionRequest) writeGIF(ctx context.Context, c *console, a *plotting.Animation) error {
	data, err := a.GIF(ctx)
	if err != nil {
		return err
	}
	return c.write(m.output, data)
}

func (m *motionRequest) writePNGs(ctx context.Context, c *console, a *plotting.Animation) error {
	images, err := a.PNGs(ctx)
	if err != nil {
		return err
	}
	names, err := page.WriteFrames(m.output, images)
	if err != nil {
		return err
	}
	c.remark("wrote %s to %s", names[0], names[len(names)-1])
	return nil
}

// readSize reads --size, such as 1280x720.
func (m *motionRequest) readSize() error {
	if m.size == "" {
		return nil
	}
	width, height, _ := strings.Cut(m.size, "x")
	w, errW := strconv.Atoi(width)
	h, errH := strconv.Atoi(height)
	if errW != nil || errH != nil || w <= 0 || h <= 0 {
		return usagef("--size: %q: want width and height in pixels, such as 1280x720", m.size)
	}
	m.options.Width, m.options.Height = w, h
	return nil
}
