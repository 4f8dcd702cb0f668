package live

import (
	"bytes"
	"context"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"runtime"
	"slices"
	"strings"
	"time"

	"halfturn/cmd/halfturn/findings"
	"halfturn/plotting/page"
)

// Config is what a page is served with.
type Config struct {
	Guard Guard
	// File is the driveline that the page begins with, as JSON; nil: none.
	File []byte
	// Figures are those that the page can show, and Draw draws one of them.
	Figures []Figure
	Draw    func(name string, of []*findings.Findings) (*page.Figure, error)
	Version string // of the program
}

// New returns the handler of the page.
func New(c Config) (http.Handler, error) {
	page, err := renderPage(c)
	if err != nil {
		return nil, err
	}
	script, err := joinScripts()
	if err != nil {
		return nil, err
	}
	s := &server{config: c}
	answers, searches := make(seats, runtime.GOMAXPROCS(0)), make(seats, 1)
	mux := http.NewServeMux()
	mux.Handle("GET /{$}", static("text/html; charset=utf-8", page))
	mux.Handle("GET /live.css", static("text/css; charset=utf-8", style))
	mux.Handle("GET /live.js", static("text/javascript; charset=utf-8", script))
	mux.Handle("GET /icon.svg", static("image/svg+xml", icon))
	mux.Handle("POST /answer", answers.work(s.answer))
	mux.Handle("POST /turning", answers.work(s.turning))
	mux.Handle("POST /figure", answers.work(s.figure))
	mux.Handle("POST /plans", searches.work(s.plans))
	mux.Handle("POST /report", searches.work(s.report))
	return c.Guard.wrap(mux), nil
}

// server answers what needs computing.
type server struct{ config Config }

// seats are as many as may compute at a time. Searches have their own, so that no
// answer waits for one.
type seats chan struct{}

// work returns a handler that reads a request whole, which lets the server see its
// client leave, and computes when a seat is free.
func (s seats) work(compute func(context.Context, http.ResponseWriter, *request) error) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		req, err := readRequest(w, r)
		if err != nil {
			status := http.StatusBadRequest
			if _, ok := errors.AsType[*http.MaxBytesError](err); ok {
				status = http.StatusRequestEntityTooLarge
			}
			http.Error(w, err.Error(), status)
			return
		}
		ctx, cancel := context.WithTimeout(r.Context(), workLimit)
		defer cancel()
		select {
		case s <- struct{}{}:
			defer func() { <-s }()
		case <-ctx.Done():
			http.Error(w, "too many ask at once", http.StatusServiceUnavailable)
			return
		}
		if err := guarded(ctx, w, req, compute); err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
		}
	})
}

// guarded computes; a broken invariant of the program is an error of this one answer.
func guarded(ctx context.Context, w http.ResponseWriter, req *request, compute func(context.Context, http.ResponseWriter, *request) error) (err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("a fault of the program: %v", fault)
		}
	}()
	return compute(ctx, w, req)
}

// writeJSON writes a response of JSON, whole or not at all.
func writeJSON(w http.ResponseWriter, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false) // half of an SVG would be escapes
	if err := e.Encode(v); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/json")
	w.Write(b.Bytes()) // fails only where the client is gone
	return nil
}

// static serves bytes that were made once.
func static(kind string, data []byte) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", kind)
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
	})
}

var (
	//go:embed page.html.tmpl parts.html.tmpl
	templateFiles embed.FS
	//go:embed js
	scriptFiles embed.FS
	//go:embed live.css
	style []byte
	//go:embed icon.svg
	icon []byte
)

var templates = template.Must(template.New("").Funcs(template.FuncMap{
	"worked":  worked,
	"command": command,
	"add":     func(a, b int) int { return a + b },
	"id":      func(path string) string { return "in-" + strings.NewReplacer(".", "-", " ", "-").Replace(path) },
}).ParseFS(templateFiles, "*.tmpl"))

// joinScripts returns the script of the page: the files of js one after the other,
// in the order of their names, in a scope of their own.
func joinScripts() ([]byte, error) {
	names, err := fs.Glob(scriptFiles, "js/*.js")
	if err != nil {
		return nil, err
	}
	script := []byte("'use strict';\n{\n")
	for _, name := range slices.Sorted(slices.Values(names)) {
		text, err := scriptFiles.ReadFile(name)
		if err != nil {
			return nil, err
		}
		script = append(script, text...)
	}
	return append(script, "}\n"...), nil
}
