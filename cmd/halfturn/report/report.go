// Package report makes a page of a driveline to print or to send: it stands by
// itself, in HTML with its style and figures.
package report

import (
	"bytes"
	_ "embed"
	"html/template"

	"halfturn/cmd/halfturn/findings"
)

// New returns the page of what was found of a driveline, with a correction where
// one was looked for; version names the program.
func New(f *findings.Findings, version string) ([]byte, error) {
	shown, err := newContent(f, version)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = pageTemplate.Execute(&b, shown)
	return b.Bytes(), err
}

//go:embed report.html.tmpl
var pageHTML string

//go:embed report.css
var pageCSS string

// pageTemplate is written as XML, so that its form can be checked.
var pageTemplate = template.Must(template.New("report").Parse(pageHTML))
