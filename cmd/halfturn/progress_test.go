package main

import (
	"context"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

// Work that takes a moment is not worth a word; of longer work one line is written over
// itself, and gone when it is done or interrupted.
func TestProgress(t *testing.T) {
	t.Parallel()
	synctest.Test(t, func(t *testing.T) {
		ctx, interrupt := context.WithCancel(t.Context())
		var shown strings.Builder
		tell, wipe := progressOn(ctx, &shown)
		expect := func(when, want string) {
			t.Helper()
			if shown.String() != want {
				t.Errorf("%s: shown %q, want %q", when, shown.String(), want)
			}
			shown.Reset()
		}
		tell(1, 10, "point")
		wipe()
		expect("at once", "")
		time.Sleep(2 * time.Second)
		tell(5, 10, "point")
		tell(6, 10, "point")
		expect("after two seconds", "\r\r 50 % of 10 points")
		time.Sleep(time.Second)
		tell(1, 1, "pose")
		expect("when something else is counted", "\r                  \r100 % of 1 pose")
		wipe()
		wipe()
		expect("when it is done", "\r               \r")
		interrupt()
		time.Sleep(time.Second)
		tell(2, 2, "pose")
		expect("when it is interrupted", "")
	})
}
