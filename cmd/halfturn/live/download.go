package live

import (
	"context"
	"errors"
	"mime"
	"net/http"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/report"
	"halfturn/plotting/page"
)

// figure answers with one figure as a file to keep, as plot makes it.
func (s *server) figure(ctx context.Context, w http.ResponseWriter, req *request) error {
	found, err := s.whole(ctx, w, req, findings.Options{})
	if found == nil {
		return err
	}
	if len(req.Figures) != 1 {
		return errors.New("figures: want one")
	}
	name := req.Figures[0]
	if f, err := s.config.figureNamed(name); err != nil || f.Of != 1 {
		http.Error(w, "no such figure", http.StatusBadRequest)
		return nil
	}
	format, err := page.FormatOf(name + "." + req.Format)
	if err != nil {
		http.Error(w, err.Error(), http.StatusBadRequest)
		return nil
	}
	figure, err := s.config.Draw(name, []*findings.Findings{found})
	if err != nil {
		return err
	}
	image, err := page.Encode(figure, format, page.Options{})
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", mime.TypeByExtension("."+string(format)))
	w.Write(image)
	return nil
}

// report answers with the page that halfturn report writes. It has its style within
// itself.
func (s *server) report(ctx context.Context, w http.ResponseWriter, req *request) error {
	found, err := s.whole(ctx, w, req, findings.Options{Correct: true})
	if found == nil {
		return err
	}
	page, err := report.New(found, s.config.Version)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'")
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Write(page)
	return nil
}

// whole is find for a driveline that the page has seen answered; one that is refused
// all the same has been answered when whole returns nil.
func (s *server) whole(ctx context.Context, w http.ResponseWriter, req *request, opts findings.Options) (*findings.Findings, error) {
	found, err := new(answer).find(ctx, req, opts)
	if err == nil && found == nil {
		http.Error(w, "the driveline is refused", http.StatusUnprocessableEntity)
	}
	return found, err
}
