package page

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
)

// WriteFile writes data to a file, whole or not at all: it writes a new file beside the
// target and renames it, so that a failure leaves an old file as it was and no new one
// behind. A link is followed to its file. A target that is no regular file, such as a
// pipe or /dev/null, is written in place. A file that is read-only and a link to nothing
// are refused.
func WriteFile(path string, data []byte) error {
	if path == "" {
		return errors.New("write file: empty name: want the name of a file")
	}
	file, mode, err := target(path)
	switch {
	case err != nil:
		return err
	case mode.IsRegular():
		return beside(file, data, mode.Perm())
	default:
		return inPlace(file, data)
	}
}

// target returns the file that a name stands for, and its mode; that of a regular file
// without permissions where there is none yet.
func target(path string) (file string, mode fs.FileMode, err error) {
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return path, 0, nil
	}
	file, err = filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "", 0, fmt.Errorf("write %s: is a link to nothing: want the name of a file", path)
	}
	if err != nil {
		return "", 0, writeError(path, err)
	}
	info, err := os.Stat(file)
	switch {
	case err != nil:
		return "", 0, writeError(path, err)
	case info.IsDir():
		return "", 0, fmt.Errorf("write %s: is a folder: want the name of a file", path)
	case info.Mode().IsRegular() && info.Mode().Perm()&0o222 == 0:
		return "", 0, fmt.Errorf("write %s: is read-only: want another name", path)
	}
	return file, info.Mode(), nil
}

// beside writes a temporary file in the folder of path and renames it to path. A mode of
// 0 means that of new files.
func beside(path string, data []byte, mode fs.FileMode) (err error) {
	temp := filepath.Join(filepath.Dir(path), fmt.Sprintf(".halfturn-%016x", rand.Uint64()))
	f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return writeError(path, err)
	}
	defer func() {
		if err != nil {
			os.Remove(temp)
		}
	}()
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync() // else a loss of power may leave the new name with nothing in it
	}
	err = errors.Join(err, f.Close())
	if err == nil && mode != 0 {
		err = os.Chmod(temp, mode)
	}
	if err == nil {
		err = os.Rename(temp, path)
	}
	if err != nil {
		return writeError(path, err)
	}
	return nil
}

func inPlace(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return writeError(path, err)
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Close()); err != nil {
		return writeError(path, err)
	}
	return nil
}

// writeError names the file that was asked for, not the temporary one, and keeps the
// cause.
func writeError(path string, err error) error {
	if cause, ok := errors.AsType[*fs.PathError](err); ok {
		err = cause.Err
	} else if cause, ok := errors.AsType[*os.LinkError](err); ok {
		err = cause.Err
	}
	return fmt.Errorf("write %s: %w", path, err)
}
