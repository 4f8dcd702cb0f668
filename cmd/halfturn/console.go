package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"unicode"

	"halfturn/plotting/page"
)

// console is where a command reads and writes. Results go to out, remarks to err.
type console struct {
	ctx context.Context // ends when the user interrupts the program
	in  io.Reader
	out io.Writer
	err io.Writer

	// patience is what a check may spend on looking for a correction, as the Budget of
	// adjust.Options.
	patience int64
}

// usualPatience is that of somebody who waits for a check: about two seconds of one
// processor.
const usualPatience = 2_000_000

// remark tells the user something beside the result.
func (c *console) remark(format string, args ...any) {
	fmt.Fprintf(c.err, "halfturn: %s\n", printable(fmt.Sprintf(format, args...)))
}

// write writes a file, whole or not at all, and tells the user. "-" is standard
// output.
func (c *console) write(path string, data []byte) error {
	if path == "-" {
		_, err := c.out.Write(data)
		return err
	}
	if err := c.ctx.Err(); err != nil {
		return err
	}
	err := page.WriteFile(path, data)
	if err == nil {
		c.remark("wrote %s", quoted(path))
	}
	return err
}

// writeDriveline writes a driveline file. What somebody may have measured is not
// written over unless that is forced.
func (c *console) writeDriveline(path string, data []byte, force bool) error {
	if _, err := os.Lstat(path); path != "-" && !force && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s is there already: want another name, or --force to write over it", quoted(path))
	}
	return c.write(path, data)
}

// writeJSON prints a document for programs.
func (c *console) writeJSON(doc any) error {
	enc := json.NewEncoder(c.out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(doc)
}

// await returns the result of work that knows nothing of interruptions, or the error
// of the context when that ends before. The work must not write: it goes on until the
// program ends.
func await[T any](ctx context.Context, work func() (T, error)) (T, error) {
	type result struct {
		value T
		err   error
	}
	done := make(chan result, 1)
	go func() {
		value, err := work()
		done <- result{value, err}
	}()
	select {
	case r := <-done:
		return r.value, r.err
	case <-ctx.Done():
		return *new(T), ctx.Err()
	}
}

func terminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// printable returns a text without what would do more to a terminal than stand
// there: control characters but for the line feed, and those that turn the
// direction of what follows.
func printable(s string) string {
	var b strings.Builder
	for _, r := range s {
		if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)) {
			fmt.Fprintf(&b, "\\u%04x", r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// quoted returns the name of a file as a shell takes it for one word.
func quoted(path string) string {
	plain := func(r rune) bool {
		return unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("@%+=:,./_-", r)
	}
	if path != "" && !strings.ContainsFunc(path, func(r rune) bool { return !plain(r) }) {
		return path
	}
	return strings.ReplaceAll(printable("'"+strings.ReplaceAll(path, "'", `'\''`)+"'"), "\n", `\u000a`)
}
