package live

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"slices"
	"strings"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// answer is what the page gets back. Parts are HTML by the id of the element that
// they belong into.
type answer struct {
	Seq     int64                   `json:"seq"`
	File    json.RawMessage         `json:"file"`    // completed, or as far as it could be read
	Faults  faults                  `json:"faults"`  // nothing is answered where there are any
	Remarks map[string]string       `json:"remarks"` // what to ask beside a field, by its path
	Parts   map[string]string       `json:"parts"`
	Figures map[string]string       `json:"figures"` // SVG by name
	Axes    map[string][]page.Place `json:"axes"`    // where the panels of each figure stand and what they show
	Tracks  map[string][]track      `json:"tracks"`  // of each figure
	Spoken  string                  `json:"spoken"`  // the answer in a sentence
}

// answer says what there is to say of the driveline, as far as it is wanted.
func (s *server) answer(ctx context.Context, w http.ResponseWriter, req *request) error {
	a := &answer{
		Seq: req.Seq, Faults: faults{}, Parts: map[string]string{}, Figures: map[string]string{},
		Axes: map[string][]page.Place{}, Tracks: map[string][]track{},
	}
	found, err := a.find(ctx, req, findings.Options{})
	if err != nil {
		return err
	}
	if req.Inputs != "" {
		in, err := newInputs(req)
		if err != nil {
			return err
		}
		if err := a.render("inputs", "inputs", in); err != nil {
			return err
		}
	}
	if found == nil {
		return writeJSON(w, a)
	}
	a.Spoken = found.Answer()[0]
	for _, part := range []string{"answer", "angles", "details"} {
		if err := a.render(part, part, found); err != nil {
			return err
		}
	}
	shown := []*findings.Findings{found}
	if req.Before != nil {
		before, err := new(answer).find(ctx, &request{File: req.Before.File, Entered: req.Before.Entered}, findings.Options{})
		if err != nil {
			return err
		}
		if before != nil {
			shown = []*findings.Findings{before, found}
			if err := a.render("card", "card", shown); err != nil {
				return err
			}
		}
	}
	var start *findings.Findings
	if req.Start != nil {
		if start, err = new(answer).find(ctx, &request{File: req.Start}, findings.Options{}); err != nil {
			return err
		}
	}
	if err := s.draw(ctx, a, req, shown, start); err != nil {
		return err
	}
	return writeJSON(w, a)
}

// find reads the driveline of a request and finds what there is to say of it. It
// returns nil where the driveline is refused; the faults say why.
func (a *answer) find(ctx context.Context, req *request, opts findings.Options) (*findings.Findings, error) {
	sv, err := a.read(req)
	if sv == nil {
		return nil, err
	}
	found, err := findings.New(ctx, sv, opts)
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		a.Faults.add(err)
		return nil, nil
	}
	return found, nil
}

// read returns the driveline of a request with what is typed into the fields, or
// nil where something is wrong with it.
func (a *answer) read(req *request) (*survey.Survey, error) {
	if req.File == nil {
		req.File = map[string]any{}
	}
	a.Faults = enter(req.File, req.Entered)
	a.Remarks = remarks(req.File)
	text, err := json.Marshal(req.File)
	if err != nil {
		return nil, err
	}
	a.File = text
	sv, err := survey.Read("", bytes.NewReader(text))
	if err != nil {
		a.Faults.add(err)
	}
	if len(a.Faults) > 0 {
		return nil, nil
	}
	var complete bytes.Buffer
	if err := sv.Write(&complete); err != nil {
		return nil, err
	}
	a.File = complete.Bytes()
	return sv, nil
}

// add files an error under the fields that it is about, "" for the whole. What is
// said of a field first stands.
func (f faults) add(err error) {
	list, ok := errors.AsType[survey.Faults](err)
	if !ok {
		f[""] = err.Error()
		return
	}
	for _, fault := range list {
		path := strings.NewReplacer("[", ".", "]", "").Replace(fault.Path)
		message := fault.Value + ": want " + fault.Want
		switch earlier, taken := f[path]; {
		case !taken:
			f[path] = message
		case path == "":
			f[path] = earlier + "\n" + message
		}
	}
}

// render makes a part of the page.
func (a *answer) render(id, template string, data any) error {
	var b strings.Builder
	if err := templates.ExecuteTemplate(&b, template, data); err != nil {
		return err
	}
	a.Parts[id] = b.String()
	return nil
}

// worked reports whether a column of a table of joints is that of the true angle.
func worked(t findings.Table, column int) bool {
	return column == slices.Index(t.Head, "works at")
}
