package plotting

import (
	"math"
	"regexp"
	"strconv"
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
		titles := map[string]bool{}
		for _, p := range pages {
			if !regexp.MustCompile(`^[a-z-]+$`).MatchString(p.Name) {
				t.Errorf("page %q: want a name of small letters and hyphens", p.Name)
			}
			titles[p.Title[3:]] = true
			if svg := drawn(t, p.Figure); !strings.Contains(svg, p.Title) {
				t.Errorf("page %s on %s does not carry its title", p.Name, size)
			}
		}
		for _, l := range Lessons() {
			if !titles[l.Title] {
				t.Errorf("no page %q on %s", l.Title, size)
			}
		}
	}
}

// TestLectureIsReadFromTheLastRow holds that no text on a slide is below 18 points, whatever
// the angles, and that nothing is cut off or lies on another text.
func TestLectureIsReadFromTheLastRow(t *testing.T) {
	t.Parallel()
	size := regexp.MustCompile(`font-size="([0-9.]+)"`)
	for _, angles := range [][]float64{nil, {1}, {15, 10}, {33.33, 44.44}, {45, 45}, {3, 2.75}} {
		for i := range angles {
			angles[i] *= kinematics.Degree
		}
		pages, err := Lecture(page.Slide, angles...)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pages {
			texts := inks(t, p.Figure)
			for i, a := range texts {
				if !onPage(a.Rectangle, page.Slide) {
					t.Errorf("%s of %v: %q is cut off", p.Name, angles, a.text)
				}
				for _, b := range texts[:i] {
					if overlap(a.Rectangle, b.Rectangle) {
						t.Errorf("%s of %v: %q lies on %q", p.Name, angles, a.text, b.text)
					}
				}
			}
			sizes := size.FindAllStringSubmatch(drawn(t, p.Figure), -1)
			for _, m := range sizes {
				if points, err := strconv.ParseFloat(m[1], 64); err != nil || points < 18 {
					t.Errorf("%s of %v: text of %s points (%v), want at least 18", p.Name, angles, m[1], err)
				}
			}
			if len(sizes) == 0 {
				t.Errorf("%s of %v has no text", p.Name, angles)
			}
		}
	}
}

// TestLectureOnPaper holds that panels keep their shape on a page that is higher than wide.
func TestLectureOnPaper(t *testing.T) {
	t.Parallel()
	for _, size := range []page.Size{page.A4, page.Letter} {
		pages, err := Lecture(size)
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) != len(Lessons()) {
			t.Errorf("%d pages, want one for each of %d lessons", len(pages), len(Lessons()))
		}
		for _, p := range pages {
			places, err := p.Places()
			if err != nil {
				t.Fatal(err)
			}
			for i, place := range places {
				if a := place.Area.Size(); a.Y > 1.1*a.X {
					t.Errorf("%s on %s: panel %d is %.0f × %.0f pt, want none higher than wide", p.Name, size, i+1, a.X.Points(), a.Y.Points())
				}
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
