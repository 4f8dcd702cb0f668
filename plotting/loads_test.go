package plotting

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// loadsOf returns the loads of a case at 1500 N·m, its lengths in mm; nil for a case that
// no figure can be drawn of.
func loadsOf(c *Case) *survey.Loads {
	if c.check() != nil {
		return nil
	}
	s := survey.Survey{TorqueNM: 1500, Shafts: make([]survey.Shaft, len(c.Shafts))}
	for k := range c.Lengths {
		s.Shafts[k].Length = c.Lengths[k]
	}
	return s.Loads(c.Driveline)
}

// loadedTwoPiece is twoPiece with lengths.
func loadedTwoPiece(t testing.TB) *Case {
	c := twoPiece(t)
	c.Lengths = []float64{680, 940, 1270, 330}
	return c
}

// The way of the force lies about its steady part, as far away as the swing at most, as
// it is seen along the flow.
func TestWayOfForce(t *testing.T) {
	t.Parallel()
	l := loadsOf(loadedTwoPiece(t))
	force := l.Forces.Bearings[0].Force
	steady := plotter.XY{X: force.Right().Steady, Y: -force.Down().Steady}
	if got := seenAlong(force.Steady); got != steady {
		t.Errorf("steady part: got %v, want %v", got, steady)
	}
	farthest := 0.0
	for _, p := range wayOf(force) {
		farthest = max(farthest, math.Hypot(p.X-steady.X, p.Y-steady.Y))
	}
	// Seen along the flow a force across a shaft that falls by 4° is at most 1 − cos 4° shorter.
	if swing := force.Swing(); !near(farthest/swing, 1, 0.003) || !near(swing, 43, 1.5) {
		t.Errorf("got %g N away from the steady part, want the swing, %g N, about 43 N", farthest, swing)
	}
}

// The couple curves reach T·tan β at the first joint (Klein, technical information
// section 7) and come to nothing, on one side while the other is bent most.
func TestCoupleCurves(t *testing.T) {
	t.Parallel()
	c := newCase(t, 0, [][2]float64{{0, 0}, {20, 0}})
	p := c.couplePanel(loadsOf(c))
	_, driving := columns(p.Layers[0].(page.Curve))
	_, driven := columns(p.Layers[1].(page.Curve))
	tan, sin := 1500*math.Tan(20*kinematics.Degree), 1500*math.Sin(20*kinematics.Degree)
	for _, at := range []int{0, 90, 180, 270, 360} {
		want := [2]float64{tan, 0}
		if at%180 == 90 {
			want = [2]float64{0, sin}
		}
		// The ears lie level and the bend is downward: level ears are square to its plane at 90°.
		if got := [2]float64{driving[at], driven[at]}; !near(got[0], want[0], 1e-9*tan) || !near(got[1], want[1], 1e-9*tan) {
			t.Errorf("at %d°: got %.4g N·m, want %.4g N·m", at, got, want)
		}
	}
}

// What cannot be told is said, and the couples are shown all the same.
func TestLoadsThatCannotBeTold(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name   string
		c      *Case
		panels int
		want   string
	}{
		{"two-piece", loadedTwoPiece(t), 2, "No bearing is given"},
		{"without lengths", twoPiece(t), 1, "the length of shaft B is not given"},
		{"one joint", newCase(t, 0, [][2]float64{{0, 0}, {20, 0}}), 1, "the housings"},
	} {
		f, err := Loads(test.c, loadsOf(test.c), page.Size{})
		if err != nil {
			t.Fatal(err)
		}
		if got := len(f.Rows[0].Panels); got != test.panels || !strings.Contains(f.Caption, test.want) {
			t.Errorf("%s: got %d panels and %q, want %d and %q", test.name, got, f.Caption, test.panels, test.want)
		}
	}
	for _, l := range []*survey.Loads{nil, loadsOf(newCase(t, 0, [][2]float64{{0, 0}, {20, 0}}))} {
		if _, err := Loads(twoPiece(t), l, page.Size{}); err == nil {
			t.Errorf("loads %v of another driveline: got no error", l)
		}
	}
}

// However many joints there are, the names of their couples leave room for the loads on a
// column of a paper.
func TestLoadsOfManyJointsFitAColumn(t *testing.T) {
	t.Parallel()
	slopes := make([][2]float64, 12)
	for k := range slopes {
		slopes[k] = [2]float64{float64(k * k % 7), float64(k * 5 % 9)}
	}
	c := newCase(t, 1000, slopes)
	c.Lengths = slices.Repeat([]float64{400}, 12)
	column := page.Size{Width: 252, Height: 170, Text: 6, Least: 5, Border: 6}
	f, err := Loads(c, loadsOf(c), column)
	if err != nil {
		t.Fatal(err)
	}
	f.Size = column
	places, err := f.Places()
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range places {
		if height := p.Area.Size().Y; height < 20 {
			t.Errorf("panel %d has %.0f pt for its data, want 20 pt at least", i+1, height.Points())
		}
	}
}

// What the page on torque claims is what its drivelines do. That of the clocked one is
// the rule's own example.
func TestTorqueLesson(t *testing.T) {
	t.Parallel()
	for i, want := range []struct{ left, swing float64 }{
		{0, 0}, {0, 1000 * 3 * kinematics.Degree}, {0, 500 * 3 * kinematics.Degree}, {0.12, 0.1},
	} {
		c, err := evenLines[i].analysed()
		if err != nil {
			t.Fatal(err)
		}
		left := c.Analysis.SecondOrder.Exact / kinematics.Degree
		swing := c.supports(c.loadsOfLesson())[0].force.Swing()
		// T·2β/L and T·β/2d of small angles, which 3° is within 0.5 % of.
		if !near(left, want.left, 0.005) || !near(swing, want.swing, 0.005*want.swing+0.005) {
			t.Errorf("%s: %.3g° left and ±%.4g N, want %g° and ±%.4g N", evenLines[i].name, left, swing, want.left, want.swing)
		}
	}
	if steady := r3.Norm(loadsOf(loadedTwoPiece(t)).Forces.Bearings[0].Force.Steady); steady == 0 {
		t.Error("no steady part: the figure would show nothing of it")
	}
}

// A page that has no room for all bearings shows those that are shaken most, and says so.
func TestLoadsThatFitAPage(t *testing.T) {
	t.Parallel()
	slopes := make([][2]float64, 8)
	for k := range slopes {
		slopes[k] = [2]float64{float64(k * k % 7), float64(k * 5 % 9)}
	}
	c := newCase(t, 1000, slopes)
	c.Lengths = []float64{400, 400, 400, 400, 400, 400, 400, 400}
	l := loadsOf(c)
	swings := make(map[string]float64)
	for _, s := range c.supports(l) {
		swings[s.on] = s.force.Swing()
	}
	for _, test := range []struct {
		size page.Size
		all  bool
	}{{page.Size{}, true}, {page.A4, true}, {page.Slide, false}} {
		f, err := Loads(c, l, test.size)
		if err != nil {
			t.Fatal(err)
		}
		least, left := math.Inf(1), maps.Clone(swings)
		for _, row := range f.Rows {
			for _, p := range row.Panels {
				on, _, _ := strings.Cut(p.Title, ": ")
				if swing, ok := left[on]; ok {
					least = min(least, swing)
					delete(left, on)
				}
			}
		}
		if all := len(left) == 0; all != test.all || all == strings.Contains(f.Subtitle, "shaken most") || len(left) == len(swings) {
			t.Errorf("%s: %d of %d bearings left out, %q", test.size, len(left), len(swings), f.Subtitle)
		}
		for on, swing := range left {
			if swing > least {
				t.Errorf("%s: %s is left out, though shaken by ±%g N, more than the ±%g N of another", test.size, on, swing, least)
			}
		}
		if f.Size = test.size.Turned(f.Size); test.size != (page.Size{}) {
			drawn(t, f)
		}
	}
}
