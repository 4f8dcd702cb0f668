package main

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/findings"
)

func TestSweepCSV(t *testing.T) {
	t.Parallel()
	code, text, stderr := invoke("", "sweep", example("one-piece.json"),
		"--vary", "rear shaft.phase=-90:90:45", "--vary", "rpm=1000:2000:500", "--show", "residual_accel_rad_s2,working_angle_deg")
	if code != exitDone {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(rows[0], "|"); got != "rear shaft.phase_deg|rpm|residual_accel_rad_s2(axle pinion)|working_angle_deg(front joint)|working_angle_deg(pinion joint)" {
		t.Errorf("head: %s", got)
	}
	if len(rows) != 1+5*3 {
		t.Errorf("got %d points, want 15", len(rows)-1)
	}
	// In phase at 2000 rev/min: what check says of the same driveline.
	_, text, _ = invoke("", "check", example("one-piece.json"), "--rpm", "2000", "--json")
	var doc findings.Document
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	got, err := strconv.ParseFloat(rows[9][2], 64)
	if err != nil {
		t.Fatal(err)
	}
	// The two multiply by the speed in another order.
	if want := *doc.Motion[2].PeakAccelRadS2; math.Abs(got/want-1) > 1e-14 {
		t.Errorf("phase %s, %s rev/min: got %v rad/s², check says %v", rows[9][0], rows[9][1], got, want)
	}
}

func TestSweepFigures(t *testing.T) {
	t.Parallel()
	phase, speed := "rear shaft.phase=-90:90:5", "rpm=1000:2000:50"
	for _, test := range []struct {
		name string
		args []string
		want string // in the SVG, or in the remarks where there is none
		code int
	}{
		{"a curve", []string{"--vary", phase, "--show", "residual_accel_rad_s2"}, "What does the phase of rear shaft change?", exitDone},
		{"exact and by theory", []string{"--vary", phase, "--show", "exact_equivalent_angle_deg,equivalent_angle_deg"}, "first order", exitDone},
		{"a map", []string{"--vary", phase, "--vary", speed}, "What do the phase of rear shaft and the", exitDone},
		{"two units in one figure", []string{"--vary", phase, "--show", "equivalent_angle_deg,residual_accel_rad_s2"}, "shake left at axle pinion, rad/s²", exitDone},
		{"two quantities on a map", []string{"--vary", phase, "--vary", speed, "--show", "working_angle_deg"}, "want one for a map", exitUsage},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			image := filepath.Join(t.TempDir(), "sweep.svg")
			code, stdout, stderr := invoke("", append([]string{"sweep", example("one-piece.json"), "-o", image}, test.args...)...)
			drawn, err := os.ReadFile(image)
			said := string(drawn)
			if code != exitDone {
				said = stderr
			}
			if code != test.code || (err == nil) != (code == exitDone) || stdout != "" || !strings.Contains(said, test.want) {
				t.Errorf("exit %d, output %q, remarks %q, want exit %d and %q", code, stdout, stderr, test.code, test.want)
			}
		})
	}
}

func TestSweepMistakes(t *testing.T) {
	t.Parallel()
	file := example("two-piece.json")
	for _, test := range []struct {
		name string
		args []string
		want string
	}{
		{"nothing to vary", []string{"sweep", file}, "--vary"},
		{"three to vary", []string{"sweep", file, "--vary", "rpm=1:2", "--vary", "rpm=1:2", "--vary", "rpm=1:2"}, "--vary"},
		{"unknown quantity", []string{"sweep", file, "--vary", "nose=1:2"}, "--vary"},
		{"unknown column", []string{"sweep", file, "--vary", "rpm=1000:2000:500", "--show", "noise"}, `--show: "noise"`},
		{"no speed", []string{"sweep", "--down", "0,12,4", "--vary", "shaft 3.down=0:8:1", "--show", "residual_accel_rad_s2", "-o", "x.svg"},
			"--show: residual_accel_rad_s2(shaft 3) has no value at any point: want a speed"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			code, stdout, stderr := invoke("", test.args...)
			if code != exitUsage || !strings.Contains(stderr, test.want) || stdout != "" {
				t.Errorf("got exit %d, output %q and remarks %q, want exit %d and %q", code, stdout, stderr, exitUsage, test.want)
			}
		})
	}
}

// A name that a spreadsheet would take for a formula is quoted.
func TestColumnsAreNoFormulas(t *testing.T) {
	t.Parallel()
	_, csv, stderr := invoke(`{"shafts": [{"down": 1}, {"name": "=1+1", "down": 3}, {"down": 1}]}`, "sweep", "-", "--vary", "=1+1.phase=0:10:10")
	if !strings.HasPrefix(csv, "'=1+1.phase_deg,") {
		t.Errorf("got %.60q, %s", csv, stderr)
	}
	for name, want := range map[string]string{
		"=a": "'=a", "+a": "'+a", "-a": "'-a", "@a": "'@a", "\ta": "'\ta", "\ra": "'\ra", "a=b": "a=b", "": "",
	} {
		if got := heading(name); got != want {
			t.Errorf("%q: got %q, want %q", name, got, want)
		}
	}
}
