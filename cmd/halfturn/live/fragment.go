package live

import (
	"html/template"
	"strings"

	"halfturn/plotting/page"
)

// fragment returns a figure as SVG to stand within the page, with ids that begin with
// the prefix. The page has the title as its own text; readers that speak are told it.
func fragment(f *page.Figure, prefix, title string) (string, error) {
	svg, err := page.Encode(f, page.SVG, page.Options{Fragment: prefix + "-"})
	if err != nil {
		return "", err
	}
	return strings.Replace(string(svg), `aria-label=""`, `aria-label="`+template.HTMLEscapeString(title)+`"`, 1), nil
}

// untitled takes the title off a figure and returns it.
func untitled(f *page.Figure) string {
	title := f.Title
	f.Title, f.Subtitle = "", ""
	return title
}

// refusal stands where a figure would, for one that cannot be drawn.
func refusal(err error) string {
	return `<p class="refused">` + template.HTMLEscapeString(err.Error()) + `</p>`
}
