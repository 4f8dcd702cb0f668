package page

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func TestWriteFrames(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	images := make([][]byte, 12)
	for i := range images {
		images[i] = []byte{byte(i)}
	}
	got, err := WriteFrames(t.Context(), filepath.Join(dir, "turn.PNG"), images)
	if err != nil {
		t.Fatal(err)
	}
	if want := "turn-01.PNG"; len(got) != 12 || filepath.Base(got[0]) != want {
		t.Errorf("got names %q, want 12 from %s on", got, want)
	}
	for i, name := range got {
		if data, err := os.ReadFile(name); err != nil || !slices.Equal(data, images[i]) {
			t.Errorf("%s: got %v and error %v, want %v", name, data, err, images[i])
		}
	}
	if found := names(t, dir); len(found) != 12 {
		t.Errorf("the folder holds %q, want the 12 images alone", found)
	}
	if _, err := WriteFrames(t.Context(), filepath.Join(dir, "turn.PNG"), images); err != nil {
		t.Errorf("over the ones before: %v", err)
	}
}

func TestWriteFramesLeavesNothingBehind(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "turn-3.png"), 0o777); err != nil {
		t.Fatal(err)
	}
	old := filepath.Join(dir, "turn-1.png")
	if err := os.WriteFile(old, []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	_, err := WriteFrames(t.Context(), filepath.Join(dir, "turn.png"), make([][]byte, 4))
	if data, _ := os.ReadFile(old); string(data) != "old" {
		t.Errorf("a folder in the way: the image before it now holds %q, want what it held", data)
	}
	if err == nil || !strings.Contains(err.Error(), "turn-3.png") {
		t.Errorf("a folder in the way: got error %v", err)
	}
	if found := names(t, dir); !slices.Equal(found, []string{"turn-1.png", "turn-3.png"}) {
		t.Errorf("a folder in the way: the folder holds %q afterwards", found)
	}
	_, err = WriteFrames(t.Context(), filepath.Join(dir, "none", "turn.png"), make([][]byte, 4))
	if want := "none/turn.png: no such file"; err == nil || !strings.Contains(filepath.ToSlash(err.Error()), want) {
		t.Errorf("no such folder: got error %v, want %q", err, want)
	}
}

// Where an image cannot be put in its place, what stood there stands there again.
func TestReplaceRestores(t *testing.T) {
	t.Parallel()
	dir, temp := t.TempDir(), t.TempDir()
	old, none := filepath.Join(dir, "turn-1.png"), filepath.Join(dir, "turn-2.png")
	if err := os.WriteFile(old, []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{old, none} {
		if err := replace(name, temp); err == nil {
			t.Errorf("%s: no error, want that of the missing image", name)
		}
	}
	if data, err := os.ReadFile(old); err != nil || string(data) != "old" {
		t.Errorf("got %q, %v, want what stood there", data, err)
	}
	if found := names(t, dir); len(found) != 1 {
		t.Errorf("the folder holds %q, want the old image alone", found)
	}
}
