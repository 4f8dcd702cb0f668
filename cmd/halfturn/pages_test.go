package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// root is the top of the repository, seen from this package.
const root = "../.."

// invoke runs a command line in this process.
func invoke(stdin string, args ...string) (code int, stdout, stderr string) {
	var out, errOut bytes.Buffer
	c := &console{ctx: context.Background(), in: strings.NewReader(stdin), out: &out, err: &errOut, patience: usualPatience}
	code = run(c, args)
	return code, out.String(), errOut.String()
}

// TestDocumentedCommands runs every command of the console blocks of the pages
// in a folder that holds nothing but the examples, and compares what they print
// and draw with what the page shows. Run the tests with UPDATE=1 to have
// the pages and the gallery written anew.
func TestDocumentedCommands(t *testing.T) {
	for _, page := range []string{"README.md", "examples/README.md"} {
		t.Run(page, func(t *testing.T) {
			path := absolute(t, page)
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			examples, gallery := absolute(t, "examples"), absolute(t, "examples/gallery")
			t.Chdir(t.TempDir())
			if err := os.Symlink(examples, "examples"); err != nil {
				t.Fatal(err)
			}
			if err := os.Mkdir("gallery", 0o755); err != nil {
				t.Fatal(err)
			}
			got := replay(t, string(text))
			if got != string(text) {
				if update {
					if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
						t.Fatal(err)
					}
				} else {
					t.Errorf("the commands print something else now; first difference:\n%s", firstDifference(got, string(text)))
				}
			}
			if strings.HasPrefix(page, "examples/") {
				compareGallery(t, gallery)
			}
		})
	}
}

func absolute(t *testing.T, path string) string {
	t.Helper()
	path, err := filepath.Abs(filepath.Join(root, path))
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// replay returns the page with the output below every command replaced by what
// the command prints now.
func replay(t *testing.T, page string) string {
	lines := strings.SplitAfter(page, "\n")
	var b strings.Builder
	console := false
	for i := 0; i < len(lines); i++ {
		line := lines[i]
		b.WriteString(line)
		if strings.HasPrefix(line, "```") {
			console = !console && strings.TrimSpace(line) == "```console"
		}
		if !console || !strings.HasPrefix(line, "$ ") {
			continue
		}
		end := i + 1
		for !strings.HasPrefix(lines[end], "$ ") && !strings.HasPrefix(lines[end], "```") {
			end++
		}
		shown := lines[i+1 : end]
		if out, ok := output(t, strings.TrimSpace(line[2:])); ok {
			shown = elided(strings.SplitAfter(out, "\n"), shown)
		}
		b.WriteString(strings.Join(shown, ""))
		i = end - 1
	}
	return b.String()
}

// elision stands on a page for lines of output that it leaves out.
const elision = "[…]\n"

// elided leaves out of the output what the page leaves out: as many lines stand
// before and after the elision as there.
func elided(out, shown []string) []string {
	out = slices.DeleteFunc(out, func(line string) bool { return line == "" })
	before := slices.Index(shown, elision)
	if before < 0 {
		return out
	}
	after := len(shown) - before - 1
	if before+after >= len(out) {
		return out
	}
	return slices.Concat(out[:before], []string{elision}, out[len(out)-after:])
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
