// Halfturn simulates chains of Cardan joints in space and shows what speed
// fluctuation is left at the last shaft. Run halfturn --help.
package main

import (
	"context"
	"os"
)

func main() {
	c := &console{ctx: context.Background(), in: os.Stdin, out: os.Stdout, err: os.Stderr}
	os.Exit(run(c, os.Args[1:]))
}
