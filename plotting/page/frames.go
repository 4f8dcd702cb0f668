package page

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// WriteFrames writes each image to a file of its own, all or none, and returns their names: turn.png gives turn-01.png,
// turn-02.png and so on, with as many digits as the last one needs.
func WriteFrames(path string, images [][]byte) (names []string, err error) {
	temp, err := os.MkdirTemp(filepath.Dir(path), ".halfturn-")
	if err != nil {
		return nil, writeError(path, err)
	}
	defer os.RemoveAll(temp)
	for i, data := range images {
		names = append(names, frameName(path, i+1, len(images)))
		if err := os.WriteFile(filepath.Join(temp, filepath.Base(names[i])), data, 0o666); err != nil {
			return nil, writeError(names[i], err)
		}
	}
	for _, name := range names { // after the first has its place there is no way back
		if info, err := os.Stat(name); err == nil && !info.Mode().IsRegular() {
			return nil, fmt.Errorf("write %s: is there and no regular file: want another name", name)
		}
	}
	for i, name := range names {
		if err := os.Rename(filepath.Join(temp, filepath.Base(name)), name); err != nil {
			for _, done := range names[:i] {
				err = errors.Join(err, os.Remove(done))
			}
			return nil, writeError(name, err)
		}
	}
	return names, nil
}

// frameName returns the name of one of n numbered files.
func frameName(path string, i, n int) string {
	ending := filepath.Ext(path)
	return fmt.Sprintf("%s-%0*d%s", strings.TrimSuffix(path, ending), len(strconv.Itoa(n)), i, ending)
}
