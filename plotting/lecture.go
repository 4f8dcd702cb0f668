package plotting

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

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
// invented. Up to two working angles, in radians within 1° to 45°, stand in place of the
// invented ones: of the joint that a lesson is about, and of another that is unequal to it.
//
// On a page that is wider than high the last row of panels stands alone: what lessons have
// before it asks the question, on a page of its own. A page that is higher holds all of a
// lesson at its top, and leaves the rest to notes.
func Lecture(size page.Size, angles ...float64) ([]Page, error) {
	for i, a := range angles {
		if !(a >= kinematics.Degree && a <= 45*kinematics.Degree*(1+1e-9)) {
			return nil, fmt.Errorf("lecture: angle %d: %s: want 1° to 45°", i+1, degrees(a))
		}
	}
	wide := size.Width > size.Height
	if size == page.Slide {
		size.Least = 0 // smaller letters could not be read from the last row
	}
	var pages []Page
	for i, l := range lessonsWith(angles) {
		c, err := l.example.analysed()
		if err != nil {
			return nil, err
		}
		rows, err := l.rows(c)
		if err != nil {
			return nil, err
		}
		held := size
		if !wide {
			held = size.Holding(page.Size{Width: page.Single.Width, Height: page.Single.Height + 80*vg.Length(len(rows)-1), Border: page.Single.Border})
		}
		add := func(name, title, caption string, rows []page.Row) {
			pages = append(pages, Page{name, &page.Figure{
				Title: fmt.Sprintf("%d  %s", i+1, title), Subtitle: c.Name, Rows: rows, Caption: caption, Size: held,
			}})
		}
		last := len(rows) - 1
		if wide && last > 0 {
			add(l.name+"-question", l.ask, "", rows[:last])
			rows = rows[last:]
		}
		add(l.name, l.title, l.lesson, rows)
	}
	return pages, nil
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

// viewAndSpeed shows the driveline from the side, and how evenly the shafts turn.
func viewAndSpeed(c *Case) ([]page.Row, error) {
	side := newPlainViews(c).alone()
	side.Title = "Side view"
	return []page.Row{{Panels: []*page.Panel{side, c.lessonSpeed()}, Widths: []float64{1, 1.2}}}, nil
}

// viewsAndVectors shows the driveline from two sides, what its joints add and how evenly
// the shafts turn.
func viewsAndVectors(c *Case) ([]page.Row, error) {
	d := c.vectorDiagram(0)
	sum := d.panel(d.reach(), nil) // its numbers are those of the joints in the view
	sum.Title = "What the joints add, and their sum"
	return append(newPlainViews(c).sideBySide(1), page.Row{Panels: []*page.Panel{sum, c.lessonSpeed()}, Widths: []float64{1, 1.6}}), nil
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

// squares shows the speed behind one joint at its angle, half and a quarter of it, and the
// swing against the angle.
func squares(c *Case) ([]page.Row, error) {
	speeds := speed.panel(Driving)
	speeds.Title = "Speed behind the joint"
	largest := c.Driveline.WorkingAngle(0)
	for i, part := range []float64{1, 2, 4} {
		beta := largest / part
		m, err := kinematics.SingleJoint(beta, 0)
		if err != nil {
			return nil, err
		}
		speeds.Add(speed.curve("β = "+fewest(beta/kinematics.Degree)+"°", m, page.Pen(i)))
	}
	end := max(30, math.Ceil(largest/kinematics.Degree))
	swings := &page.Panel{
		Title: "Swing: fastest less slowest",
		X:     page.Axis{Label: "working angle β, °", Range: page.Interval{Min: 0, Max: end}},
		Y:     page.Axis{Label: "% of the speed"},
	}
	var exact, first plotter.XYs
	for deg := 0.0; deg <= end; deg++ {
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
