// Halfturn simulates chains of Cardan joints in space and shows what speed
// fluctuation is left at the last shaft. Run halfturn --help.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
)

// plenty of memory, in bytes: from there on what is no longer used is given back at once,
// as after each of many large images.
const plenty = 300 << 20

func main() {
	debug.SetMemoryLimit(plenty)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second one ends the program at once
	c := &console{ctx: ctx, in: os.Stdin, out: os.Stdout, err: os.Stderr, patience: usualPatience}
	os.Exit(run(c, os.Args[1:]))
}
