package main

import (
	"bytes"
	"fmt"
	"image"
	_ "image/gif"
	_ "image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// compareGallery compares the figures in the folder "gallery", just drawn, with
// those of the repository.
func compareGallery(t *testing.T, committed string) {
	t.Helper()
	drawn := fileNames(t, "gallery")
	if update {
		for _, name := range drawn {
			data, err := os.ReadFile(filepath.Join("gallery", name))
			if err == nil {
				err = os.WriteFile(filepath.Join(committed, name), data, 0o644)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	kept := slices.DeleteFunc(fileNames(t, committed), func(name string) bool { return name == "live.png" }) // by package live
	if !slices.Equal(drawn, kept) {
		t.Errorf("the page draws %q, the repository keeps %q", drawn, kept)
		return
	}
	for _, name := range drawn {
		got, err := os.ReadFile(filepath.Join("gallery", name))
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(filepath.Join(committed, name))
		if err != nil {
			t.Fatal(err)
		}
		if err := sameFigure(got, want, filepath.Ext(name)); err != nil {
			t.Errorf("%s is drawn otherwise now: %v", name, err)
		}
	}
}

func fileNames(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// sameFigure compares two files of a figure: an SVG by its elements and texts to
// the letter and its numbers to a twentieth of a point, an image by its pixels.
// The last digits may differ on another processor.
func sameFigure(got, want []byte, ending string) error {
	if ending == ".svg" {
		return sameSVG(string(got), string(want))
	}
	return samePixels(got, want)
}

var (
	svgNumber = regexp.MustCompile(`-?\d+(\.\d+)?`)
	svgText   = regexp.MustCompile(`>\s*([^<\s][^<]*)<`)
)

// svgTexts returns the texts of an image, one on a line.
func svgTexts(svg string) string {
	var lines []string
	for _, m := range svgText.FindAllStringSubmatch(svg, -1) {
		lines = append(lines, m[1])
	}
	return strings.Join(lines, "\n")
}

func sameSVG(got, want string) error {
	if g, w := svgTexts(got), svgTexts(want); g != w {
		return fmt.Errorf("texts differ: %s", firstDifference(g, w))
	}
	if g, w := svgNumber.ReplaceAllString(got, "#"), svgNumber.ReplaceAllString(want, "#"); g != w {
		return fmt.Errorf("elements differ: %s", firstDifference(g, w))
	}
	g, w := svgNumber.FindAllString(got, -1), svgNumber.FindAllString(want, -1)
	for i := range g {
		a, errA := strconv.ParseFloat(g[i], 64)
		b, errB := strconv.ParseFloat(w[i], 64)
		if errA != nil || errB != nil || math.Abs(a-b) > 0.05 {
			return fmt.Errorf("number %d: got %s, want %s", i, g[i], w[i])
		}
	}
	return nil
}

// samePixels lets one pixel in a thousand differ visibly.
func samePixels(got, want []byte) error {
	a, _, err := image.Decode(bytes.NewReader(got))
	if err != nil {
		return err
	}
	b, _, err := image.Decode(bytes.NewReader(want))
	if err != nil {
		return err
	}
	if a.Bounds() != b.Bounds() {
		return fmt.Errorf("size %v, want %v", a.Bounds(), b.Bounds())
	}
	differ, r := 0, a.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			ar, ag, ab, _ := a.At(x, y).RGBA()
			br, bg, bb, _ := b.At(x, y).RGBA()
			if distance(ar, br)+distance(ag, bg)+distance(ab, bb) > 0x3000 {
				differ++
			}
		}
	}
	if differ*1000 > r.Dx()*r.Dy() {
		return fmt.Errorf("%d of %d pixels differ", differ, r.Dx()*r.Dy())
	}
	return nil
}

func distance(a, b uint32) uint32 { return max(a, b) - min(a, b) }
