package page

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// names returns the names in a folder.
func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestWriteFile(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, strings.Repeat("n", 250)+".svg") // no longer name is allowed
	for _, content := range []string{"first, longer", "second", ""} {
		if err := WriteFile(path, []byte(content)); err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(path); err != nil || string(got) != content {
			t.Errorf("got %q, %v, want %q", got, err, content)
		}
	}
	if got := names(t, dir); len(got) != 1 {
		t.Errorf("folder holds %q, want the file alone", got)
	}
}

// A file that its owner protects stays, and so does a link whose file is elsewhere or
// yet to come.
func TestWriteFileRespects(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		t.Skip("modes and links of Unix")
	}
	dir := t.TempDir()
	readOnly, nowhere := filepath.Join(dir, "read-only"), filepath.Join(dir, "link")
	if err := os.WriteFile(readOnly, []byte("old"), 0o444); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("none", nowhere); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{readOnly: "is read-only", nowhere: "is a link to nothing"} {
		if err := WriteFile(path, []byte("new")); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got error %v, want %q", path, err, want)
		}
	}
	if data, err := os.ReadFile(readOnly); err != nil || string(data) != "old" {
		t.Errorf("the read-only file holds %q, %v, want what it held", data, err)
	}
	if got := names(t, dir); len(got) != 2 {
		t.Errorf("the folder holds %q, want the file and the link", got)
	}
}

func TestWriteFileKeepsWhatTheTargetIs(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		t.Skip("modes and links of Unix")
	}
	dir := t.TempDir()
	target, link := filepath.Join(dir, "target"), filepath.Join(dir, "link")
	if err := os.WriteFile(target, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("target", link); err != nil {
		t.Fatal(err)
	}
	if err := WriteFile(link, []byte("new")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link became %v, %v", info, err)
	}
	if got, _ := os.ReadFile(target); string(got) != "new" {
		t.Errorf("target holds %q, want %q", got, "new")
	}
	if info, err := os.Stat(target); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode of the target: got %v, want 0600", info.Mode())
	}

	before, err := os.Stat(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	if err := WriteFile(os.DevNull, []byte("x")); err != nil {
		t.Error(err)
	}
	if after, err := os.Stat(os.DevNull); err != nil || !os.SameFile(before, after) {
		t.Errorf("the null device was replaced: %v, %v", after, err)
	}
}

func TestWriteFileSaysWhatIsWrong(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct{ name, path, want string }{
		{"no name", "", "want the name of a file"},
		{"a folder", dir, "want the name of a file"},
		{"no such folder", filepath.Join(dir, "none", "x.svg"), "no such file or directory"},
		{"below a file", filepath.Join(file, "x.svg"), "not a directory"},
		{"name too long", filepath.Join(dir, strings.Repeat("n", 300)), "file name too long"},
		{"a full disk", "/dev/full", "no space left on device"},
	} {
		t.Run(test.name, func(t *testing.T) {
			if test.path == "/dev/full" && runtime.GOOS != "linux" {
				t.Skip("a device of Linux")
			}
			err := WriteFile(test.path, []byte("data"))
			if err == nil || !strings.Contains(err.Error(), test.want) || !strings.Contains(err.Error(), test.path) {
				t.Errorf("got %v, want an error with the path and %q", err, test.want)
			}
			if err != nil && strings.Contains(err.Error(), ".halfturn-") {
				t.Errorf("got %v, want no word of the temporary file", err)
			}
		})
	}
	if got := names(t, dir); len(got) != 1 {
		t.Errorf("folder holds %q, want the old file alone", got)
	}
}

// TestWriteFileThatEndsMidway runs itself in a shell that allows files of at most one
// block, so that the write fails after its first part as on a full disk.
func TestWriteFileThatEndsMidway(t *testing.T) {
	const variable = "HALFTURN_TEST_WRITE"
	if path := os.Getenv(variable); path != "" {
		err := WriteFile(path, bytes.Repeat([]byte("new "), 1<<20))
		if err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("got %v, want an error with the path", err)
		}
		return
	}
	sh, err := exec.LookPath("sh")
	if err != nil || runtime.GOOS == "windows" {
		t.Skip("no Unix shell")
	}
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "figure.svg")
	if err := os.WriteFile(path, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(sh, "-c", `trap "" XFSZ; ulimit -f 1; exec "$0" -test.run='^TestWriteFileThatEndsMidway$'`, os.Args[0])
	cmd.Env = append(os.Environ(), variable+"="+path)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("%v:\n%s", err, out)
	}
	if got, _ := os.ReadFile(path); string(got) != "old" {
		t.Errorf("the old file holds %d bytes, want it as it was", len(got))
	}
	if got := names(t, dir); len(got) != 1 {
		t.Errorf("folder holds %q, want the old file alone", got)
	}
}
