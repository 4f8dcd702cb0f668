package findings

import (
	"fmt"
	"io"
	"math"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/limits"
)

// WriteFelt prints which rotation a vibration fits, the answer first.
func WriteFelt(w io.Writer, felt limits.Felt) {
	fmt.Fprint(w, text.Wrap("", felt.Answer))
	t := Table{
		Title: "What shakes how often at this speed", Names: []int{0},
		Head: []string{"rotation", "Hz", "felt is off by", ""},
	}
	for _, r := range felt.Candidates {
		fits := ""
		switch {
		case r.Fits:
			fits = "fits"
		case r.Possible:
			fits = "possible"
		}
		t.Add(r.Name, fmt.Sprintf("%.1f", r.Hz), text.Minus(fmt.Sprintf("%+.0f %%", math.Round(100*r.Off)+0)), fits)
	}
	t.Write(w)
}

// FeltDocument is what felt --json prints.
type FeltDocument struct {
	Hz             float64           `json:"hz"`
	RPM            float64           `json:"rpm"`
	Answer         string            `json:"answer"`
	AnglesPossible bool              `json:"angles_possible"`
	Rotations      []limits.Rotation `json:"rotations"`
}

// NewFeltDocument returns what felt --json prints.
func NewFeltDocument(f limits.Felt) FeltDocument {
	return FeltDocument{Hz: f.Hz, RPM: f.Turning.RPM, Answer: f.Answer, AnglesPossible: f.AnglesPossible, Rotations: f.Candidates}
}
