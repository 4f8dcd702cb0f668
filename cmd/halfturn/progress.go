package main

import (
	"fmt"
	"os"
	"time"

	"halfturn/cmd/halfturn/text"
)

// progress returns what tells somebody at a terminal how far a search is, once it
// takes longer than a second, and what wipes that away when it is done; nil and
// nothing to do where nobody looks.
func progress(c *console) (tell func(tried, most int64), done func()) {
	if f, ok := c.err.(*os.File); !ok || !terminal(f) {
		return nil, func() {}
	}
	told, next := "", time.Now().Add(time.Second)
	tell = func(tried, most int64) {
		if now := time.Now(); now.After(next) {
			next = now.Add(time.Second / 4)
			told = fmt.Sprintf("%3.0f %% of %s", 100*float64(tried)/float64(most), text.Count(most, "combination"))
			fmt.Fprint(c.err, "\r"+told)
		}
	}
	done = func() { fmt.Fprintf(c.err, "\r%*s\r", len(told), "") }
	return tell, done
}

func terminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
