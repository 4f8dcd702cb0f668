package main

import (
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// drawSet draws the pages of a set, each into a file of its own, in PDF
// into one.
func (p *plotRequest) drawSet(c *console, f figure, from *source, operands []string) error {
	switch err := p.check(); {
	case err != nil:
		return err
	case len(operands) > 0:
		return usagef("--figure %s needs no driveline: leave out FILE", f.name)
	case p.output == "-" && p.still != page.PDF:
		return usagef("--figure %s makes several images: want the name of a file, or a .pdf", f.name)
	}
	angles, err := p.anglesOfSet(c, from)
	if err != nil {
		return err
	}
	pages, err := f.set(p.page, angles)
	if err != nil {
		return err
	}
	for _, one := range pages {
		p.fit(one.Figure, true)
	}
	if p.still == page.PDF {
		return p.drawDeck(c, f, pages)
	}
	return p.drawPages(c, pages)
}

// anglesOfSet returns the working angles of the first two joints of a driveline by flags, in
// radians; nil where none is given.
func (p *plotRequest) anglesOfSet(c *console, from *source) ([]float64, error) {
	if !from.given(nil) {
		return nil, nil
	}
	sv, err := from.survey(c, nil)
	if err != nil {
		return nil, err
	}
	d, err := sv.Driveline()
	if err != nil {
		return nil, err
	}
	angles := []float64{d.WorkingAngle(0)}
	if len(sv.Shafts) > 2 {
		angles = append(angles, d.WorkingAngle(1))
	}
	return angles, nil
}

// drawDeck draws the pages of a set into one document.
func (p *plotRequest) drawDeck(c *console, f figure, pages []plotting.Page) error {
	var drawn []*page.Figure
	for _, one := range pages {
		drawn = append(drawn, one.Figure)
	}
	deck, err := await(c.ctx, func() ([]byte, error) { return f.deck(f.title, drawn...) })
	if err != nil {
		return err
	}
	return c.write(p.output, deck)
}

// mostPixels that all images of a set may have: half a minute's work.
const mostPixels = 600e6

// drawPages draws every page of a set before it writes the first.
func (p *plotRequest) drawPages(c *console, pages []plotting.Page) error {
	pixels := 0.0
	for _, one := range pages {
		n, err := one.Figure.Pixels(p.options)
		if err != nil {
			return err
		}
		pixels += n
	}
	if p.still == page.PNG && pixels > mostPixels {
		return usagef("--dpi: %d images of %.0f million pixels in all: want at most %.0f million: a lower resolution, a smaller page or a .pdf",
			len(pages), pixels/1e6, mostPixels/1e6)
	}
	images := make([][]byte, len(pages))
	tell, wipe := c.progress()
	defer wipe()
	for i, one := range pages {
		var err error
		if images[i], err = p.encode(c.ctx, one.Figure); err != nil {
			return err
		}
		tell(int64(i+1), int64(len(pages)), "page")
	}
	wipe()
	for i, one := range pages {
		if err := c.write(p.numbered(i, one.Name), images[i]); err != nil {
			return err
		}
	}
	return nil
}
