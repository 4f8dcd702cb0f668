package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/findings"
)

func example(name string) string { return filepath.Join(root, "examples", name) }

// The corrected file of a plan is what check then finds within every limit.
func TestAdjustWritesWhatCheckConfirms(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "corrected.json")
	code, text, stderr := invoke("", "adjust", example("one-piece.json"), "--write", file)
	if code != exitDone || !strings.Contains(stderr, "wrote "+file) {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	if !strings.Contains(text, "Best: ") || !strings.Contains(text, "Plan 1: ") {
		t.Errorf("no plan in\n%s", text)
	}
	if code, _, _ := invoke("", "check", example("one-piece.json"), "--strict"); code != exitNotWithin {
		t.Errorf("check --strict before: exit %d, want %d", code, exitNotWithin)
	}
	if code, text, stderr := invoke("", "check", file, "--strict"); code != exitDone {
		t.Errorf("check --strict after: exit %d, want %d\n%s%s", code, exitDone, text, stderr)
	}
}

func TestAdjustJSON(t *testing.T) {
	t.Parallel()
	_, text, _ := invoke("", "adjust", example("one-piece.json"), "--json")
	var doc findings.CorrectionDocument
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	if len(doc.Plans) == 0 || doc.Plans[0].Outcome != "within" || doc.Plans[0].Steps[0].Instruction == "" {
		t.Errorf("got %+v", doc.Plans)
	}
	if got := doc.Before[0].Outcome; got == "within" {
		t.Errorf("before: %s", got)
	}
}

// The first line answers, whatever comes out.
func TestAdjustEveryExample(t *testing.T) {
	t.Parallel()
	begins := map[string]string{
		"one-piece":               "Best: fit a wedge of 1.5° to turn the nose",
		"two-piece":               "Best: fit a wedge of 1° to turn the nose",
		"three-piece":             "Best: lower the bearing",
		"lifted-utility":          "Nothing within reach mends that the",
		"transfer-case":           "Nothing within reach mends that the",
		"steering-shaft":          "No limit is known to be broken.",
		"rewelded-shaft":          "Best: turn the driven-end yoke",
		"single-joint":            "Best: tilt \"fan shaft\" by 2.5°",
		"implement-shaft":         "Nothing needs to be changed",
		"constant-velocity-front": "Nothing needs to be changed",
	}
	for _, file := range exampleFiles(t) {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			code, text, stderr := invoke("", "adjust", file)
			if code != exitDone || stderr != "" {
				t.Fatalf("exit %d: %s", code, stderr)
			}
			requireWidth(t, text)
			if got := strings.ReplaceAll(text, "\n", " "); begins[name] == "" || !strings.HasPrefix(got, begins[name]) {
				t.Errorf("got %.90q, want it to begin with %q", got, begins[name])
			}
		})
	}
}

// A step that must be made closely is named; where none must, that is said once.
func TestAdjustTellsHowClosely(t *testing.T) {
	t.Parallel()
	_, text, _ := invoke("", "adjust", example("two-piece.json"))
	if want := "Half a step less or more keeps every limit as measured"; !strings.Contains(text, want) {
		t.Errorf("output lacks %q:\n%s", want, text)
	}
	_, text, _ = invoke("", "adjust", example("three-piece.json"))
	if want := "Half a step off, bearing-height on first bearing joint 2.5 mm less, breaks the"; !strings.Contains(text, want) {
		t.Errorf("output lacks %q:\n%s", want, text)
	}
}

func TestAdjustOnlyAndAllow(t *testing.T) {
	t.Parallel()
	_, text, _ := invoke("", "adjust", example("one-piece.json"), "--only", "wedge", "--allow", "wedge(axle pinion)=-2:2:0.5", "--json")
	var doc findings.CorrectionDocument
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	for _, p := range doc.Plans {
		for _, s := range p.Steps {
			if s.Change != "wedge" || s.Value < -2 || s.Value > 2 {
				t.Errorf("got the step %+v, want a wedge within ±2°", s)
			}
		}
	}
}

func TestAdjustMistakes(t *testing.T) {
	t.Parallel()
	file := example("one-piece.json")
	for _, test := range []struct {
		name string
		args []string
		code int
		want string
	}{
		{"unknown kind", []string{"adjust", file, "--only", "hammer"}, exitUsage, `"hammer"`},
		{"unknown change", []string{"adjust", file, "--allow", "wedge=1:2"}, exitUsage, "--allow"},
		{"plan 0", []string{"adjust", file, "--plan", "0", "--write", "x.json"}, exitUsage, "--plan: 0"},
		{"plan of no file", []string{"adjust", file, "--plan", "2"}, exitUsage, "--plan: is for a file to write"},
		{"force on no file", []string{"adjust", file, "--force"}, exitUsage, "--force: is for a file to write"},
		{"negative parts", []string{"adjust", file, "--parts=-1"}, exitUsage, "--parts: -1"},
		{"plan 6 of 1", []string{"adjust", file, "--plan", "6", "--write", filepath.Join(t.TempDir(), "x.json")}, exitFailed, "--plan: 6: want at most 1"},
		{"unwritable", []string{"adjust", file, "--write", "no/such/folder/x.json"}, exitFailed, "no/such/folder"},
		{"no lengths", []string{"adjust", "--down", "0,3", "--only", "bearing-height"}, exitFailed, ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			code, stdout, stderr := invoke("", test.args...)
			if code != test.code || !strings.Contains(stderr, test.want) || stdout != "" {
				t.Errorf("got exit %d, output %q and remarks\n%swant exit %d and %q", code, stdout, stderr, test.code, test.want)
			}
		})
	}
}

func TestInterruptedSearchEnds(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	file := filepath.Join(t.TempDir(), "x.json")
	var out, errOut strings.Builder
	c := &console{ctx: ctx, in: strings.NewReader(""), out: &out, err: &errOut}
	code := run(c, []string{"adjust", example("two-piece.json"), "--write", file})
	if code != exitFailed || out.String() != "" || errOut.String() != "halfturn: interrupted\n" {
		t.Errorf("exit %d, output %q, remarks %q", code, out.String(), errOut.String())
	}
	if _, err := os.Stat(file); err == nil {
		t.Error("an interrupted search wrote its file")
	}
}

// Where there is nothing to write, the answer is printed all the same.
func TestAdjustWithoutAPlanWritesNone(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name, why string
		args      []string
	}{
		{"fine", "nothing needs to be changed", []string{example("constant-velocity-front.json")}},
		{"no plan", "there is no plan", []string{"--down", "3,7,4", "--rpm", "3000", "--limits", "road-strict"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			file := filepath.Join(t.TempDir(), "x.json")
			code, text, stderr := invoke("", append([]string{"adjust", "--write", file}, test.args...)...)
			if want := "halfturn: " + file + " is not written: " + test.why + "\n"; code != exitDone || text == "" || stderr != want {
				t.Errorf("got exit %d, output %.40q and remarks %q, want %q", code, text, stderr, want)
			}
			if _, err := os.Stat(file); err == nil {
				t.Error("it wrote a file")
			}
		})
	}
}

func TestPosesAreChecked(t *testing.T) {
	t.Parallel()
	_, text, _ := invoke("", "check", example("lifted-utility.json"), "--full")
	for _, want := range []string{
		"Not within in other poses: full droop, full bump.", "\nPoses\n",
		"  as measured: working angles 11.94°, 11.94°\n", "  full droop: working angles 17.93°, 13.44°\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("check lacks %q:\n%s", want, text)
		}
	}
}

// A limit that nothing within reach mends does not hide what a change does for
// the rest.
func TestAdjustSetsAsideWhatNothingMends(t *testing.T) {
	t.Parallel()
	args := []string{"adjust", "--down", "3,6.5,4.5", "--rpm", "3000", "--only", "wedge", "--limits", "road-strict"}
	_, text, _ := invoke("", args...)
	if !strings.HasPrefix(text, "Nothing within reach mends that the working angle at joint 1, 3.50°, is over") || !strings.Contains(text, "Best for the rest: fit a wedge of") {
		t.Errorf("got\n%s", text)
	}
	_, text, _ = invoke("", append(args, "--json")...)
	var doc findings.CorrectionDocument
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	if len(doc.SetAside) != 1 || doc.SetAside[0].Subject != "joint 1" || len(doc.Plans) != 1 {
		t.Errorf("set aside %+v, %d plans, want joint 1 and a plan", doc.SetAside, len(doc.Plans))
	}
}
