package plotting

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

func TestLecture(t *testing.T) {
	t.Parallel()
	for _, size := range []page.Size{page.Slide, page.A4, {Width: 792, Height: 612, Text: 9.5, Border: 42}} {
		pages, err := Lecture(size)
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) != len(Lessons()) {
			t.Errorf("%d pages, want %d", len(pages), len(Lessons()))
		}
		for _, p := range pages {
			if !regexp.MustCompile(`^[a-z-]+$`).MatchString(p.Name) {
				t.Errorf("page %q: want a name of small letters and hyphens", p.Name)
			}
			if svg := drawn(t, p.Figure); !strings.Contains(svg, p.Title) {
				t.Errorf("page %s on %s does not carry its title", p.Name, size)
			}
		}
	}
}

// TestLectureWithOwnAngles holds that drivelines and texts follow the angles.
func TestLectureWithOwnAngles(t *testing.T) {
	t.Parallel()
	pages, err := Lecture(page.Slide, 25*kinematics.Degree, 20*kinematics.Degree)
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	for _, p := range pages {
		texts[p.Name] = p.Subtitle + "\n" + p.Caption
	}
	for name, want := range map[string]string{
		"one-joint":      "One joint at 25°",
		"square":         "6.25°, 12.5° and 25°",
		"unequal-angles": "√(25² − 20²) = 15°, not at the 5° by which", // five times 3, 4, 5
		"wrong-phase":    "√2 · 25° = 35.4°",
	} {
		if !strings.Contains(texts[name], want) {
			t.Errorf("%s: %q, want %q", name, texts[name], want)
		}
	}
	for _, angle := range []float64{0, 0.5, 46, math.NaN()} {
		if _, err := Lecture(page.Slide, angle*kinematics.Degree); err == nil {
			t.Errorf("%g° is accepted", angle)
		}
	}
}

// What the lessons claim in numbers is what their examples do.
func TestLessonsAreTrue(t *testing.T) {
	t.Parallel()
	left := func(name string) (first, exact float64) {
		for _, l := range lessonsWith(nil) {
			if l.name == name {
				c, err := l.example.analysed()
				if err != nil {
					t.Fatal(err)
				}
				s := c.Analysis.SecondOrder
				return s.Equivalent / kinematics.Degree, s.Exact / kinematics.Degree
			}
		}
		t.Fatalf("no lesson %q", name)
		return 0, 0
	}
	for _, test := range []struct {
		name         string
		first, exact float64
		tolerance    float64 // half of the last digit printed
	}{
		{"one-joint", 30, 30, 1e-9},
		{"cancellation", 0, 0, 1e-5}, // the root of rounding
		{"unequal-angles", 8.9, 9.0, 0.05},
		{"wrong-phase", 17, 17, 0.5},
		{"three-joints", 0, 0.6, 0.05},
	} {
		first, exact := left(test.name)
		if !near(first, test.first, test.tolerance) || !near(exact, test.exact, test.tolerance) {
			t.Errorf("%s leaves %g° by the sum and %g° exactly, want %g° and %g°", test.name, first, exact, test.first, test.exact)
		}
	}

	for _, l := range lessonsWith(nil) {
		if l.name == "twisted-planes" {
			clocked := l.example
			clocked.phases = []float64{90}
			c, err := clocked.analysed()
			if err != nil {
				t.Fatal(err)
			}
			if got := c.Analysis.SecondOrder.Exact / kinematics.Degree; !near(got, 2.5, 0.05) {
				t.Errorf("twisted planes, clocked by 90°: %g° left, want 2.5°", got)
			}
		}
	}
	if at := onePercent(swing) / kinematics.Degree; !near(at, 14, 0.5) {
		t.Errorf("the first-order swing is 1 %% short at %g°, want 14°", at)
	}
}
