package page

import "errors"

// Deck returns figures as one PDF document, a page for each. The same figures give the
// same bytes.
func Deck(title string, figures ...*Figure) ([]byte, error) {
	return newDocument().deck(title, figures)
}

// Book is a Deck that opens with two pages side by side, the first alone on the right.
func Book(title string, figures ...*Figure) ([]byte, error) {
	d := newDocument()
	d.facing = true
	return d.deck(title, figures)
}

func (d *document) deck(title string, figures []*Figure) ([]byte, error) {
	if len(figures) == 0 {
		return nil, errors.New("deck: no figures: want at least one")
	}
	for _, f := range figures {
		_, err := f.encode(func(l *layout) ([]byte, error) {
			d.page(l.size.Width, l.size.Height, l.draw)
			return nil, nil
		})
		if err != nil {
			return nil, err
		}
	}
	return d.file(title), nil
}
