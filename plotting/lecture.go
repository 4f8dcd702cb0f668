package plotting

import (
	"fmt"

	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// A Page is a figure of a set, with a short name that can be part of a file name.
type Page struct {
	Name string
	*page.Figure
}

// LectureTitle is what the pages of Lecture are about together.
const LectureTitle = "Cardan joints: from one joint to cancellation"

// Lecture returns a set of pages that takes a class from one joint to cancellation, and
// to what unequal angles, wrong phase and twisted planes leave. The drivelines on it are
// invented.
func Lecture(size page.Size) ([]Page, error) {
	if size == page.Slide {
		size.Text *= 0.75 // there is more on them than on other slides
	}
	var pages []Page
	for i, l := range lessons {
		c, err := l.example.analysed()
		if err != nil {
			return nil, err
		}
		rows, err := l.rows(c)
		if err != nil {
			return nil, err
		}
		pages = append(pages, Page{l.name, &page.Figure{
			Title:    fmt.Sprintf("%d  %s", i+1, l.title),
			Subtitle: c.Name,
			Rows:     rows,
			Caption:  l.lesson,
			Size:     size,
		}})
	}
	return pages, nil
}

// A lesson is what one page teaches, on an example.
type lesson struct {
	name, title string
	example     example
	rows        func(*Case) ([]page.Row, error)
	lesson      string
}

var lessons = []lesson{
	{
		"one-joint", "One joint: even in, uneven out",
		example{"One joint at 30°", [][2]float64{{0, 0}, {30, 0}}, nil},
		viewAndSpeed,
		"Twice a turn the driven shaft runs ahead and falls behind. It is slowest, cos β, while the driving ears stand square to the plane of the two shafts, and fastest, 1/cos β, while they lie in it.",
	},
	{
		"square", "Small angle, small trouble: it grows with the square",
		example{"One joint at 5°, 10° and 20°", [][2]float64{{0, 0}, {20, 0}}, nil},
		squares,
		"Half the angle leaves a quarter of the fluctuation. The first-order rule, swing = β², is a little too small: by 1 % at 14°.",
	},
	{
		"cancellation", "Two joints cancel",
		example{"Two joints at 12° in one plane, ears of the middle shaft in line", [][2]float64{{0, 0}, {12, 0}, {0, 0}}, nil},
		viewAndSpeed,
		"Equal angles in one plane, the ears of the middle shaft in line: what the first joint does, the second undoes, in every position. Only the middle shaft turns unevenly.",
	},
	{
		"unequal-angles", "Unequal angles leave the difference of their squares",
		example{"12° and 8° in one plane, ears in line", [][2]float64{{0, 0}, {12, 0}, {4, 0}}, nil},
		viewsAndVectors,
		"The arrows are as long as the squares of the angles. What is left acts like one joint at about √(12² − 8²) = 8.9°, not at the 4° by which the angles differ.",
	},
	{
		"wrong-phase", "Wrong phase: the joints add",
		example{"Two joints at 12° in one plane, ears of the middle shaft a quarter turn out", [][2]float64{{0, 0}, {12, 0}, {0, 0}}, []float64{90}},
		viewsAndVectors,
		"The angles are equal and still nothing cancels: both arrows point the same way. What is left acts like one joint at √2 · 12° = 17°.",
	},
	{
		"twisted-planes", "Twisted planes: ears in line are wrong again",
		example{"First joint 12° down, second 12° to the right, ears in line", [][2]float64{{0, 0}, {12, 0}, {12, 12}}, nil},
		viewsAndVectors,
		"The planes of the two bends stand square to each other, and an arrow turns twice as far as its plane. With the ears clocked by 90°, the angle between the planes, one joint at 2.5° would be left.",
	},
	{
		"middle-shaft", "Cancelled ends, and yet the middle shakes",
		example{"Two joints at 12° in one plane, ears in line, 1000 rev/min", [][2]float64{{0, 0}, {12, 0}, {0, 0}}, nil},
		accelerations,
		"The ends turn evenly; the middle shaft does not, driving or coasting. Its inertia loads both joints, so equal angles have a limit too.",
	},
	{
		"three-joints", "Three joints can cancel: the arrows close a triangle",
		example{"Three joints at 20° in one plane, ears of both middle shafts 30° out of line", [][2]float64{{0, 0}, {20, 0}, {0, 0}, {20, 0}}, []float64{30, 30}},
		viewsAndVectors,
		"Each step of phase turns the next arrow by twice as much. By the vector sum nothing is left; exactly, what one joint at 0.6° leaves, for the sum is first-order theory.",
	},
	{
		"torque", "Even speed is not all: what torque does",
		example{"Four drivelines at 1000 N·m, every shaft 1 m long, drawn five times as steep", evenLines[3].slopes, evenLines[3].phases},
		speedsAndForces,
		"All four turn evenly, and yet torque shakes two of them, twice a turn, at any speed: the couples of the joints cancel where the shafts before and behind a shaft are parallel, as in Z. Three joints in one plane, ears in line, are never even and quiet at once. 3°, 4°, −5° are, with the ears of the first middle shaft a quarter turn out.",
	},
}

// An example is a driveline by the slopes (down, right) of its shafts and the phases of
// those between two joints, in deg.
type example struct {
	name   string
	slopes [][2]float64
	phases []float64
}

// analysed returns the example as a case at 1000 rev/min.
func (e example) analysed() (*Case, error) {
	c := &Case{Name: e.name, RPM: 1000}
	shafts := make([]kinematics.Shaft, len(e.slopes))
	for k, slope := range e.slopes {
		shafts[k].Axis = kinematics.AxisFromSlopes(slope[0]*kinematics.Degree, slope[1]*kinematics.Degree)
		if 0 < k && k <= len(e.phases) {
			shafts[k].Phase = e.phases[k-1] * kinematics.Degree
		}
		c.Shafts = append(c.Shafts, fmt.Sprintf("shaft %d", k+1))
		if k > 0 {
			c.Joints = append(c.Joints, fmt.Sprintf("joint %d", k))
		}
	}
	var err error
	if c.Driveline, err = kinematics.New(shafts, nil); err != nil {
		return nil, err
	}
	c.Analysis = c.Driveline.Analyse()
	return c, nil
}

// viewAndSpeed shows the driveline with all its data, and how evenly the shafts turn.
func viewAndSpeed(c *Case) ([]page.Row, error) {
	side := newViewDrawing(c).alone()
	return []page.Row{{Panels: []*page.Panel{side, c.lessonSpeed()}, Widths: []float64{1, 1.2}}}, nil
}

// viewsAndVectors shows the driveline from two sides, what its joints add and how evenly
// the shafts turn.
func viewsAndVectors(c *Case) ([]page.Row, error) {
	sum := c.vectorPanel(0, nil) // its numbers are those of the joints in the view
	sum.Title = "What the joints add, and their sum"
	views := newViewDrawing(c)
	views.plain = true
	return append(views.sideBySide(1), page.Row{Panels: []*page.Panel{sum, c.lessonSpeed()}, Widths: []float64{1, 1.6}}), nil
}

func accelerations(c *Case) ([]page.Row, error) {
	f, err := Acceleration(c)
	if err != nil {
		return nil, err
	}
	return f.Rows, nil
}

// lessonSpeed shows all shafts, with what is left under one name on all pages.
func (c *Case) lessonSpeed() *page.Panel {
	p := speed.everyShaft(c.over(Driving), "what is left")
	p.Title = "How evenly the shafts turn"
	return p
}

// squares shows the speed behind one joint at three angles, and the swing against the
// angle.
func squares(*Case) ([]page.Row, error) {
	speeds := speed.panel(Driving)
	speeds.Title = "Speed behind the joint"
	for i, beta := range []float64{20, 10, 5} {
		m, err := kinematics.SingleJoint(beta*kinematics.Degree, 0)
		if err != nil {
			return nil, err
		}
		speeds.Add(speed.curve(fmt.Sprintf("β = %.0f°", beta), m, page.Pen(i)))
	}
	swings := &page.Panel{
		Title: "Swing: fastest less slowest",
		X:     page.Axis{Label: "working angle β, °", Range: page.Interval{Min: 0, Max: 30}},
		Y:     page.Axis{Label: "% of the speed"},
	}
	var exact, first plotter.XYs
	for deg := 0.0; deg <= 30; deg++ {
		beta := deg * kinematics.Degree
		m, err := kinematics.SingleJoint(beta, 0)
		if err != nil {
			return nil, err
		}
		exact = append(exact, plotter.XY{X: deg, Y: 100 * m.Nonuniformity()})
		first = append(first, plotter.XY{X: deg, Y: 100 * beta * beta})
	}
	swings.Add(
		page.Curve{Name: "exact: sin β · tan β", Points: exact, Pen: page.Accent()},
		page.Curve{Name: "first order: β²", Points: first, Pen: theoryLine},
	)
	return []page.Row{{Panels: []*page.Panel{speeds, swings}, Widths: []float64{1.5, 1}}}, nil
}
