package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"halfturn/cmd/halfturn/text"
)

// progress returns what tells somebody at a terminal how far some work is, once it
// takes longer than a second, and what wipes that away when it is done. Both do nothing
// where nobody looks.
func (c *console) progress() (tell func(done, all int64, thing string), wipe func()) {
	if f, ok := c.err.(*os.File); !ok || !terminal(f) {
		return func(int64, int64, string) {}, func() {}
	}
	return progressOn(c.ctx, c.err)
}

// progressOn is progress on any terminal, until ctx ends: work that is interrupted may go
// on for a moment.
func progressOn(ctx context.Context, w io.Writer) (tell func(done, all int64, thing string), wipe func()) {
	var showing sync.Mutex
	told, next := "", time.Now().Add(time.Second)
	show := func(line string) {
		fmt.Fprintf(w, "\r%*s\r%s", len(told), "", line)
		told = line
	}
	tell = func(done, all int64, thing string) {
		showing.Lock()
		defer showing.Unlock()
		if now := time.Now(); now.After(next) && ctx.Err() == nil {
			next = now.Add(time.Second / 4)
			show(fmt.Sprintf("%3.0f %% of %s", 100*float64(done)/float64(all), text.Count(all, thing)))
		}
	}
	wipe = func() {
		showing.Lock()
		defer showing.Unlock()
		if told != "" {
			show("")
		}
	}
	return tell, wipe
}
