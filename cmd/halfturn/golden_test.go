package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// update has the golden outputs, the pages and their figures written anew.
var update = os.Getenv("UPDATE") != ""

// goldens is where the golden outputs are kept, seen from the top of the
// repository.
const goldens = "testdata/golden"

// golden is a command line of which everything that comes out is kept: what it
// prints, remarks, and writes to the file OUT, and its exit status.
type golden struct {
	name string // of the file below goldens, without its ending
	line string // behind "halfturn"
}

// goldenExamples are tried on every example; FILE stands for it.
var goldenExamples = []golden{
	{"check", "check FILE"},
	{"check-full", "check FILE --full"},
	{"check-json", "check FILE --json"},
	{"series", "series FILE --steps 12"},
	{"series-coasting", "series FILE --steps 12 --coasting"},
	{"adjust", "adjust FILE --write OUT.json"},
	{"adjust-json", "adjust FILE --json"},
	{"sweep", "sweep FILE --vary rpm=600:3600:1500"},
	{"report", "report FILE -o OUT.html"},
}

// goldenLines are tried once. Drivelines in IN are invented, for fields and
// outcomes that no example has.
var goldenLines = []golden{
	{"check/quick", "check --down 3,7,4 --right 0,2,0 --rpm 3000 --reading-error 0.1"},
	{"check/quick-full", "check --down 3,7,4 --right 0,2,0 --rpm 3000 --reading-error 0.1 --full"},
	{"check/quick-without-speed", "check --down 3,7,4"},
	{"check/quick-phase", "check --down 0,12,4,9,1 --right 1,-2,3,0,4 --phase 10,-25,40 --rpm 1234"},
	{"check/quick-phase-full", "check --down 0,12,4,9,1 --right 1,-2,3,0,4 --phase 10,-25,40 --rpm 1234 --full"},
	{"check/quick-short-lists", "check --down 0,12,0,3 --right 0,2 --phase 30"},
	{"check/quick-machinery", "check --down 1,5,1.5 --rpm 1500 --limits machinery"},
	{"check/quick-slow-heavy", "check --down=-10,12,-9 --rpm 53 --reading-error 0.5 --limits slow-heavy"},
	{"check/speed-and-limits-of-flags", "check examples/one-piece.json --rpm 1800 --limits slow-heavy"},
	{"check/speed-of-flag-beside-road", "check IN/by-positions.json --rpm 1234.5 --json"},
	{"check/speed-of-flag-beside-kmh", "check IN/by-angles.json --rpm 1234.5"},
	{"check/angles", "check IN/by-angles.json"},
	{"check/angles-full", "check IN/by-angles.json --full"},
	{"check/angles-json", "check IN/by-angles.json --json"},
	{"check/positions", "check IN/by-positions.json"},
	{"check/positions-full", "check IN/by-positions.json --full"},
	{"check/positions-json", "check IN/by-positions.json --json"},
	{"check/bearings", "check IN/bearings.json"},
	{"check/bearings-json", "check IN/bearings.json --json"},
	{"check/under-power", "check IN/under-power.json"},
	{"check/under-power-json", "check IN/under-power.json --json"},
	{"adjust/under-power", "adjust IN/under-power.json --all-poses"},
	{"check/small-angles", "check IN/small-angles.json"},
	{"check/small-angles-full", "check IN/small-angles.json --full"},
	{"check/small-angles-json", "check IN/small-angles.json --json"},
	{"check/unjudged", "check IN/unjudged.json"},
	{"check/unjudged-full", "check IN/unjudged.json --full"},
	{"check/as-people-type", "check --down '3.9 up; 2,8 down; −1°' --right '0; 2 left; 0' --length '20; 50; 10 in' --units in --rpm 2000"},
	{"check/lengths-in-inches", "check examples/one-piece.json --length 24,55,12 --units in --torque 900"},
	{"check/decimal-commas", "check --down 3,9,7,1,4,0 --rpm 2000 --json"},
	{"check/unjudged-json", "check IN/unjudged.json --json"},
	{"check/strict-within", "check --down 3,5,3 --rpm 2000 --strict"},
	{"check/strict-over", "check --down 3,9,4 --rpm 2000 --strict"},
	{"check/strict-too-close", "check --down 3,5.5,3.9 --rpm 1000 --reading-error 0.1 --strict"},
	{"check/strict-over-in-a-pose", "check IN/within-until-moved.json --strict"},

	{"felt/on-the-road", "felt 94Hz examples/lifted-utility.json --at 65mph"},
	{"felt/slower", "felt 12.5Hz examples/lifted-utility.json --at 110km/h --json"},
	{"felt/by-the-shaft", "felt 43Hz --at 2600rpm"},
	{"felt/second-order", "felt 86.6Hz --at 2600rpm --json"},
	{"felt/nothing-fits", "felt 200Hz examples/lifted-utility.json"},
	{"felt/tyre-and-final-drive", "felt 94Hz --at 65mph --tyre 265/70R16 --final-drive 3.73"},
	{"felt/tyre-diameter", "felt 94Hz --at 65mph --tyre-diameter 31 --final-drive 3.73"},

	{"series/quick", "series --down 0,12,0 --rpm 1000 --steps 12"},
	{"series/quick-without-speed", "series --down 3,7,4 --right 0,2,0 --phase 20 --steps 5"},
	{"series/angles", "series IN/by-angles.json --steps 8"},
	{"series/turned-and-tape", "series IN/by-tape.json --steps 8"},
	{"series/loads", "series IN/bearings.json --steps 8 --loads"},
	{"series/loads-assumed", "series IN/by-angles.json --steps 4 --loads"},
	{"series/loads-without-lengths", "series --down 0,3,4,5 --steps 2 --loads"},
	{"series/positions-coasting", "series IN/by-positions.json --steps 8 --coasting"},

	{"adjust/quick", "adjust --down 3,7,4 --rpm 3000 --reading-error 0.1"},
	{"adjust/quick-fine", "adjust --down 3,5,3 --rpm 2000"},
	{"adjust/quick-fine-in-doubt", "adjust --down 3,5,3 --rpm 2000 --reading-error 0.05"},
	{"adjust/only", "adjust IN/by-positions.json --only wedge,bearing-height"},
	{"adjust/only-json", "adjust IN/by-positions.json --only wedge,bearing-height --json"},
	{"adjust/allow", "adjust examples/one-piece.json --allow 'wedge(axle pinion)=-6:6:0.5'"},
	{"adjust/angles", "adjust IN/by-angles.json --parts 1"},
	{"adjust/angles-json", "adjust IN/by-angles.json --only wedge,clocking --json"},
	{"adjust/all-poses", "adjust examples/lifted-utility.json --all-poses"},
	{"adjust/all-poses-json", "adjust IN/by-angles.json --only wedge,length --all-poses --json"},
	{"adjust/pose-out-of-reach", "adjust IN/within-until-moved.json --all-poses --allow 'wedge(rear)=0:0.5:0.5'"},
	{"adjust/second-plan", "adjust examples/two-piece.json --plan 2 --write OUT.json"},

	{"sweep/speed", "sweep IN/by-positions.json --vary rpm=500:3000:500"},
	{"sweep/slope", "sweep IN/by-angles.json --vary third.down=4:8:2"},
	{"sweep/heading", "sweep IN/by-angles.json --vary third.right=-4:4:4"},
	{"sweep/incline", "sweep examples/transfer-case.json --vary 'rear shaft.incline=8:12:2'"},
	{"sweep/phase", "sweep --down 0,10,0 --rpm 1000 --vary 'shaft 2.phase=-90:90:45'"},
	{"sweep/along", "sweep IN/by-positions.json --vary 'joint 2.at.along=40:44:2'"},
	{"sweep/down-and-right", "sweep IN/by-positions.json --vary 'joint 2.at.right=2:3:1' --vary 'joint 2.at.down=6:8:1'"},
	{"sweep/wedge-and-clocking", "sweep IN/by-angles.json --vary 'wedge(last)=-2:2:2' --vary 'clocking(second)=-10:10:10'"},
	{"sweep/bearing", "sweep IN/by-angles.json --vary 'bearing-height(B)=0:20:20' --vary 'bearing-side(C)=0:20:20'"},
	{"sweep/mount-and-length", "sweep IN/by-angles.json --vary 'mount(first)=0:6:6' --vary 'length(third)=0:30:30'"},
	{"sweep/shown", "sweep --down 3,7,4 --rpm 2000 --vary 'shaft 3.down=2:8:3' --show working_angle_deg,residual_accel_rad_s2"},

	{"report/angles", "report IN/by-angles.json -o OUT.html"},
	{"report/positions", "report IN/by-positions.json -o OUT.html"},
	{"report/small-angles", "report IN/small-angles.json -o OUT.html"},
	{"report/unjudged", "report IN/unjudged.json -o OUT.html"},
	{"report/in-another-pose", "report IN/within-until-moved.json -o OUT.html"},
	{"report/quick", "report --down 3,7,4 --rpm 3000 --reading-error 0.1 -o OUT.html"},

	{"limits/all", "limits"},
	{"limits/one", "limits machinery --rpm 1234.5"},
	{"verify", "verify"},
	{"schema", "schema"},

	{"mistakes/faults-of-a-file", "check IN/faults.json"},
	{"mistakes/bearings", "check IN/bearings-unsettled.json"},
	{"mistakes/loads-coasting", "series IN/bearings.json --loads --coasting"},
	{"mistakes/broken-file", "check IN/broken.json"},
	{"mistakes/no-such-file", "check IN/none.json"},
	{"mistakes/command", "chekc"},
	{"mistakes/flag", "check --angles 3"},
	{"mistakes/no-driveline", "adjust"},
	{"mistakes/file-and-flags", "check IN/unjudged.json --down 0,3"},
	{"mistakes/slope", "check --down 3,95"},
	{"mistakes/number", "series --down 3,x,4"},
	{"mistakes/phases", "check --down 3,4,5 --phase 1,2"},
	{"mistakes/limits", "check --down 3,4,5 --limits road"},
	{"mistakes/felt-without-speed", "felt 43Hz"},
	{"mistakes/speed-of-a-driveline-without-road", "felt 43Hz --at 90km/h"},
	{"mistakes/change", "adjust examples/one-piece.json --allow 'wedge(axle)=-6:6:0.5'"},
	{"mistakes/range", "sweep --down 3,4,5 --vary rpm=600"},
	{"mistakes/shown", "sweep --down 3,4,5 --vary rpm=600:900:100 --show angle"},
	{"mistakes/page", "report examples/one-piece.json -o OUT.txt"},
}

// goldenCases returns all cases, FILE, IN and names put in.
func goldenCases(t *testing.T) []golden {
	t.Helper()
	files, err := filepath.Glob("examples/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	var cases []golden
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		for _, g := range goldenExamples {
			cases = append(cases, golden{name + "/" + g.name, strings.ReplaceAll(g.line, "FILE", file)})
		}
	}
	cases = append(cases, golden{"help/overview", "--help"})
	for _, c := range commands() {
		cases = append(cases, golden{"help/" + c.name, c.name + " --help"})
	}
	for _, g := range goldenLines {
		cases = append(cases, golden{g.name, strings.ReplaceAll(g.line, "IN/", goldens+"/input/")})
	}
	return cases
}

// TestGolden holds whatever the command prints against the files of goldens, so
// that code can be moved without fear. Run it with UPDATE=1 to write them anew,
// and read what has changed.
func TestGolden(t *testing.T) {
	t.Chdir(root) // so that paths are printed as from the top of the repository
	known := map[string]bool{}
	for _, g := range goldenCases(t) {
		path := filepath.Join(goldens, filepath.FromSlash(g.name)+".txt")
		if known[path] {
			t.Fatalf("two cases are called %s", g.name)
		}
		known[path] = true
		t.Run(g.name, func(t *testing.T) {
			t.Parallel()
			g.compare(t, path)
		})
	}
	requireNoStale(t, known)
}

// requireNoStale wants no golden file without a case; on update it removes them.
func requireNoStale(t *testing.T, known map[string]bool) {
	t.Helper()
	err := filepath.WalkDir(goldens, func(path string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case path == filepath.Join(goldens, "input"):
			return fs.SkipDir
		case entry.IsDir() || known[path]:
			return nil
		case update:
			return os.Remove(path)
		}
		t.Errorf("%s belongs to no case: UPDATE=1 removes it", path)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func (g golden) compare(t *testing.T, path string) {
	got := g.record(t)
	want, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	difference := goldenDifference(got, string(want))
	switch {
	case difference == "":
	case update:
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	default:
		t.Errorf("halfturn %s\ndiffers from %s:\n%sIf that is meant: UPDATE=1 go test ./cmd/halfturn, and read the difference.",
			g.line, path, difference)
	}
}

// record runs the command line and returns all that comes out, each part
// under a heading.
func (g golden) record(t *testing.T) string {
	t.Helper()
	args := words(g.line)
	folder := t.TempDir()
	written := ""
	for i, arg := range args {
		if strings.HasPrefix(arg, "OUT.") {
			written = filepath.Join(folder, arg)
			args[i] = written
		}
	}
	code, stdout, stderr := invoke("", args...)
	var b strings.Builder
	fmt.Fprintf(&b, "$ halfturn %s\n%s", g.line, stdout)
	if stderr != "" {
		b.WriteString("--- remarks\n" + strings.ReplaceAll(stderr, folder+string(filepath.Separator), ""))
	}
	if code != exitDone {
		fmt.Fprintf(&b, "--- exit status %d\n", code)
	}
	if data, err := os.ReadFile(written); err == nil {
		text := string(data)
		if filepath.Ext(written) == ".html" {
			text = strings.ReplaceAll(pageText(t, data), version(), "halfturn VERSION")
		}
		b.WriteString("--- written\n" + text)
	}
	return b.String()
}

// pageText returns the text of a page of a report, a block or a row of a table on
// a line; figures are left out.
func pageText(t *testing.T, page []byte) string {
	t.Helper()
	var b, block strings.Builder
	end := func() {
		if line := strings.Join(strings.Fields(block.String()), " "); line != "" {
			b.WriteString(line + "\n")
		}
		block.Reset()
	}
	blocks := []string{"title", "p", "h1", "h2", "h3", "li", "tr", "dt", "div", "table", "figure"}
	decoder := xml.NewDecoder(bytes.NewReader(page))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			end()
			return b.String()
		}
		if err != nil {
			t.Fatalf("the page is not well formed: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			switch name := token.Name.Local; {
			case name == "svg" || name == "style":
				if err := decoder.Skip(); err != nil {
					t.Fatalf("the page is not well formed: %v", err)
				}
			case slices.Contains(blocks, name):
				end()
			case name == "td" || name == "th":
				block.WriteString(" | ")
			}
		case xml.EndElement:
			if slices.Contains(blocks, token.Name.Local) {
				end()
			}
		case xml.CharData:
			block.Write(token)
		}
	}
}

// shownDifferences is how many lines that differ are shown.
const shownDifferences = 3

// goldenDifference returns the first lines that differ; "" where none does.
func goldenDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	var b strings.Builder
	shown := 0
	for i := range max(len(g), len(w)) {
		switch {
		case shown == shownDifferences:
			return b.String() + "…\n"
		case i >= len(g):
			fmt.Fprintf(&b, "line %d: missing: %s\n", i+1, w[i])
		case i >= len(w):
			fmt.Fprintf(&b, "line %d: added:   %s\n", i+1, g[i])
		case !sameLine(g[i], w[i]):
			fmt.Fprintf(&b, "line %d: got:  %s\n%*s want: %s\n", i+1, g[i], len(fmt.Sprintf("line %d:", i+1)), "", w[i])
		default:
			continue
		}
		shown++
	}
	return b.String()
}

var (
	jsonNumber = regexp.MustCompile(`^( *(?:"[^"]*": )?)([-+.0-9eE]+)(,?)$`)
	csvRow     = regexp.MustCompile(`^[-+.0-9eE,]+$`)
	textRest   = regexp.MustCompile(` +[-+]?\d(?:\.\d)?e-(?:0[7-9]|[1-9]\d)\b`)
	textZero   = regexp.MustCompile(` +0\b`)
)

// What another processor may make of the last digits of a number.
const (
	goldenRelative = 1e-9
	goldenAbsolute = 1e-12
	// Below, there is nothing but rounding: the square root of that of 1, in degrees.
	goldenNothing = 1e-6
	// The phase of an order that hardly exists is as uncertain as the order.
	goldenPhase = 1e-3
)

// sameLine compares two lines to the letter, but by their values the numbers of
// JSON, each in a line of its own, and those of CSV, in rows of nothing else. In
// text, a number that is printed as below 1e-6 passes for 0.
func sameLine(got, want string) bool {
	if got == want {
		return true
	}
	if g, w := jsonNumber.FindStringSubmatch(got), jsonNumber.FindStringSubmatch(want); g != nil && w != nil {
		loose := goldenAbsolute
		if strings.Contains(w[1], `"phase_deg"`) {
			loose = goldenPhase
		}
		return g[1] == w[1] && g[3] == w[3] && sameNumber(g[2], w[2], loose)
	}
	if csvRow.MatchString(got) && csvRow.MatchString(want) {
		return slices.EqualFunc(strings.Split(got, ","), strings.Split(want, ","), func(g, w string) bool {
			return sameNumber(g, w, goldenAbsolute)
		})
	}
	if !textRest.MatchString(got) && !textRest.MatchString(want) {
		return false
	}
	restless := func(line string) string {
		return textZero.ReplaceAllString(textRest.ReplaceAllString(line, " 0"), " 0")
	}
	return restless(got) == restless(want)
}

// sameNumber reports whether two numbers agree but for rounding.
func sameNumber(got, want string, absolute float64) bool {
	if got == want {
		return true
	}
	g, errG := strconv.ParseFloat(got, 64)
	w, errW := strconv.ParseFloat(want, 64)
	if errG != nil || errW != nil {
		return false
	}
	if math.Abs(g) < goldenNothing && math.Abs(w) < goldenNothing {
		return true
	}
	return math.Abs(g-w) <= goldenRelative*math.Abs(w)+absolute
}
