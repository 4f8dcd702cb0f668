package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"halfturn/examples"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// Every figure can be drawn of every example, or says why not.
func TestPlotEveryFigure(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	files, err := examples.Files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range figures {
		for _, file := range files {
			path := filepath.Join(root, "examples", file.Name())
			args := []string{"plot", path, "--figure", f.name}
			switch {
			case f.draw == nil:
				continue
			case f.least == 2:
				args = append(args, path)
			}
			image := filepath.Join(dir, f.name+"-"+strings.TrimSuffix(file.Name(), ".json")+".svg")
			code, stdout, stderr := invoke("", append(args, "-o", image)...)
			if want := refused(t, f.name, path); want != "" {
				if code != exitFailed || !strings.Contains(stderr, want) {
					t.Errorf("%s of %s: exit %d, %q, want %q", f.name, file.Name(), code, stderr, want)
				}
				continue
			}
			if code != exitDone || stdout != "" || stderr != "halfturn: wrote "+image+"\n" {
				t.Errorf("%s of %s: exit %d, %q, %q", f.name, file.Name(), code, stdout, stderr)
			}
			if svg, err := os.ReadFile(image); err != nil || !bytes.HasPrefix(svg, []byte("<?xml")) {
				t.Errorf("%s of %s: %v, %.20q, want an SVG file", f.name, file.Name(), err, svg)
			}
		}
	}
}

// refused is what is said where a figure has nothing to show of an example.
func refused(t *testing.T, figure, example string) string {
	text, err := os.ReadFile(example)
	if err != nil {
		t.Fatal(err)
	}
	switch {
	case figure == "phasing" && strings.HasSuffix(example, "single-joint.json"):
		return "phasing: the driveline has no shaft between two joints: want at least one"
	case figure == "travel" && !bytes.Contains(text, []byte(`"poses"`)):
		return "no poses: want a file that has some"
	}
	return ""
}

func TestPlotFormatsAndSizes(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name, image string
		args        []string
		want        string // what the file begins with or has in it
	}{
		{"png", "x.png", nil, "\x89PNG"},
		{"pdf", "x.PDF", nil, "%PDF"},
		{"svg on a slide", "x.svg", []string{"--size", "slide"}, `width="960pt" height="540pt"`},
		{"svg on letter", "x.svg", []string{"--size", "letter", "--figure", "sheet"}, `width="612pt" height="792pt"`},
		{"text", "x.svg", nil, ">How evenly does each shaft turn?<"},
		{"coasting", "x.svg", []string{"--coasting"}, ">rotation of the last shaft θ, °<"},
		{"a chosen shaft", "x.svg", []string{"--figure", "phasing", "--shaft", "front shaft"}, ">phase of front shaft, °<"},
		{"a numbered shaft", "x.svg", []string{"--figure", "phasing", "--shaft", "3"}, ">phase of rear shaft, °<"},
		{"vectors beside each other", "x.svg", []string{"--figure", "vectors", root + "/examples/one-piece.json"}, ">Several drivelines, to one scale<"},
		{"larger letters", "x.svg", []string{"--text", "14"}, `font-size="14"`},
		{"several are compared", "x.svg", []string{root + "/examples/one-piece.json"}, ">Which turns most evenly?<"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			image := filepath.Join(t.TempDir(), test.image)
			args := append([]string{"plot", root + "/examples/two-piece.json", "-o", image}, test.args...)
			if code, _, stderr := invoke("", args...); code != exitDone {
				t.Fatalf("exit %d: %s", code, stderr)
			}
			got, err := os.ReadFile(image)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Contains(got, []byte(test.want)) {
				t.Errorf("file begins %.300q, want it to hold %q", got, test.want)
			}
		})
	}
}

// Names in scripts that the font lacks are told where they do not come out.
func TestPlotTellsOfScripts(t *testing.T) {
	t.Parallel()
	file := `{"name": "传动轴", "shafts": [{"down": 3}, {"name": "גל הינע", "down": 8}, {"down": 4.5}]}`
	const remark = "halfturn: the font of images has no letters of Han and draws boxes: an .svg without --outlines has them\n"
	for _, test := range []struct {
		image string
		args  []string
		told  bool
	}{{"x.svg", nil, false}, {"x.svg", []string{"--outlines"}, true}, {"x.png", nil, true}, {"x.pdf", nil, true}} {
		path := filepath.Join(t.TempDir(), test.image)
		code, _, stderr := invoke(file, append([]string{"plot", "-", "-o", path}, test.args...)...)
		if code != exitDone || strings.Contains(stderr, remark) != test.told {
			t.Errorf("%s %q: exit %d, %q, told of scripts should be %v", test.image, test.args, code, stderr, test.told)
		}
	}
}

func TestPlotRefusesAShaft(t *testing.T) {
	t.Parallel()
	for _, shaft := range []string{"1", "4", "no such shaft"} {
		code, _, stderr := invoke("", "plot", root+"/examples/two-piece.json", "--figure", "phasing", "--shaft", shaft, "-o", filepath.Join(t.TempDir(), "x.svg"))
		if code != exitUsage || !strings.Contains(stderr, "want the name or the number, 2 to 3, of a shaft between two joints") {
			t.Errorf("--shaft %q: exit %d, %q", shaft, code, stderr)
		}
	}
}

// Outlines hold no text; twice as many dots per inch are twice as many pixels.
func TestPlotOptions(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	read := func(name string, args ...string) []byte {
		path := filepath.Join(dir, name)
		if code, _, stderr := invoke("", append([]string{"plot", "--down", "0,12,0", "-o", path}, args...)...); code != exitDone {
			t.Fatalf("exit %d: %s", code, stderr)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	if svg := read("x.svg", "--outlines"); bytes.Contains(svg, []byte("<text")) {
		t.Error("text in a file of outlines")
	}
	for _, test := range []struct {
		dpi  string
		want []byte // width in pixels, from the header of PNG
	}{{"72", []byte{0, 0, 640 >> 8, 640 & 0xFF}}, {"144", []byte{0, 0, 1280 >> 8, 0}}} {
		if png := read("x.png", "--dpi", test.dpi); !bytes.Equal(png[16:20], test.want) {
			t.Errorf("%s dpi: width % x, want % x", test.dpi, png[16:20], test.want)
		}
	}
}

func TestPlotLecture(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	code, _, stderr := invoke("", "plot", "--figure", "lecture", "-o", filepath.Join(dir, "class.svg"))
	if code != exitDone {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) < 8 || entries[0].Name() != "class-1-one-joint.svg" {
		t.Errorf("files %v, want eight or more from class-1-one-joint.svg on", entries)
	}
	if lines := strings.Count(stderr, "halfturn: wrote "); lines != len(entries) {
		t.Errorf("%d files named, want %d:\n%s", lines, len(entries), stderr)
	}
}

// In PDF the lecture is one document.
func TestPlotLectureAsDeck(t *testing.T) {
	t.Parallel()
	code, deck, stderr := invoke("", "plot", "--figure", "lecture", "--format", "pdf", "-o", "-")
	if code != exitDone || !strings.HasPrefix(deck, "%PDF") {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	_, own, _ := invoke("", "plot", "--figure", "lecture", "--down", "0,15,5", "--format", "pdf", "-o", "-")
	if !strings.HasPrefix(own, "%PDF") || own == deck {
		t.Errorf("own angles: %.20q, or they change nothing", own)
	}
	lecture, err := plotting.Lecture(page.Slide)
	if err != nil {
		t.Fatal(err)
	}
	if pages := strings.Count(deck, "/Type /Page "); pages != len(lecture) {
		t.Errorf("%d pages, want %d", pages, len(lecture))
	}
}

// Exercises are one document with an odd number of pages: the first alone, then pairs.
func TestPlotExercises(t *testing.T) {
	t.Parallel()
	code, deck, stderr := invoke("", "plot", "--figure", "exercises", "--size", "letter", "--format", "pdf", "-o", "-")
	if code != exitDone || !strings.HasPrefix(deck, "%PDF") {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	if pages := strings.Count(deck, "/Type /Page "); pages < 11 || pages%2 == 0 {
		t.Errorf("%d pages, want one and two for each of five or more exercises", pages)
	}
	if !strings.Contains(deck, "/PageLayout /TwoPageRight") {
		t.Error("exercise and solution do not open side by side")
	}
}

// A command line or a file that cannot be drawn is an error that says what to do, and
// leaves no file.
func TestPlotFaults(t *testing.T) {
	t.Parallel()
	one, two := root+"/examples/one-piece.json", root+"/examples/two-piece.json"
	for _, test := range []struct {
		name string
		args []string
		out  string // in an empty folder; empty: none
		code int
		want string
	}{
		{"no output", []string{two}, "", exitUsage, "no output: add -o and the name of an image, such as -o figure.svg"},
		{"no driveline", []string{}, "x.svg", exitUsage, "no driveline: want a FILE, - for standard input, or flags such as --down 0,12,0"},
		{"unknown figure", []string{two, "--figure", "sped"}, "x.svg", exitUsage, `--figure: "sped": want one of speed, acceleration, lead, `},
		{"unknown size", []string{two, "--size", "a3"}, "x.svg", exitUsage, `--size: "a3": want one of figure, slide, a4, letter`},
		{"a sheet on a slide", []string{two, "--figure", "sheet", "--size", "slide"}, "x.svg", exitUsage, "--size slide: the figure sheet is for paper, its letters would be too small on a screen: want a4, letter or "},
		{"a sheet in a column", []string{two, "--figure", "sheet", "--size", "89x60mm"}, "x.svg", exitUsage, "--size 89x60mm: the figure sheet has too much on it for so small a page: want a4, letter or a measure of 100 mm "},
		{"unknown ending", []string{two}, "x.bmp", exitUsage, `figure file "x.bmp": ending ".bmp": want .png, .svg or .pdf`},
		{"no ending", []string{two}, "x", exitUsage, `figure file "x": no ending: want .png, .svg or .pdf`},
		{"resolution", []string{two, "--dpi", "5"}, "x.png", exitUsage, "resolution: 5 dpi: want 20 to 1200 dpi"},
		{"no such folder", []string{two}, "none/x.svg", exitFailed, "write none/x.svg: no such file or directory"},
		{"no such file", []string{"none.json"}, "x.svg", exitFailed, "none.json: no such file or directory"},
		{"file and flags", []string{two, "--down", "0,1"}, "x.svg", exitUsage, "both a FILE"},
		{"files and flags", []string{one, two, "--down", "0,1"}, "x.svg", exitUsage, "both a FILE"},
		{"one figure of two files", []string{one, two, "--figure", "views"}, "x.svg", exitUsage, "the figure views of 2 drivelines: want 1"},
		{"compare one", []string{one, "--figure", "compare"}, "x.svg", exitUsage, "the figure compare of 1 drivelines: want 2 to 30"},
		{"correct one", []string{one, "--figure", "correction"}, "x.svg", exitUsage, "the figure correction of 1 drivelines: want 2"},
		{"correct another", []string{one, two, "--figure", "correction"}, "x.svg", exitFailed, "correction: 3 shafts before and 4 after: want the same driveline"},
		{"coasting vectors", []string{one, "--figure", "vectors", "--coasting"}, "x.svg", exitUsage, "--coasting: the figure vectors does not use it"},
		{"lecture of a file", []string{one, "--figure", "lecture"}, "x.svg", exitUsage, "--figure lecture needs no driveline"},
		{"lecture of a large angle", []string{"--down", "0,50", "--figure", "lecture"}, "x.svg", exitFailed, "lecture: angle 1: 50.00°: want 1° to 45°"},
		{"exercises on a slide", []string{"--figure", "exercises", "--size", "slide"}, "x.svg", exitUsage, "--size slide: the figure exercises is for paper"},
		{"exercises of angles", []string{"--down", "0,9,0", "--figure", "exercises"}, "x.svg", exitUsage, "--down: the figure exercises does not use it"},
		{"exercises of a file", []string{one, "--figure", "exercises"}, "x.svg", exitUsage, "--figure exercises needs no driveline"},
		{"lecture in much too fine images", []string{"--figure", "lecture", "--dpi", "1000"}, "x.png", exitUsage, "--dpi: 14 images of 1400 million pixels in all: want at most 600 million"},
		{"lecture of a phase", []string{"--down", "0,9,0", "--phase", "9", "--figure", "lecture"}, "x.svg", exitUsage, "--phase: the figure lecture does not use it"},
		{"lecture at a speed", []string{"--rpm", "1000", "--figure", "lecture"}, "x.svg", exitUsage, "--rpm: the figure lecture does not use it"},
		{"pixels of a drawing", []string{two, "--dpi", "72"}, "x.svg", exitUsage, "--dpi: is for .png, not for .svg"},
		{"outlines of dots", []string{two, "--outlines"}, "x.png", exitUsage, "--outlines: is for .svg, not for .png"},
		{"images of a still", []string{two, "--frames", "12"}, "x.svg", exitUsage, "--frames: the figure speed does not use it"},
		{"no limits", []string{two, "--figure", "vectors", "--limits", ""}, "x.svg", exitUsage, `--limits: "": want one of`},
		{"format of a name", []string{two, "--format", "png"}, "x.svg", exitUsage, "--format is for -o -"},
		{"no size", []string{two, "--size", "0x60mm"}, "x.svg", exitFailed, "figure \"How evenly does each shaft turn?\": page width: 0 pt"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			args := append([]string{"plot"}, test.args...)
			if test.out != "" {
				args = append(args, "-o", filepath.Join(dir, test.out))
			}
			code, stdout, stderr := invoke("", args...)
			stderr = strings.ReplaceAll(stderr, dir+string(filepath.Separator), "")
			if code != test.code || stdout != "" || !strings.HasPrefix(stderr, "halfturn: "+test.want) {
				t.Errorf("exit %d, %q, want %d and %q", code, stderr, test.code, test.want)
			}
			if entries, err := os.ReadDir(dir); err != nil || len(entries) > 0 {
				t.Errorf("left behind: %v (%v)", entries, err)
			}
		})
	}
}

// A flag that a figure takes changes it; one that it does not take is refused.
func TestPlotUsesItsFlags(t *testing.T) {
	t.Parallel()
	file := example("lifted-utility.json")
	values := map[string]string{"rpm": "1234", "limits": "machinery", "reading-error": "0.7", "coasting": "true", "frames": "9", "seconds": "3"}
	for _, f := range figures {
		if f.draw == nil {
			continue
		}
		t.Run(f.name, func(t *testing.T) {
			t.Parallel()
			args := []string{"plot", "--figure", f.name, "-o", "-", file}
			if f.least == 2 {
				args = append(args, file)
			}
			_, plain, _ := invoke("", args...)
			for name, value := range values {
				code, image, stderr := invoke("", append(args, "--"+name+"="+value)...)
				takes := slices.Contains(strings.Fields(f.takes), name)
				switch {
				case takes && (code != exitDone || image == plain):
					t.Errorf("--%s=%s: exit %d (%s), or it changes nothing", name, value, code, stderr)
				case !takes && (code != exitUsage || !strings.Contains(stderr, "does not use it")):
					t.Errorf("--%s=%s: exit %d (%s), want it refused", name, value, code, stderr)
				}
			}
		})
	}
}

// A size in millimetres is that of the image, and "-" is standard output.
func TestPlotOnPaper(t *testing.T) {
	t.Parallel()
	code, svg, stderr := invoke("", "plot", "--down", "0,12,0", "--size", "89x60mm", "--text", "7", "--no-title", "--no-caption", "-o", "-")
	if code != exitDone || stderr != "" {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	if !strings.Contains(svg, `width="252.28pt" height="170.08pt"`) && !strings.Contains(svg, `width="252.283pt" height="170.079pt"`) {
		t.Errorf("size: %.300s", svg)
	}
	if !strings.Contains(svg, `font-size:7`) && !strings.Contains(svg, `font-size="7`) {
		t.Errorf("no text of 7 points: %.1500s", svg)
	}
	if strings.Contains(svg, "How evenly") {
		t.Error("it has a title")
	}
	for size, caption := range map[string]bool{"slide": false, "a4": true, "figure": true} {
		_, svg, _ := invoke("", "plot", "--down", "0,12,0", "--size", size, "-o", "-")
		if strings.Contains(svg, "The joints cancel") != caption {
			t.Errorf("--size %s: caption %t, want %t", size, !caption, caption)
		}
		if big := strings.Contains(svg, `font-size="18"`); big == caption {
			t.Errorf("--size %s: numbers of 18 points %t, want %t", size, big, !caption)
		}
	}
	for format, begins := range map[string]string{"png": "\x89PNG", "pdf": "%PDF"} {
		if code, image, _ := invoke("", "plot", "--down", "0,12,0", "-o", "-", "--format", format); code != exitDone || !strings.HasPrefix(image, begins) {
			t.Errorf("%s: exit %d, %.20q", format, code, image)
		}
	}
	if code, image, _ := invoke("", "plot", "--down", "0,12", "--figure", "motion", "--frames", "8", "--seconds", "1", "-o", "-"); code != exitDone || !strings.HasPrefix(image, "GIF8") {
		t.Errorf("motion: exit %d, %.20q", code, image)
	}
}

func TestPlotList(t *testing.T) {
	t.Parallel()
	_, list, _ := invoke("", "plot", "--list")
	_, help, _ := invoke("", "plot", "--help")
	if !strings.HasPrefix(list, "  speed ") || strings.Count(list, "\n") != len(figures) || !strings.Contains(help, list) {
		t.Errorf("got the list\n%s", list)
	}
}

// On small pages letters stay large enough to be read, or the figure is refused with what
// to do.
func TestPlotOnASmallPage(t *testing.T) {
	t.Parallel()
	sizes := regexp.MustCompile(`font-size="([0-9.]+)"`)
	drawn := 0
	for _, figure := range []string{"speed", "vectors", "loads", "views", "theory", "phasing"} {
		code, svg, stderr := invoke("", "plot", root+"/examples/three-piece.json", "--figure", figure, "--size", "89x60mm", "-o", "-")
		if code != exitDone {
			if !strings.Contains(stderr, "want a larger page, smaller letters") {
				t.Errorf("%s: exit %d, %q: want it to tell what to do", figure, code, stderr)
			}
			continue
		}
		drawn++
		for _, m := range sizes.FindAllStringSubmatch(svg, -1) {
			if size, err := strconv.ParseFloat(m[1], 64); err != nil || size < 0.9*leastText-0.01 {
				t.Errorf("%s: letters of %s pt, want %g pt at least", figure, m[1], 0.9*leastText)
				break
			}
		}
	}
	if drawn < 4 {
		t.Errorf("%d figures fit, want most", drawn)
	}
}
