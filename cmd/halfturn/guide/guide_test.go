package guide

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
	"halfturn/plotting"
)

// Every reading that a driveline needs has its step, and a driveline with nothing but
// what cannot be skipped is complete.
func TestStepsLeadToADriveline(t *testing.T) {
	t.Parallel()
	for _, a := range Arrangements {
		t.Run(a.ID, func(t *testing.T) {
			file := a.File()
			seen := make(map[string]bool)
			for _, step := range a.Shape().Steps() {
				if seen[step.ID] {
					t.Errorf("%s twice", step.ID)
				}
				seen[step.ID] = true
				if step.Title == "" || step.Where == "" || len(step.Fields) == 0 {
					t.Errorf("%s: without title, place or field", step.ID)
				}
				if step.Skipped != "" {
					continue
				}
				var shaft int
				var field string
				if _, err := fmt.Sscanf(strings.ReplaceAll(step.Fields[0].Path, ".", " "), "shafts %d %s", &shaft, &field); err != nil {
					t.Fatalf("%s: needed, and not of a shaft: %v", step.ID, err)
				}
				file["shafts"].([]any)[shaft].(map[string]any)[field] = 1 + shaft
			}
			text, err := json.Marshal(file)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := survey.Read("", bytes.NewReader(text)); err != nil {
				t.Errorf("%s: %v", text, err)
			}
		})
	}
}

// What a correction and the loads need is asked for too.
func TestStepsAskForWhatACureNeeds(t *testing.T) {
	t.Parallel()
	asked := make(map[string]bool)
	var onPaper []string
	for _, step := range Arrangements[1].Shape().Steps() {
		for _, f := range step.Fields {
			asked[f.Path] = true
		}
		if step.OnPaper {
			onPaper = append(onPaper, step.Title)
		}
	}
	for _, path := range []string{"units", "shafts.0.length", "shafts.1.length", "shafts.1.bearing", "shafts.2.length", "shafts.3.length",
		"torque_nm", "rpm", "road.speed_kmh", "road.tyre", "road.final_drive"} {
		if !asked[path] {
			t.Errorf("nothing asks for %s", path)
		}
	}
	if asked["shafts.2.bearing"] {
		t.Error("asked for a centre bearing of the shaft at the axle")
	}
	if want := []string{"Slip splines", "A second ride height"}; !slices.Equal(onPaper, want) {
		t.Errorf("on paper only: %q, want %q", onPaper, want)
	}
}

func TestStepsCanBeDrawn(t *testing.T) {
	t.Parallel()
	for _, a := range Arrangements {
		for _, step := range a.Shape().Steps() {
			if step.Place == (plotting.Place{}) {
				continue
			}
			if svg, err := drawn(step.ID, step.Place, a.Shape().Joints, 240); err != nil || !strings.HasPrefix(string(svg), "<svg ") {
				t.Errorf("%s of %s: %v", step.ID, a.ID, err)
			}
		}
	}
}

// The worksheet is well formed, stands by itself and has every word of the guidance.
func TestWorksheet(t *testing.T) {
	t.Parallel()
	sheet, err := Worksheet()
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	d := xml.NewDecoder(bytes.NewReader(sheet))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.CharData:
			text.Write(token)
		case xml.StartElement:
			for _, a := range token.Attr {
				if a.Name.Local == "src" || a.Name.Local == "href" {
					t.Errorf("%s asks for %s", token.Name.Local, a.Value)
				}
			}
		}
	}
	words := strings.Join(strings.Fields(text.String()), " ")
	want := []string{"never under a vehicle on a jack alone"}
	for _, a := range Arrangements[:onPaper] {
		want = append(want, a.Name)
		for _, step := range a.Shape().Steps() {
			want = append(want, step.Title)
			for _, f := range step.Fields {
				want = append(want, f.Label)
				for _, w := range f.Words {
					want = append(want, w.Text)
				}
			}
		}
	}
	for _, step := range Arrangements[1].Shape().Steps() {
		if step.Place != (plotting.Place{}) && step.Place.Shaft < 2 || step.OnPaper || step.ID == "ends" {
			want = append(want, step.Where)
		}
	}
	for _, w := range want {
		if !strings.Contains(words, w) {
			t.Errorf("the worksheet lacks %q", w)
		}
	}
}
