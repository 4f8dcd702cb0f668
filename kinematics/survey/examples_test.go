package survey_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// The examples are valid, tell a story and are written as Write writes them.
func TestExamples(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("../../examples/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("got %d examples and error %v", len(files), err)
	}
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			t.Parallel()
			s, file := readExample(t, filepath.Base(name))
			if s.Name == "" || s.Note == "" {
				t.Errorf("got name %q and note %q", s.Name, s.Note)
			}
			var written bytes.Buffer
			if err := s.Write(&written); err != nil {
				t.Fatal(err)
			}
			if got, want := string(file), written.String(); got != want {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

// What the notes of the examples say about the fluctuation is so: the equivalent
// angle in degrees lies in the range that the words stand for.
func TestExampleStories(t *testing.T) {
	t.Parallel()
	asMeasured := func(s *survey.Survey) *survey.Survey { return s }
	in := func(pose string) func(*survey.Survey) *survey.Survey {
		return func(s *survey.Survey) *survey.Survey {
			for _, p := range s.Poses {
				if p.Name == pose {
					return s.In(p)
				}
			}
			panic("no such pose: " + pose)
		}
	}
	phases := func(deg float64) func(*survey.Survey) *survey.Survey {
		return func(s *survey.Survey) *survey.Survey {
			for i := 1; i < len(s.Shafts)-1; i++ {
				s.Shafts[i].PhaseDeg = survey.Readings{deg}
			}
			return s
		}
	}
	for _, test := range []struct {
		file, story string
		change      func(*survey.Survey) *survey.Survey
		low, high   float64 // deg
	}{
		{"one-piece.json", "no longer matches", asMeasured, 3, 4},
		{"one-piece.json", "a wedge of 1.5 deg is the whole cure", func(s *survey.Survey) *survey.Survey {
			s.Shafts[2].Slope = survey.Down(s.Shafts[2].Slope.Mean() - 1.5)
			return s
		}, 0, 0.1},
		{"two-piece.json", "should be the same", asMeasured, 2, 3},
		{"two-piece.json", "a wedge under the axle is the cure", func(s *survey.Survey) *survey.Survey {
			s.Shafts[3].Slope = survey.Down(s.Shafts[3].Slope.Mean() - 1)
			return s
		}, 0, 1},
		{"three-piece.json", "more than 3 deg", asMeasured, 3, 3.5},
		{"transfer-case.json", "nowhere near equal", asMeasured, 7, 9},
		// The swing of the ratio is the square of the equivalent angle in radians.
		{"steering-shaft.json", "one per cent is left", asMeasured, 5.5, 6.5},
		{"steering-shaft.json", "almost a half with the ears in line", phases(0), 38, 40.5},
		{"implement-shaft.json", "little more than 4 deg", asMeasured, 3, 4.5},
		{"implement-shaft.json", "in the usual turn too", in("headland turn to the right"), 1, 4.5},
		{"implement-shaft.json", "in a tight turn several times as much", in("tight turn to the right"), 8, 12},
		{"lifted-utility.json", "cancels at ride height", asMeasured, 0, 0.1},
		{"lifted-utility.json", "not in full droop", in("full droop"), 8, 15},
		{"constant-velocity-front.json", "little is left", asMeasured, 0, 1},
		{"rewelded-shaft.json", "the phase alone leaves something", asMeasured, 5, 6},
		{"rewelded-shaft.json", "cancels exactly with phase 0", phases(0), 0, 1e-5}, // √ of a rounding error
	} {
		t.Run(test.file+"/"+test.story, func(t *testing.T) {
			t.Parallel()
			s, _ := readExample(t, test.file)
			driveline, err := test.change(s).Driveline()
			if err != nil {
				t.Fatal(err)
			}
			got := driveline.SecondOrder().Exact / kinematics.Degree
			if !(test.low <= got && got <= test.high) {
				t.Errorf("got %g deg, want %g to %g deg", got, test.low, test.high)
			}
		})
	}
}

func readExample(t *testing.T, name string) (*survey.Survey, []byte) {
	t.Helper()
	file, err := os.ReadFile(filepath.Join("../../examples", name))
	if err != nil {
		t.Fatal(err)
	}
	s, err := survey.Read(name, bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return s, file
}
