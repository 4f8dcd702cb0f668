// Halfturn simulates chains of Cardan joints in space and shows what speed
// fluctuation is left at the last shaft. Run halfturn --help.
package main

import (
	"context"
	"os"
	"os/signal"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	code := run(&console{ctx: ctx, in: os.Stdin, out: os.Stdout, err: os.Stderr}, os.Args[1:])
	stop()
	os.Exit(code)
}
