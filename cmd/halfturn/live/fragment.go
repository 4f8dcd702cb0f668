package live

import (
	"bytes"
	"html/template"
	"strings"

	"halfturn/plotting/page"
)

// fragment returns a figure as SVG to stand within a page: without what a file has
// in front, without styles within it, with ids that no other fragment has, and with
// a label for readers that speak.
func fragment(f *page.Figure, prefix, label string) (string, error) {
	image, err := page.Encode(f, page.SVG, page.Options{})
	if err != nil {
		return "", err
	}
	svg := string(image[bytes.Index(image, []byte("<svg ")):])
	svg = strings.Replace(svg, `aria-label=""`, `aria-label="`+template.HTMLEscapeString(label)+`"`, 1)
	svg = strings.NewReplacer(` id="`, ` id="`+prefix+`-`, `="#`, `="#`+prefix+`-`, `url(#`, `url(#`+prefix+`-`).Replace(svg)
	return plainStyles(svg), nil
}

// plainStyles turns style attributes into presentation attributes, which a page may
// hold that allows no styles within it.
func plainStyles(svg string) string {
	var b strings.Builder
	b.Grow(len(svg) + len(svg)/8)
	for {
		before, rest, found := strings.Cut(svg, `style="`)
		b.WriteString(before)
		if !found {
			return b.String()
		}
		style, rest, _ := strings.Cut(rest, `"`)
		for _, property := range strings.Split(style, ";") {
			if name, value, ok := strings.Cut(property, ":"); ok {
				b.WriteString(strings.TrimSpace(name) + `="` + strings.TrimSpace(value) + `" `)
			}
		}
		svg = rest
	}
}

// refusal stands where a figure would, for one that cannot be drawn.
func refusal(err error) string {
	return `<p class="refused">` + template.HTMLEscapeString(err.Error()) + `</p>`
}

// untitled takes the title off a figure, which the page has as its own text, and
// returns it.
func untitled(f *page.Figure) string {
	title := f.Title
	f.Title, f.Subtitle = "", ""
	return title
}
