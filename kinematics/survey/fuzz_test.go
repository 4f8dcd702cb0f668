package survey_test

import (
	"bytes"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

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
		if err := s.Validate(); err != nil {
			t.Errorf("got %v for what was read", err)
		}
		checkDrivelines(t, s)
		for _, question := range s.Questions(true) {
			if strings.ContainsAny(question, "\n\r") || !utf8.ValidString(question) {
				t.Errorf("got question %q, want one line", question)
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

// checkDrivelines holds that s is a driveline as measured and in every pose.
func checkDrivelines(t *testing.T, s *survey.Survey) {
	t.Helper()
	all := []*survey.Survey{s}
	for _, pose := range s.Poses {
		all = append(all, s.In(pose))
	}
	for _, posed := range all {
		if _, err := posed.Driveline(); err != nil {
			t.Errorf("got error %v for %+v", err, posed)
		}
		if rpm := posed.ShaftRPM(); !(0 <= rpm && rpm <= survey.MaxRPM) {
			t.Errorf("got %g rpm for %+v", rpm, posed)
		}
		for i, axis := range posed.Axes() {
			if length := r3.Norm(axis); !(0 < length && length < 1e40) { // two tangents of 1e16 at most
				t.Errorf("shaft %d: got axis %v", i, axis)
			}
		}
	}
}

// What Validate lets pass is a driveline, also at the ends of every range.
func TestValidIsDriveline(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(1, 1))
	angles := []float64{0, 5, 45, -45, 1e-300, 89.999, math.Nextafter(90, 0), math.Nextafter(-90, 0)}
	lengths := []float64{0, 1e-3, 1, 1.001, 1e6, -1e6, 5e-324}
	pick := func(from []float64) float64 { return from[random.IntN(len(from))] }
	slope := func() survey.Slope {
		switch a, b := pick(angles), pick(angles); random.IntN(7) {
		case 0:
			return survey.Slope{}
		case 1, 2:
			return survey.Incline(a)
		case 3:
			return survey.Turned(a, b)
		default:
			return survey.Down(a)
		}
	}
	heading := func() survey.Heading {
		switch random.IntN(4) {
		case 0:
			return survey.Heading{}
		case 1:
			return survey.Offset(pick(lengths))
		default:
			return survey.Right(pick(angles))
		}
	}
	valid := 0
	for range 5_000 {
		s := &survey.Survey{Shafts: make([]survey.Shaft, 2+random.IntN(2))}
		positioned := random.IntN(2) == 0
		for i := range s.Shafts {
			if positioned && 0 < i && i < len(s.Shafts)-1 && random.IntN(10) > 0 {
				continue
			}
			s.Shafts[i] = survey.Shaft{Slope: slope(), Heading: heading(), Length: pick(lengths)}
		}
		for range s.Shafts[1:] {
			if positioned {
				at := survey.Point{Along: pick(lengths), Right: pick(lengths), Down: pick(lengths)}
				s.Joints = append(s.Joints, survey.Joint{At: &at})
			}
		}
		s.Poses = []survey.Pose{{Name: "posed", Shafts: []survey.PoseShaft{
			{Name: "shaft 1", Slope: slope(), Heading: heading()},
		}}}
		if s.Validate() == nil {
			valid++
			checkDrivelines(t, s)
		}
	}
	if valid < 250 {
		t.Errorf("got %d valid drivelines of 5000: the test tries too few", valid)
	}
}
