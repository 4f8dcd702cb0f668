package survey_test

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics/survey"
)

// FuzzRead: no text makes Read panic; it gives a driveline or an error, never
// both; and what it gives is a driveline indeed, in every pose, made of finite
// numbers, which can be written and read back.
func FuzzRead(f *testing.F) {
	files, err := filepath.Glob("../../examples/*.json")
	if err != nil || len(files) == 0 {
		f.Fatalf("got %d examples and error %v", len(files), err)
	}
	for _, name := range files {
		file, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(file)
	}
	for _, s := range []*survey.Survey{slopes(), positions()} {
		var file bytes.Buffer
		if err := s.Write(&file); err != nil {
			f.Fatal(err)
		}
		f.Add(file.Bytes())
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		s, err := survey.Read("fuzz.json", bytes.NewReader(file))
		if (s == nil) == (err == nil) {
			t.Fatalf("got %v and error %v", s, err)
		}
		if err != nil {
			if err.Error() == "" {
				t.Error("got an empty message")
			}
			return
		}
		for _, posed := range append([]*survey.Survey{s}, poses(s)...) {
			if _, err := posed.Driveline(); err != nil {
				t.Error(err)
			}
			for i, axis := range posed.Axes() {
				if length := r3.Norm(axis); !(0 < length && length < 1e20) { // the steepest slope has a tangent of 1e16
					t.Errorf("shaft %d: got axis %v", i, axis)
				}
			}
		}
		var written bytes.Buffer
		if err := s.Write(&written); err != nil {
			t.Fatal(err)
		}
		again, err := survey.Read("written.json", &written)
		if err != nil || !reflect.DeepEqual(s, again) {
			t.Errorf("got %+v and error %v, want %+v", again, err, s)
		}
	})
}

func poses(s *survey.Survey) []*survey.Survey {
	posed := make([]*survey.Survey, len(s.Poses))
	for i, pose := range s.Poses {
		posed[i] = s.In(pose)
	}
	return posed
}
