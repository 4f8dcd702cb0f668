package live

import (
	"cmp"
	"fmt"
	"html/template"

	"gonum.org/v1/plot/vg"

	"halfturn/cmd/halfturn/guide"
	"halfturn/kinematics"
	"halfturn/plotting"
	"halfturn/plotting/page"
)

// step is one of measuring, with its drawing.
type step struct {
	guide.Step
	Drawing template.HTML
}

// newSteps returns the steps of measuring the driveline of a request. A slope that the
// file has in another way than a gauge reads it may stay.
func newSteps(req *request) ([]step, error) {
	var steps []step
	shape := shapeOf(req.File)
	for _, s := range shape.Steps() {
		if s.OnPaper {
			continue
		}
		drawing, err := drawPlace(shape.Joints, s, req)
		if err != nil {
			return nil, err
		}
		if s.Place.What == plotting.MeasuredSlope {
			at := fmt.Sprintf("shafts.%d.", s.Place.Shaft)
			if now := lookUp(req.File, at+entry(req.File, at, slopes)); now != nil {
				s.Skipped = fmt.Sprintf("It stays as it is in the file: %s°.", typed(now))
			}
		}
		steps = append(steps, step{s, drawing})
	}
	return steps, nil
}

// drawPlace draws where a step is measured.
func drawPlace(joints []kinematics.Kind, s guide.Step, req *request) (template.HTML, error) {
	if s.Place == (plotting.Place{}) {
		return "", nil
	}
	f, err := plotting.Measure(joints, s.Place)
	if err != nil {
		return "", err
	}
	width := vg.Length(min(req.Width, 600)) * pixel
	f.Size = page.Size{Width: width, Height: 0.46 * width, Text: 12 * pixel}
	svg, err := fragment(f, s.ID, untitled(f))
	return template.HTML(svg), err
}

// shapeOf returns what the steps of measuring depend on.
func shapeOf(file map[string]any) guide.Shape {
	s := guide.Shape{Unit: unit(file)}
	for i := range items(file, "shafts") {
		s.Shafts = append(s.Shafts, title(file, "shafts", i, "shaft"))
		if i > 0 {
			kind, _ := lookUp(file, fmt.Sprintf("joints.%d.kind", i-1)).(string)
			s.Joints = append(s.Joints, cmp.Or(kinematics.Kind(kind), kinematics.Cardan))
			s.Names = append(s.Names, title(file, "joints", i-1, "joint"))
		}
	}
	return s
}
