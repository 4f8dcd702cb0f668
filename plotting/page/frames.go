package page

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// WriteFrames writes each image to a file of its own, all or none, and returns their
// names: turn.png gives turn-01.png, turn-02.png and so on, with as many digits as the
// last one needs. A failure, or the end of ctx, leaves what stood under these names.
func WriteFrames(ctx context.Context, path string, images [][]byte) (names []string, err error) {
	temp, err := os.MkdirTemp(filepath.Dir(path), ".halfturn-")
	if err != nil {
		return nil, writeError(path, err)
	}
	defer os.RemoveAll(temp)
	for i, data := range images {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		name := frameName(path, i+1, len(images))
		if _, mode, err := target(name); err != nil {
			return nil, err
		} else if !mode.IsRegular() {
			return nil, fmt.Errorf("write %s: is there and no regular file: want another name", name)
		}
		names = append(names, name)
		if err := beside(filepath.Join(temp, filepath.Base(name)), data, 0); err != nil {
			return nil, writeError(name, errors.Unwrap(err))
		}
	}
	for i, name := range names {
		if err := replace(name, temp); err != nil {
			for _, done := range names[:i] {
				restore(done, temp)
			}
			return nil, writeError(name, err)
		}
	}
	return names, nil
}

// replace puts the image of that name in temp in its place, and what stood there into
// temp.
func replace(name, temp string) error {
	err := os.Rename(name, kept(name, temp))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err = os.Rename(filepath.Join(temp, filepath.Base(name)), name); err != nil {
		restore(name, temp)
	}
	return err
}

// restore undoes replace.
func restore(name, temp string) {
	if os.Rename(kept(name, temp), name) != nil { // nothing stood there
		os.Remove(name)
	}
}

// kept is where replace keeps what stood in the place of a file.
func kept(name, temp string) string { return filepath.Join(temp, "old-"+filepath.Base(name)) }

// frameName returns the name of one of n numbered files.
func frameName(path string, i, n int) string {
	ending := filepath.Ext(path)
	return fmt.Sprintf("%s-%0*d%s", strings.TrimSuffix(path, ending), len(strconv.Itoa(n)), i, ending)
}
