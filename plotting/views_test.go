package plotting

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// Both views have one scale, on every page and however steep the driveline is.
func TestViewsHaveOneScale(t *testing.T) {
	t.Parallel()
	flat := twoPiece(t)
	flat.Lengths = []float64{680, 940, 1270, 330}
	for name, c := range map[string]*Case{
		"flat":     flat,
		"straight": newCase(t, 0, [][2]float64{{0, 0}, {0, 0}, {0, 0}}),
		"moderate": newCase(t, 0, [][2]float64{{0, 0}, {9, 0}, {0, 0}}),
		"steep":    newCase(t, 0, [][2]float64{{32, 0}, {51, 14}, {33, 32}, {14, 12}}),
		"sideways": newCase(t, 0, [][2]float64{{0, 0}, {0, 50}, {0, 0}}),
	} {
		for _, size := range []page.Size{{}, page.Single, page.Slide, page.A4} {
			t.Run(name+" on "+size.String(), func(t *testing.T) {
				d := newViewDrawing(c)
				f := &page.Figure{Rows: d.stacked(1), Size: size, Caption: c.viewsCaption()}
				if d.steep() {
					f.Rows = d.sideBySide(1)
				}
				var scales []float64 // page points per unit of length
				for _, row := range f.Rows {
					for _, p := range row.Panels {
						i := len(scales)
						scales = append(scales, 0)
						view := p.Layers[0].(page.Drawing)
						view.Draw = func(s *page.Sketch) { scales[i] = d.picture(s, i).scale }
						p.Layers[0] = view
					}
				}
				drawn(t, f)
				for _, s := range scales {
					// The heights of stacked views are in proportion but for the rounding
					// of their labels.
					if math.Abs(s/scales[0]-1) > 1e-9 {
						t.Fatalf("scales %v, want all alike", scales)
					}
				}
			})
		}
	}
}

// The course follows the axes with the lengths given.
func TestCourse(t *testing.T) {
	t.Parallel()
	c := twoPiece(t)
	c.Lengths = []float64{680, 940, 1270, 330}
	course := c.course()
	for k := 1; k <= 2; k++ {
		way := r3.Sub(course[k+1], course[k])
		if got := r3.Norm(way); !near(got, c.Lengths[k], 1e-9) {
			t.Errorf("shaft %d is %g long, want %g", k+1, got, c.Lengths[k])
		}
	}
	down, right := kinematics.Slopes(r3.Sub(course[3], course[2]))
	if !near(down/kinematics.Degree, 6.1, 1e-9) || !near(right/kinematics.Degree, 1.2, 1e-9) {
		t.Errorf("rear shaft falls by %g° and drifts by %g°, want 6.1° and 1.2°", down/kinematics.Degree, right/kinematics.Degree)
	}
	// Down is down on the page in the side view, right is down in the top view.
	if v := sideView.up(course[3]) - sideView.up(course[2]); v >= 0 {
		t.Errorf("side view: the shaft rises by %g, want it to fall", v)
	}
	if v := topView.up(course[3]) - topView.up(course[2]); v >= 0 {
		t.Errorf("top view: the shaft drifts up by %g, want down, which is right", v)
	}
}

func TestViewsSayWhatIsMeasured(t *testing.T) {
	t.Parallel()
	c := newCase(t, 0, [][2]float64{{3.4, 0}, {-7.9, 1.25}, {4, -2}}, -76)
	f, err := Views(c, page.Size{})
	if err != nil {
		t.Fatal(err)
	}
	svg := drawn(t, f)
	for _, want := range []string{"3.40° down", "7.90° up", "1.25° right", "2.00° left", "phase −76°", "β₁ = 11.37°", "11.30° as seen", "1.25° as seen"} {
		if !strings.Contains(svg, ">"+want+"<") {
			t.Errorf("figure does not say %q", want)
		}
	}
	// The true angle of 11.3° in the side view with 1.25° in the top view, by the
	// Pythagorean theorem for small angles.
	if got := c.Analysis.Bends[0].Angle / kinematics.Degree; !near(got, math.Hypot(11.3, 1.25), 0.02) {
		t.Errorf("working angle %g°, want about 11.37°", got)
	}
	if !strings.HasPrefix(f.Caption, "Lengths are not known") {
		t.Errorf("caption %q does not say that lengths are not known", f.Caption)
	}
}

// Tags do not overlap and stay in their panel, however many there are, and give up their
// names where there is no room.
func TestTagsKeepApart(t *testing.T) {
	t.Parallel()
	const name = "rear shaft with sliding yoke"
	for _, test := range []struct {
		shafts int
		named  bool
		angles int // written
	}{{3, true, 2}, {10, false, 9}, {12, false, 11}, {24, false, 12}, {64, false, 16}} {
		for _, size := range []page.Size{{}, page.Slide, page.A4, {Width: 792, Height: 612, Text: 9.5, Border: 42}} {
			t.Run(fmt.Sprintf("%d shafts on %v", test.shafts, size), func(t *testing.T) {
				slopes := make([][2]float64, test.shafts)
				for k := range slopes {
					slopes[k] = [2]float64{float64(k % 2), float64(-k % 3)}
				}
				c := newCase(t, 0, slopes)
				for k := range c.Joints {
					c.Joints[k] = name
				}
				f, err := Views(c, size)
				if err != nil {
					t.Fatal(err)
				}
				if size != (page.Size{}) {
					f.Size = size
				}
				texts := inks(t, f)
				named, angles := false, 0
				for i, a := range texts {
					named = named || a.text == name
					if strings.HasPrefix(a.text, "β") {
						angles++
					}
					if !onPage(a.Rectangle, f.Size) {
						t.Errorf("text %q at %v leaves the page", a.text, a.Rectangle)
					}
					for _, b := range texts[:i] {
						if overlap(a.Rectangle, b.Rectangle) {
							t.Errorf("texts %q at %v and %q at %v overlap", a.text, a.Rectangle, b.text, b.Rectangle)
						}
					}
				}
				if size == (page.Size{}) && (named != test.named || angles != test.angles) {
					t.Errorf("named %v, %d angles: want %v, %d", named, angles, test.named, test.angles)
				}
			})
		}
	}
}

// What reaches beyond the joints stays in the panel of its view, however small that is.
func TestViewsStayInTheirPanels(t *testing.T) {
	t.Parallel()
	c := newCase(t, 1000, [][2]float64{{2, -3}, {9, 6}, {17, -8}, {5, 4}}, 20, 0)
	c.Lengths = []float64{300, 800, 900, 300}
	d := newViewDrawing(c)
	for _, size := range []page.Size{{Width: 252, Height: 170, Text: 6, Border: 6}, page.Slide, page.Single} {
		f := &page.Figure{Title: "views", Rows: d.sideBySide(1), Size: size}
		for i, p := range f.Rows[0].Panels {
			p.Add(page.Drawing{Draw: func(s *page.Sketch) {
				box := d.picture(s, i).box()
				if box.Min.X < s.Min.X-slack || box.Max.X > s.Max.X+slack || box.Min.Y < s.Min.Y-slack || box.Max.Y > s.Max.Y+slack {
					t.Errorf("%s: view %d is drawn in %v, its panel is %v", size, i+1, box, s.Rectangle)
				}
			}})
		}
		drawn(t, f)
	}
}
