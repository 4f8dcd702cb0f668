package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// root is the top of the repository, seen from this package.
const root = "../.."

// invoke runs a command line in this process.
func invoke(stdin string, args ...string) (code int, stdout, stderr string) {
	var out, errOut bytes.Buffer
	c := &console{ctx: context.Background(), in: strings.NewReader(stdin), out: &out, err: &errOut}
	code = run(c, args)
	return code, out.String(), errOut.String()
}

// TestDocumentedCommands runs every command of the console blocks of the pages
// in a folder that holds nothing but the examples, and compares what they print
// with what the page shows. Run the tests with UPDATE_PAGES=1 to have the pages
// written anew.
func TestDocumentedCommands(t *testing.T) {
	examples, err := filepath.Abs(filepath.Join(root, "examples"))
	if err != nil {
		t.Fatal(err)
	}
	for _, page := range []string{"README.md"} {
		t.Run(page, func(t *testing.T) {
			path, err := filepath.Abs(filepath.Join(root, page))
			if err != nil {
				t.Fatal(err)
			}
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			t.Chdir(t.TempDir())
			if err := os.Symlink(examples, "examples"); err != nil {
				t.Fatal(err)
			}
			got := replay(t, string(text))
			if got == string(text) {
				return
			}
			if os.Getenv("UPDATE_PAGES") != "" {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			t.Errorf("the commands print something else now; first difference:\n%s", firstDifference(got, string(text)))
		})
	}
}

// replay returns the page with the output below every command replaced by what
// the command prints now.
func replay(t *testing.T, page string) string {
	var b strings.Builder
	console := false
	skipping := false // the output shown so far
	for line := range strings.Lines(page) {
		fence := strings.HasPrefix(line, "```")
		switch {
		case fence && !console:
			console = strings.TrimSpace(line) == "```console"
		case fence:
			console, skipping = false, false
		case console && strings.HasPrefix(line, "$ "):
			b.WriteString(line)
			var out string
			out, skipping = output(t, strings.TrimSpace(line[2:]))
			b.WriteString(out)
			continue
		case skipping:
			continue
		}
		b.WriteString(line)
	}
	return b.String()
}

// output runs a documented command and returns what a terminal shows; ok is
// false for a command that is not the program's and so has its text kept.
func output(t *testing.T, line string) (out string, ok bool) {
	line = strings.Replace(line, "go run ./cmd/halfturn ", "halfturn ", 1)
	if !strings.HasPrefix(line, "halfturn ") {
		return "", false
	}
	line, file, _ := strings.Cut(line, " > ")
	line, filter, _ := strings.Cut(line, " | ")
	_, stdout, stderr := invoke("", words(line)[1:]...)
	if file != "" {
		if err := os.WriteFile(strings.TrimSpace(file), []byte(stdout), 0o644); err != nil {
			t.Fatal(err)
		}
		stdout = ""
	}
	if n, head := strings.CutPrefix(filter, "head -n "); head {
		count, err := strconv.Atoi(n)
		if err != nil {
			t.Fatalf("%s: %v", filter, err)
		}
		lines := strings.SplitAfter(stdout, "\n")
		stdout = strings.Join(lines[:min(count, len(lines))], "")
	} else if filter != "" {
		t.Fatalf("%s: a documented command may be piped through head -n only", filter)
	}
	return stderr + stdout, true
}

// words splits a command line at blanks outside quotes.
func words(line string) []string {
	var words []string
	for i, part := range strings.FieldsFunc(line, func(r rune) bool { return r == '"' || r == '\'' }) {
		if i%2 == 1 {
			words = append(words, part)
		} else {
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			return "got:  " + g[i] + "\nwant: " + w[i]
		}
	}
	return "one of the two is longer"
}
