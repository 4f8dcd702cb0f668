package plotting

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// everyFigure is each figure of one case, by its name.
var everyFigure = map[string]func(*Case) (*page.Figure, error){
	"speed":          func(c *Case) (*page.Figure, error) { return Speed(c, Driving) },
	"speed coasting": func(c *Case) (*page.Figure, error) { return Speed(c, Coasting) },
	"acceleration":   Acceleration,
	"lead":           func(c *Case) (*page.Figure, error) { return Lead(c, Driving) },
	"vectors":        func(c *Case) (*page.Figure, error) { return Vectors(c, 0) },
	"orders":         Orders,
	"loads":          func(c *Case) (*page.Figure, error) { return Loads(c, loadsOf(c), page.Size{}) },
	"views":          func(c *Case) (*page.Figure, error) { return Views(c, page.Size{}) },
	"views on slide": func(c *Case) (*page.Figure, error) { return Views(c, page.Slide) },
	"phasing":        func(c *Case) (*page.Figure, error) { return Phasing(c, 0) },
	"theory":         Theory,
	"compare":        func(c *Case) (*page.Figure, error) { return Compare([]*Case{c, c}) },
	"correction":     func(c *Case) (*page.Figure, error) { return Correction(c, c) },
	"sheet":          func(c *Case) (*page.Figure, error) { return Sheet(c, 0.05, page.A4) },
	"sheet on slide": func(c *Case) (*page.Figure, error) { return Sheet(c, 0, page.Slide) },
}

// Whatever the driveline, every figure can be drawn.
func TestEveryFigureOfAnyDriveline(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	cases := map[string]*Case{
		"straight":     newCase(t, 0, [][2]float64{{0, 0}, {0, 0}, {0, 0}}),
		"cancelled":    newCase(t, 3000, [][2]float64{{0, 0}, {12, 0}, {0, 0}}),
		"tiny angles":  newCase(t, 3000, [][2]float64{{0, 0}, {1e-6, 0}, {0, 2e-6}}),
		"steep":        newCase(t, 1, [][2]float64{{0, 0}, {40, 0}, {0, 0}}),
		"almost 90":    newCase(t, 1e6, [][2]float64{{0, 0}, {89.9, 0}, {60, 0}}),
		"turned back":  newCase(t, 100, [][2]float64{{-70, 0}, {0, 70}, {70, 0}}),
		"long names":   named(newCase(t, 2800, [][2]float64{{3, 0}, {7, 0}, {4, 0}}), strings.Repeat("rear shaft with a sliding yoke ", 20)),
		"strange name": named(newCase(t, 2800, [][2]float64{{3, 0}, {7, 0}, {4, 0}}), "\x00<&\">\n\t\xff"),
		"no name":      named(newCase(t, 2800, [][2]float64{{3, 0}, {7, 0}, {4, 0}}), ""),
	}
	for i := range 10 {
		slopes := make([][2]float64, 3+rnd.IntN(10))
		phases := make([]float64, len(slopes)-2)
		for k := range slopes {
			slopes[k] = [2]float64{60 * (rnd.Float64() - 0.5), 60 * (rnd.Float64() - 0.5)}
		}
		for k := range phases {
			phases[k] = 400 * (rnd.Float64() - 0.5)
		}
		c := newCase(t, 6000*rnd.Float64(), slopes, phases...)
		if i%2 == 0 {
			c.Lengths = make([]float64, len(slopes))
			for k := range c.Lengths {
				c.Lengths[k] = math.Exp(8 * rnd.Float64())
			}
		}
		cases[fmt.Sprintf("random %d", i)] = c
	}
	for name, c := range cases {
		for figure, draw := range everyFigure {
			t.Run(name+", "+figure, func(t *testing.T) {
				f, err := draw(c)
				if err != nil {
					t.Fatal(err)
				}
				svg := drawn(t, f)
				if i := strings.Index(svg, "NaN"); i >= 0 {
					t.Errorf("NaN in the drawing: …%s", svg[max(0, i-80):i+3])
				}
			})
		}
	}
}

func named(c *Case, name string) *Case {
	c.Name = name
	for i := range c.Shafts {
		c.Shafts[i] = name
	}
	for i := range c.Joints {
		c.Joints[i] = name
	}
	return c
}

// The same case gives the same bytes, figure by figure.
func TestFiguresAreReproducible(t *testing.T) {
	t.Parallel()
	for name, draw := range everyFigure {
		var first []byte
		for range 2 {
			f, err := draw(twoPiece(t))
			if err != nil {
				t.Fatal(err)
			}
			svg, err := page.Encode(f, page.SVG, page.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if first != nil && !bytes.Equal(first, svg) {
				t.Errorf("%s: two runs differ", name)
			}
			first = svg
		}
	}
}

func TestCaseFaults(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name  string
		spoil func(*Case)
		want  string
	}{
		{"no driveline", func(c *Case) { c.Driveline = nil }, `case "a case": no driveline or no analysis: want both`},
		{"no analysis", func(c *Case) { c.Analysis = nil }, `case "a case": no driveline or no analysis: want both`},
		{"analysis of another", func(c *Case) { c.Analysis = newCase(t, 0, [][2]float64{{0, 0}, {1, 0}}).Analysis },
			`case "a case": analysis of 1 joints for 4 shafts: want that of the same driveline`},
		{"no shafts named", func(c *Case) { c.Shafts = nil }, `case "a case": names of 0 shafts and 3 joints: want 4 and 3`},
		{"a joint unnamed", func(c *Case) { c.Joints = c.Joints[:2] }, `case "a case": names of 4 shafts and 2 joints: want 4 and 3`},
		{"lengths", func(c *Case) { c.Lengths = []float64{1} }, `case "a case": 1 lengths: want 4, one for each shaft`},
		{"length", func(c *Case) { c.Lengths = []float64{0, 1, math.NaN(), 1} }, `case "a case": length of shaft 3: NaN: want 0 (not known) or more`},
		{"speed", func(c *Case) { c.RPM = math.NaN() }, `case "a case": speed: NaN rev/min: want 0 (not known) to 1e+09`},
		{"backwards", func(c *Case) { c.RPM = -1 }, `case "a case": speed: -1 rev/min: want 0 (not known) to 1e+09`},
	} {
		for figure, draw := range everyFigure {
			t.Run(test.name+", "+figure, func(t *testing.T) {
				t.Parallel()
				c := twoPiece(t)
				test.spoil(c)
				if f, err := draw(c); err == nil || err.Error() != test.want || f != nil {
					t.Errorf("got %v, want error %q and no figure", err, test.want)
				}
			})
		}
	}
}

func TestFigureFaults(t *testing.T) {
	t.Parallel()
	c, single := twoPiece(t), newCase(t, 0, [][2]float64{{0, 0}, {5, 0}})
	for _, test := range []struct {
		name string
		draw func() (*page.Figure, error)
		want string
	}{
		{"no case", func() (*page.Figure, error) { return Speed(nil, Driving) }, "case: is nil: want an analysed driveline"},
		{"limit", func() (*page.Figure, error) { return Vectors(c, math.NaN()) }, "limit of the equivalent angle: NaN deg: want 0 (none) or below 90 deg"},
		{"limit of a sheet", func() (*page.Figure, error) { return Sheet(c, -1*kinematics.Degree, page.A4) }, "limit of the equivalent angle: -1 deg: want 0 (none) or below 90 deg"},
		{"nothing to turn", func() (*page.Figure, error) { return Phasing(single, 0) }, "phasing: the driveline has no shaft between two joints: want at least one"},
		{"a shaft at an end", func() (*page.Figure, error) { return Phasing(c, 3) }, "phasing: shaft 4: want one between two joints, 2 to 3"},
		{"one to compare", func() (*page.Figure, error) { return Compare([]*Case{c}) }, "compare: 1 drivelines: want 2 to 30"},
		{"too many", func() (*page.Figure, error) { return Compare(make([]*Case, 31)) }, "compare: 31 drivelines: want 2 to 30"},
		{"other driveline", func() (*page.Figure, error) { return Correction(c, single) }, "correction: 4 shafts before and 2 after: want the same driveline"},
		{"not judged", func() (*page.Figure, error) { return Allowed(c, nil) }, "judgement: is nil: want that of the driveline"},
		{"no sweep", func() (*page.Figure, error) { return Sweep("x", nil, nil) }, "sweep: no series: want at least one"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			f, err := test.draw()
			if err == nil || err.Error() != test.want || f != nil {
				t.Errorf("got figure %v and error %v, want error %q alone", f, err, test.want)
			}
		})
	}
}

func TestSubtitle(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		rpm  float64
		want string
	}{
		{"a van", 1800, "a van · 1800 rev/min"},
		{"a van", 0, "a van"},
		{"", 1800, "1800 rev/min"},
		{" ", 0, ""},
	} {
		if got := (&Case{Name: test.name, RPM: test.rpm}).subtitle(); got != test.want {
			t.Errorf("%q at %g rev/min: got %q, want %q", test.name, test.rpm, got, test.want)
		}
	}
}

// Of panels that show the same and others, the legend names each once, and last what the
// figure is about.
func TestLegendOrder(t *testing.T) {
	t.Parallel()
	f, err := Acceleration(newCase(t, 1000, [][2]float64{{0, 0}, {5, 0}, {1, 0}}))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, text := range inks(t, f) {
		if strings.HasPrefix(text.text, "shaft ") || strings.HasPrefix(text.text, "what is left") {
			names = append(names, text.text)
		}
	}
	if got, want := strings.Join(names, ", "), "shaft A, shaft B, shaft C, what is left at the other end"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestNewCaseRefusesAShaftWithoutASlope(t *testing.T) {
	t.Parallel()
	_, err := NewCase(&survey.Survey{Shafts: []survey.Shaft{{Slope: survey.Down(3)}, {}}})
	if err == nil || !strings.Contains(err.Error(), "no slope") {
		t.Errorf("got %v, want that a shaft has no slope", err)
	}
}
