package live

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"net/http"

	"halfturn/plotting/page"
)

// request is what the page posts.
type request struct {
	// File is the driveline that the page began with, or has made since.
	File map[string]any `json:"file"`
	// Entered is what stands in fields as typed, by the path in the file:
	// "shafts.1.down": "3,9 up".
	Entered map[string]string `json:"entered"`
	// Start is the driveline of which a figure is reminded.
	Start map[string]any `json:"start"`
	// Before is the driveline that a plan is tried on, to be compared with.
	Before *struct {
		File    map[string]any    `json:"file"`
		Entered map[string]string `json:"entered"`
	} `json:"before"`

	Figures []string                `json:"figures"` // names as of plot --figure
	Width   float64                 `json:"width"`   // of a figure, in CSS pixels
	Height  float64                 `json:"height"`  // that it must not exceed; 0: what suits it
	Text    float64                 `json:"text"`    // of its letters, in CSS pixels; 0: 12
	Axes    map[string][]page.Place `json:"axes"`    // where figures are held, by their names
	Moving  bool                    `json:"moving"`  // more is to come at once
	Inputs  string                  `json:"inputs"`  // the way whose fields are wanted; "": none
	Lesson  string                  `json:"lesson"`  // that the fields of the class are for; "": none
	Seq     int64                   `json:"seq"`     // given back

	Format string `json:"format"` // of a figure to be kept: svg, png, pdf
	Frames int    `json:"frames"` // of a turn
}

// maxBody of a request; a file has 1 MiB at most.
const maxBody = 1 << 20

// The widths that figures are drawn for, in CSS pixels; a page that is narrower or
// wider has them scaled.
const (
	narrowest = 260
	widest    = 2400
)

func readRequest(w http.ResponseWriter, r *http.Request) (*request, error) {
	req := new(request)
	d := json.NewDecoder(http.MaxBytesReader(w, r.Body, maxBody))
	d.UseNumber() // a file's numbers go on as they are written
	if err := d.Decode(req); err != nil {
		return nil, fmt.Errorf("request: %w", err)
	}
	if d.More() {
		return nil, errors.New("request: more than one value: want one object")
	}
	if math.IsNaN(req.Width) || req.Width < narrowest {
		req.Width = narrowest
	}
	req.Width = min(req.Width, widest)
	if !(req.Text >= 8 && req.Text <= 60) {
		req.Text = 12
	}
	return req, nil
}
