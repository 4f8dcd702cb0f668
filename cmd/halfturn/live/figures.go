package live

import (
	"context"
	"fmt"
	"time"

	"gonum.org/v1/plot/vg"

	"halfturn/cmd/halfturn/findings"
	"halfturn/plotting/page"
)

// Figure is one that the page can show.
type Figure struct {
	Name, Shows string // as of plot --figure
	Of          int    // how many drivelines it is of
}

// movingBudget is for how long figures are drawn while a slider moves; those that
// are not drawn by then may lag until it rests.
const movingBudget = 25 * time.Millisecond

// draw draws the figures that are wanted. shown is the driveline, behind the one
// that it is compared with if there is one; start is how it was, nil for nothing to be
// reminded of.
func (s *server) draw(ctx context.Context, a *answer, req *request, shown []*findings.Findings, start *findings.Findings) error {
	began := time.Now()
	for _, name := range req.Figures {
		if req.Moving && time.Since(began) > movingBudget {
			return nil
		}
		f, err := s.config.figureNamed(name)
		if err != nil || f.Of > len(shown) {
			continue
		}
		if err := s.drawOne(a, req, f, shown[len(shown)-f.Of:], start); err != nil {
			a.Figures[name] = refusal(err) // such as names too long for a narrow figure
		}
		if err := ctx.Err(); err != nil {
			return err
		}
	}
	return nil
}

func (s *server) drawOne(a *answer, req *request, f Figure, shown []*findings.Findings, start *findings.Findings) error {
	figure, err := s.config.Draw(f.Name, shown)
	if err != nil {
		return err
	}
	if start != nil {
		ghost, err := s.config.Draw(f.Name, []*findings.Findings{start})
		if err != nil {
			return err
		}
		haunt(figure, ghost)
	}
	title := untitled(figure)
	restack(figure, req)
	hold(figure, req.Axes[f.Name])
	places, err := figure.Places()
	if err != nil && figure.Held != nil { // by places of another page
		figure.Held = nil
		places, err = figure.Places()
	}
	if err != nil {
		return err
	}
	a.Axes[f.Name] = places
	a.Tracks[f.Name] = tracks(figure, places)
	a.Figures[f.Name], err = fragment(figure, f.Name, title)
	return err
}

func (c Config) figureNamed(name string) (Figure, error) {
	for _, f := range c.Figures {
		if f.Name == name {
			return f, nil
		}
	}
	return Figure{}, fmt.Errorf("the page knows no figure %q", name)
}

// A CSS pixel is 1/96 inch, a point 1/72.
const pixel vg.Length = 72.0 / 96

// restack gives a figure the size that suits the page, in letters that keep their
// size: panels that stand side by side stand below each other where that is narrow.
func restack(f *page.Figure, req *request) {
	const (
		narrow = 44 // em for two panels side by side
		row    = 15 // em of height for a row of panels, labels included
		least  = 6  // em of height for the data of a panel
	)
	width := req.Width / req.Text
	if width < narrow {
		var rows []page.Row
		for _, r := range f.Rows {
			for _, p := range r.Panels {
				rows = append(rows, page.Row{Panels: []*page.Panel{p}, Height: r.Height})
			}
		}
		f.Rows = rows
		if f.Legend == page.LegendRight {
			f.Legend = page.LegendBottom
		}
	}
	height := 4.0 // em
	for _, r := range f.Rows {
		square := r.Panels[0].Equal && !r.Panels[0].Bare
		switch {
		case square && width < narrow:
			height += width + 8
		case square:
			height += 34
		default:
			height += row
		}
	}
	height *= req.Text
	if req.Height > 0 { // a screenful, which says itself what there is to see
		height, f.Caption = max(min(height, req.Height), 20*req.Text), ""
	}
	f.Size = page.Size{
		Width: vg.Length(req.Width) * pixel, Height: vg.Length(height) * pixel,
		Text: vg.Length(req.Text) * pixel, Border: 2,
	}
	f.Grow(least * f.Size.Text) // what stands beside the data may take more lines than usual
}

// hold keeps the panels of a figure where they were, with the ranges that they had
// at least, if it has as many.
func hold(f *page.Figure, places []page.Place) {
	panels := 0
	for _, r := range f.Rows {
		panels += len(r.Panels)
	}
	if panels == len(places) {
		f.Held = places
	}
}
