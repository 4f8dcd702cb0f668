package main

import (
	"bytes"
	"context"
	"image/gif"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestMotionAsGIF(t *testing.T) {
	t.Parallel()
	example := filepath.Join(root, "examples", "two-piece.json")
	path := filepath.Join(t.TempDir(), "turn.GIF")
	code, stdout, stderr := invoke("", "plot", "--figure", "motion", example, "-o", path, "--frames", "12", "--seconds", "2", "--size", "480x320")
	if code != exitDone || stdout != "" || !strings.Contains(stderr, "wrote "+path) {
		t.Fatalf("got exit %d, output %q and remarks %q", code, stdout, stderr)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	g, err := gif.DecodeAll(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	lasts := 0
	for _, d := range g.Delay {
		lasts += d
	}
	if len(g.Image) != 12 || lasts != 200 || g.Config.Width != 480 || g.Config.Height != 320 {
		t.Errorf("got %d frames of %d × %d pixels in %d/100 s, want 12 of 480 × 320 in 200/100 s", len(g.Image), g.Config.Width, g.Config.Height, lasts)
	}
}

func TestMotionAsImages(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	code, _, stderr := invoke("", "plot", "--figure", "motion", "--down", "0,35", "--rpm", "500", "-o", filepath.Join(dir, "turn.png"), "--frames", "8", "--size", "640x400")
	if code != exitDone || !strings.Contains(stderr, "turn-1.png to "+filepath.Join(dir, "turn-8.png")) {
		t.Fatalf("got exit %d and remarks %q", code, stderr)
	}
	files, err := filepath.Glob(filepath.Join(dir, "*"))
	if err != nil || len(files) != 8 {
		t.Fatalf("got files %q, want 8", files)
	}
	f, err := os.Open(files[7])
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if img, err := png.Decode(f); err != nil || img.Bounds().Dx() != 640 || img.Bounds().Dy() != 400 {
		t.Errorf("%s: got error %v, want 640 × 400 pixels", files[7], err)
	}
}

// What goes wrong is told, and no file is left behind.
func TestMotionMistakes(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name, output string
		args         []string
		code         int
		want         string // in the remarks
	}{
		{"no output", "", nil, exitUsage, "no output: add -o"},
		{"no ending", "turn", nil, exitUsage, "ending .gif, or .png"},
		{"unknown ending", "turn.mp4", nil, exitUsage, "ending .gif, or .png"},
		{"few frames", "turn.gif", []string{"--frames", "3"}, exitUsage, "frames: 3: want 8 to 720"},
		{"no duration", "turn.gif", []string{"--seconds", "0"}, exitUsage, "--seconds: 0: want a duration above 0 s"},
		{"duration NaN", "turn.gif", []string{"--seconds", "NaN"}, exitUsage, "duration of a turn: NaN s"},
		{"duration of images", "turn.png", []string{"--seconds", "5"}, exitUsage, "numbered images have no duration"},
		{"size without height", "turn.gif", []string{"--size", "720"}, exitUsage, `--size: "720": want width and height in pixels`},
		{"size zero", "turn.gif", []string{"--size", "0x0"}, exitUsage, `--size: "0x0": want width and height in pixels`},
		{"size with a unit", "turn.gif", []string{"--size", "720x480mm"}, exitUsage, `--size: "720x480mm"`},
		{"size too small", "turn.gif", []string{"--size", "72x48"}, exitUsage, "size: 72 × 48 pixels: want 480 × 320"},
		{"no such folder", "none/turn.gif", []string{"--frames", "8"}, exitFailed, "turn.gif: no such file or directory"},
		{"no such folder for images", "none/turn.png", []string{"--frames", "8"}, exitFailed, "turn.png: no such file or directory"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			args := append([]string{"plot", "--figure", "motion", "--down", "0,12,0"}, test.args...)
			if test.output != "" {
				args = append(args, "-o", filepath.Join(dir, test.output))
			}
			code, stdout, stderr := invoke("", args...)
			if code != test.code || !strings.Contains(stderr, test.want) || stdout != "" {
				t.Errorf("got exit %d, output %q and remarks\n%swant exit %d and %q", code, stdout, stderr, test.code, test.want)
			}
			if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
				t.Errorf("got files %v left behind and error %v", left, err)
			}
		})
	}
}

func TestMotionInterrupted(t *testing.T) {
	t.Parallel()
	ctx, interrupt := context.WithCancel(t.Context())
	interrupt()
	for _, name := range []string{"turn.gif", "turn.png"} {
		dir := t.TempDir()
		var stdout, stderr bytes.Buffer
		c := &console{ctx: ctx, in: strings.NewReader(""), out: &stdout, err: &stderr}
		code := run(c, []string{"plot", "--figure", "motion", "--down", "0,12,0", "-o", filepath.Join(dir, name)})
		if code != exitFailed || !strings.Contains(stderr.String(), "interrupted") {
			t.Errorf("%s: got exit %d and remarks %q, want exit %d and the interruption", name, code, &stderr, exitFailed)
		}
		if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
			t.Errorf("%s: got files %v left behind and error %v", name, left, err)
		}
	}
}
