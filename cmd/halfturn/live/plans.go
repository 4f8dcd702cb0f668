package live

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"

	"halfturn/cmd/halfturn/findings"
	"halfturn/kinematics/adjust"
)

// plans looks for what to change. Its answer has the parts "plans" and "cure" and
// the driveline of each plan.
func (s *server) plans(ctx context.Context, w http.ResponseWriter, req *request) error {
	a := &answer{Seq: req.Seq, Parts: map[string]string{}}
	found, err := a.find(ctx, req, findings.Options{Correct: true})
	if err != nil {
		return err
	}
	plans := struct {
		*answer
		Drivelines []json.RawMessage `json:"drivelines"`
	}{answer: a}
	if found == nil {
		return writeJSON(w, plans)
	}
	if err := a.render("plans", "plans", found); err != nil {
		return err
	}
	if found.Correction == nil {
		return writeJSON(w, plans)
	}
	if err := a.render("cure", "cure", found); err != nil {
		return err
	}
	for i := range found.Correction.Plans {
		driveline, err := written(&found.Correction.Plans[i])
		if err != nil {
			return err
		}
		plans.Drivelines = append(plans.Drivelines, driveline)
	}
	return writeJSON(w, plans)
}

// written returns the driveline of a plan as a file.
func written(p *adjust.Plan) (json.RawMessage, error) {
	var b bytes.Buffer
	err := p.Survey.Write(&b)
	return b.Bytes(), err
}
