package main

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"halfturn/cmd/halfturn/text"
)

// exampleFiles returns the paths of the example drivelines.
func exampleFiles(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(root, "examples", "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	return files
}

func TestHelp(t *testing.T) {
	t.Parallel()
	code, overview, _ := invoke("", "--help")
	if code != exitDone || !strings.Contains(overview, "never under a vehicle on a jack alone") {
		t.Errorf("--help: exit %d, or the cautions are missing:\n%s", code, overview)
	}
	for _, cmd := range commands() {
		if !strings.Contains(overview, "\n  "+cmd.name+" ") {
			t.Errorf("--help does not list %s", cmd.name)
		}
		code, text, _ := invoke("", cmd.name, "--help")
		if code != exitDone || !strings.HasPrefix(text, "Usage: halfturn "+cmd.name) {
			t.Errorf("%s --help: exit %d:\n%s", cmd.name, code, text)
		}
		requireWidth(t, text)
		if _, again, _ := invoke("", "help", cmd.name); again != text {
			t.Errorf("help %s differs from %s --help:\n%s", cmd.name, cmd.name, again)
		}
	}
	requireWidth(t, overview)
	if code, text, _ := invoke("", "--version"); code != exitDone || !strings.HasPrefix(text, "halfturn ") {
		t.Errorf("--version: exit %d: %s", code, text)
	}
}

// requireWidth wants lines that fit a narrow terminal.
func requireWidth(t *testing.T, output string) {
	t.Helper()
	for line := range strings.Lines(output) {
		if utf8.RuneCountInString(strings.TrimRight(line, "\n")) > text.Width {
			t.Errorf("wider than %d columns: %s", text.Width, line)
		}
	}
}

// fullDisk is an output that takes nothing.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestFullDiskIsAFailure(t *testing.T) {
	t.Parallel()
	file := example("two-piece.json")
	for _, args := range [][]string{
		{"--help"}, {"--version"}, {"help", "check"},
		{"check", file}, {"check", file, "--json"}, {"check", file, "--strict"},
		{"series", file}, {"sweep", file, "--vary", "rpm=1000:2000:500"},
		{"adjust", file}, {"adjust", file, "--json"},
		{"verify"}, {"schema"}, {"demo", "-o", t.TempDir()},
	} {
		t.Run(strings.Join(args[:min(3, len(args))], " "), func(t *testing.T) {
			t.Parallel()
			var stderr strings.Builder
			c := &console{ctx: t.Context(), in: strings.NewReader(""), out: fullDisk{}, err: &stderr}
			if code := run(c, args); code != exitFailed || !strings.Contains(stderr.String(), "no space left") {
				t.Errorf("got exit %d and remarks %q, want exit %d and the cause", code, &stderr, exitFailed)
			}
		})
	}
}

func TestCommandLineMistakes(t *testing.T) {
	t.Parallel()
	example := filepath.Join(root, "examples", "one-piece.json")
	for _, test := range []struct {
		name string
		args []string
		code int
		want string // in the remarks
	}{
		{"nothing", nil, exitUsage, "Usage: halfturn COMMAND"},
		{"unknown command", []string{"chekc"}, exitUsage, `"chekc" is not a command: check, perhaps; see halfturn --help`},
		{"nothing like a command", []string{"weld"}, exitUsage, `"weld" is not a command; see halfturn --help`},
		{"mistyped flag", []string{"check", "--dwon", "3"}, exitUsage, "unknown flag: --dwon: --down, perhaps"},
		{"unknown flag", []string{"check", "--angles", "3"}, exitUsage, "unknown flag: --angles"},
		{"no driveline", []string{"check"}, exitUsage, "want a FILE"},
		{"two files", []string{"check", example, example}, exitUsage, "2 FILEs: want one"},
		{"file and flags", []string{"check", example, "--down", "0,3"}, exitUsage, "want one of them"},
		{"one shaft", []string{"check", "--down", "3"}, exitUsage, "at least 2 shafts"},
		{"empty name", []string{"check", ""}, exitUsage, "the name of the FILE is empty"},
		{"no number", []string{"check", "--down", "3,x"}, exitUsage, `--down value 2: "x"`},
		{"empty value", []string{"check", "--down", "3,,4"}, exitUsage, `--down value 2: ""`},
		{"NaN", []string{"check", "--down", "3,NaN"}, exitUsage, `--down value 2: "NaN"`},
		{"hexadecimal", []string{"check", "--right", "0x1p4,3"}, exitUsage, `--right value 1: "0x1p4"`},
		{"too large", []string{"check", "--down", "3,1e999"}, exitUsage, `--down value 2: "1e999"`},
		{"steep slope", []string{"check", "--down", "3,95"}, exitUsage, "95 deg: want a slope between -90 and 90 deg"},
		{"steep joint", []string{"check", "--down", "-50,50"}, exitUsage, "want a working angle below 90 deg"},
		{"too many phases", []string{"check", "--down", "3,4", "--phase", "0"}, exitUsage, "--phase has 1 value for 2 shafts"},
		{"no speed", []string{"check", "--down", "3,4", "--rpm", "0"}, exitUsage, "want a speed above 0"},
		{"speed NaN", []string{"check", "--down", "3,4", "--rpm", "NaN"}, exitUsage, "rpm: NaN"},
		{"speed of a file below zero", []string{"check", example, "--rpm=-5"}, exitUsage, "rpm: -5"},
		{"no steps", []string{"series", "--down", "3,4", "--steps", "0"}, exitUsage, "--steps"},
		{"no such file", []string{"check", "no/such.json"}, exitFailed, "no/such.json: no such file"},
		{"a folder", []string{"check", t.TempDir()}, exitFailed, "is a directory"},
		{"operand of schema", []string{"schema", "x"}, exitUsage, "takes no operand"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			code, stdout, stderr := invoke("", test.args...)
			if code != test.code || !strings.Contains(stderr, test.want) {
				t.Errorf("got exit %d and remarks\n%swant exit %d and %q", code, stderr, test.code, test.want)
			}
			if stdout != "" {
				t.Errorf("got output beside the mistake:\n%s", stdout)
			}
		})
	}
}

func TestFaultsOfAFileAreAllTold(t *testing.T) {
	t.Parallel()
	code, stdout, stderr := invoke(`{"rpm": -3, "shafts": [{"down": 1}, {"dwon": 2}, {"down": 100}]}`, "check", "-")
	if code != exitFailed || stdout != "" {
		t.Errorf("got exit %d and output %q, want exit %d and none", code, stdout, exitFailed)
	}
	for _, want := range []string{"standard input:1:9: rpm: -3", `shafts[1].dwon: unknown field: want "down"`, "shafts[2].down: 100"} {
		if !strings.Contains(stderr, want) {
			t.Errorf("remarks lack %q:\n%s", want, stderr)
		}
	}
}

func TestFileFromStandardInput(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile(filepath.Join(root, "examples", "one-piece.json"))
	if err != nil {
		t.Fatal(err)
	}
	_, want, _ := invoke("", "check", filepath.Join(root, "examples", "one-piece.json"))
	if _, got, _ := invoke(string(text), "check", "-"); got != want {
		t.Errorf("got\n%s\nwant what the file gives:\n%s", got, want)
	}
}

func TestShortListsAreRemarked(t *testing.T) {
	t.Parallel()
	code, _, stderr := invoke("", "check", "--down", "0,12,0,3", "--right", "0,2")
	if code != exitDone || !strings.Contains(stderr, "--right has 2 of 4 values: the rest count as 0") {
		t.Errorf("got exit %d and remarks %q", code, stderr)
	}
}

// Whatever stands in the quick flags, the command says what is wrong or prints
// numbers: it does not panic and prints no NaN.
func FuzzQuickFlags(f *testing.F) {
	f.Add("0,12,0", "0,0,0", "0", "1000")
	f.Add("3,7,4", "", "", "")
	f.Add("-89.9,0", "1e-9,0", "", "1e5")
	f.Add("0,0,0", "NaN,+Inf,0x1", "90,", "-1")
	f.Add("1,2,3,4,5", ",,,,", "360,-360,1e9", "1e400")
	f.Fuzz(func(t *testing.T, down, right, phase, rpm string) {
		for _, cmd := range []string{"check", "series"} {
			args := []string{cmd, "--down=" + down, "--right=" + right, "--phase=" + phase}
			if rpm != "" {
				args = append(args, "--rpm="+rpm)
			}
			code, stdout, stderr := invoke("", args...)
			switch {
			case code == exitDone && (stdout == "" || strings.Contains(stdout, "NaN") || strings.Contains(stdout, "Inf")):
				t.Errorf("%q: exit 0 with output\n%s", args, stdout)
			case code != exitDone && (stdout != "" || stderr == ""):
				t.Errorf("%q: exit %d with output %q and remarks %q", args, code, stdout, stderr)
			}
		}
	})
}

// Every help has three examples at least, and each of them works.
func TestExamplesOfHelp(t *testing.T) {
	two, err := os.ReadFile(example("two-piece.json"))
	if err != nil {
		t.Fatal(err)
	}
	onRoad := strings.Replace(string(two), `"shafts"`, `"road": {"tyre": "235/75R16", "final_drive": 3.9}, "shafts"`, 1)
	t.Chdir(t.TempDir())
	for _, name := range []string{"my-driveline.json", "before.json", "after.json"} {
		if err := os.WriteFile(name, []byte(onRoad), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, cmd := range commands() {
		examples := 0
		for line := range strings.Lines(strings.ReplaceAll(cmd.help, "\\\n", " ")) {
			if !strings.HasPrefix(line, "  halfturn ") {
				continue
			}
			examples++
			for part := range strings.SplitSeq(line, " && ") {
				part, _, _ = strings.Cut(part, " > ")
				args := words(strings.TrimSpace(part))[1:]
				if args[0] == "live" {
					continue // it serves until it is interrupted
				}
				if code, _, stderr := invoke("", args...); code != exitDone && (code != exitNotWithin || !slices.Contains(args, "--strict")) {
					t.Errorf("halfturn %q: exit %d: %s", args, code, stderr)
				}
			}
		}
		if examples < 3 {
			t.Errorf("the help of %s has %d examples, want 3 at least", cmd.name, examples)
		}
	}
}
