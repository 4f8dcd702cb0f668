package main

import (
	"runtime/debug"
	"strings"
	"testing"
)

// Every module that is built in has its licence printed.
func TestNotices(t *testing.T) {
	t.Parallel()
	code, printed, _ := invoke("", "--notices")
	info, ok := debug.ReadBuildInfo()
	if code != exitDone || !ok || len(info.Deps) == 0 {
		t.Fatalf("exit %d, build information %v: %v", code, ok, info)
	}
	for _, module := range info.Deps {
		heading := "\n" + module.Path + "\n" + strings.Repeat("=", len(module.Path)) + "\n\n"
		if _, licence, found := strings.Cut(printed, heading); !found || !strings.Contains(licence, "opyright") {
			t.Errorf("no licence of %s: run cmd/halfturn/notices/collect", module.Path)
		}
	}
}
