package plotting

import (
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
		if len(pages) != len(lessons) {
			t.Errorf("%d pages, want %d", len(pages), len(lessons))
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

// What the lessons claim in numbers is what their examples do.
func TestLessonsAreTrue(t *testing.T) {
	t.Parallel()
	left := func(name string) (first, exact float64) {
		for _, l := range lessons {
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

	for _, l := range lessons {
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
