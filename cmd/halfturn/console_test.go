package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What somebody may have measured is not written over, unless that is forced.
func TestDrivelineFilesAreKept(t *testing.T) {
	t.Parallel()
	measured, err := os.ReadFile(example("two-piece.json"))
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	file, nowhere := filepath.Join(folder, "mine.json"), filepath.Join(folder, "link.json")
	if err := errors.Join(os.WriteFile(file, measured, 0o644), os.Symlink(filepath.Join(folder, "none.json"), nowhere)); err != nil {
		t.Fatal(err)
	}
	for _, target := range []string{file, nowhere} {
		code, stdout, stderr := invoke("", "adjust", file, "--write", target)
		if code != exitFailed || stdout != "" || !strings.Contains(stderr, "mine.json is there already") && !strings.Contains(stderr, "link.json is there already") {
			t.Errorf("--write %s: got exit %d, output %.40q and remarks %q", target, code, stdout, stderr)
		}
	}
	if now, err := os.ReadFile(file); err != nil || string(now) != string(measured) {
		t.Errorf("the file was written over, or is gone: %v", err)
	}
	if code, _, stderr := invoke("", "adjust", file, "--write", file, "--force"); code != exitDone {
		t.Errorf("--force: got exit %d and remarks %q", code, stderr)
	}
	if now, err := os.ReadFile(file); err != nil || string(now) == string(measured) {
		t.Errorf("--force did not write over the file: %v", err)
	}
}

func TestDemoKeepsAChangedFile(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	file := filepath.Join(folder, demoExample)
	for _, again := range []bool{false, true} { // its own file is no changed one
		code, stdout, stderr := invoke("", "demo", "-o", folder)
		if code != exitDone || stderr != "" || !strings.Contains(stdout, "Written:\n  "+file) {
			t.Fatalf("again %v: got exit %d, remarks %q and output\n%s", again, code, stderr, stdout)
		}
	}
	if err := os.WriteFile(file, []byte("{}"), 0o644); err != nil {
		t.Fatal(err)
	}
	code, stdout, _ := invoke("", "demo", "-o", folder)
	if code != exitDone || !strings.Contains(strings.Join(strings.Fields(stdout), " "), demoExample+" is kept as you changed it") {
		t.Errorf("got exit %d and output\n%s", code, stdout)
	}
	if now, err := os.ReadFile(file); err != nil || string(now) != "{}" {
		t.Errorf("got the file %q, %v, want it kept", now, err)
	}
}

// Names of files and values of flags come from anyone. They reach a terminal as
// letters only.
func TestRemarksArePrintable(t *testing.T) {
	t.Parallel()
	for _, args := range [][]string{
		{"check", "no\x1b[2Jfile\u202e.json"},
		{"check", "--down", "3,\x1b]0;x\a"},
		{"\x1b[31m"},
		{"check", "--\x9b1m"},
	} {
		code, stdout, stderr := invoke("", args...)
		if code == exitDone || stdout != "" || strings.ContainsAny(stderr, "\x1b\a\u009b\u202e") {
			t.Errorf("%q: got exit %d, output %q and remarks %q", args, code, stdout, stderr)
		}
	}
}

func TestQuotedPaths(t *testing.T) {
	t.Parallel()
	for path, want := range map[string]string{
		"a/b-c_1.json":   "a/b-c_1.json",
		"Träger.json":    "Träger.json",
		"my file.json":   "'my file.json'",
		"it's.json":      `'it'\''s.json'`,
		"$(reboot).json": "'$(reboot).json'",
		"":               "''",
		"a\nb":           `'a\u000ab'`,
	} {
		if got := quoted(path); got != want {
			t.Errorf("%q: got %s, want %s", path, got, want)
		}
	}
}

// An interruption ends a command that waits for its input.
func TestInterruptedWhileReading(t *testing.T) {
	t.Parallel()
	ctx, interrupt := context.WithCancel(t.Context())
	never, _, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer never.Close()
	var out, remarks strings.Builder
	interrupt()
	if code := run(&console{ctx: ctx, in: never, out: &out, err: &remarks}, []string{"check", "-"}); code != exitFailed || remarks.String() != "halfturn: interrupted\n" {
		t.Errorf("got exit %d and remarks %q", code, remarks.String())
	}
}
