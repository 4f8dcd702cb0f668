package plotting

import (
	"fmt"
	"math"
	"strconv"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// A Lesson is a driveline of the lecture and what it teaches, as a starting point for a
// class that turns its angles.
type Lesson struct {
	Name, Title string
	Ask         string       // what the class is asked before it sees
	Text        string       // what there is to see
	Slopes      [][2]float64 // of every shaft, down and right, in deg
	Phases      []float64    // of the shafts between two joints, in deg; those that are missing are 0
}

// Lessons returns the lessons of Lecture, in the same order.
func Lessons() []Lesson {
	var list []Lesson
	for _, l := range lessonsWith(nil) {
		list = append(list, Lesson{l.name, l.title, l.ask, l.lesson, l.example.slopes, l.example.phases})
	}
	return list
}

// A lesson is what one page teaches, or two, on an example.
type lesson struct {
	name, title string
	ask         string // before anything is shown or moved
	example     example
	rows        func(*Case) ([]page.Row, error)
	lesson      string
}

// lessonsWith returns the lessons, with up to two working angles in radians in place of
// those that lessons have by themselves. Numbers in their texts are computed.
func lessonsWith(angles []float64) []lesson {
	alone, halved, pair, other, three := 30.0, 20.0, 12.0, 8.0, 20.0
	if len(angles) > 0 {
		pair = angles[0] / kinematics.Degree
		alone, halved, three = pair, pair, pair
		other = pair * 2 / 3
	}
	if len(angles) > 1 {
		other = angles[1] / kinematics.Degree
	}

	unequal := example{fmt.Sprintf("%s° and %s° in one plane, ears in line", fewest(pair), fewest(other)), [][2]float64{{0, 0}, {pair, 0}, {pair - other, 0}}, nil}
	equal := [][2]float64{{0, 0}, {pair, 0}, {0, 0}}
	wrong := example{fmt.Sprintf("Two joints at %s° in one plane, ears of the middle shaft a quarter turn out", fewest(pair)), equal, []float64{90}}
	twisted := example{fmt.Sprintf("First joint %s° down, second %s° to the right, ears in line", fewest(pair), fewest(pair)), [][2]float64{{0, 0}, {pair, 0}, {pair, pair}}, nil}
	clocked := example{"", twisted.slopes, []float64{90}}
	triangle := example{fmt.Sprintf("Three joints at %s° in one plane, ears of both middle shafts 30° out of line", fewest(three)), [][2]float64{{0, 0}, {three, 0}, {0, 0}, {three, 0}}, []float64{30, 30}}

	return []lesson{
		{
			"one-joint", "One joint: even in, uneven out",
			"The first shaft turns evenly. Does the second?",
			example{fmt.Sprintf("One joint at %s°", fewest(alone)), [][2]float64{{0, 0}, {alone, 0}}, nil},
			viewAndSpeed,
			"Twice a turn the driven shaft runs ahead and falls behind. It is slowest, cos β, while the driving ears stand square to the plane of the two shafts, and fastest, 1/cos β, while they lie in it.",
		},
		{
			"square", "Small angle, small trouble: it grows with the square",
			"Halve the angle. What becomes of the swing, and where does the textbook part from it?",
			example{fmt.Sprintf("One joint at %s°, %s° and %s°", fewest(halved/4), fewest(halved/2), fewest(halved)), [][2]float64{{0, 0}, {halved, 0}}, nil},
			squares,
			"Half the angle leaves a quarter of the swing, nearly. The first-order rule, β², is 1 % too small at 14°.",
		},
		{
			"cancellation", "Two joints cancel",
			"Two equal angles, ears in line. What is left at the last shaft?",
			example{fmt.Sprintf("Two joints at %s° in one plane, ears of the middle shaft in line", fewest(pair)), equal, nil},
			viewAndSpeed,
			"Equal angles in one plane, the ears of the middle shaft in line: what the first joint does, the second undoes, in every position. Only the middle shaft turns unevenly.",
		},
		{
			"unequal-angles", "Unequal angles leave the difference of their squares",
			fmt.Sprintf("%s° and %s°: is what is left like one joint at %s°?", fewest(pair), fewest(other), fewest(math.Abs(pair-other))),
			unequal,
			viewsAndVectors,
			fmt.Sprintf("The arrows are as long as the squares of the angles. What is left acts like one joint at about √(%s² − %s²) = %s°, not at the %s° by which the angles differ.",
				fewest(max(pair, other)), fewest(min(pair, other)), tenths(unequal.left().Equivalent), fewest(math.Abs(pair-other))),
		},
		{
			"wrong-phase", "Wrong phase: the joints add",
			"The angles are equal, the ears are not in line: what is left?",
			wrong,
			viewsAndVectors,
			fmt.Sprintf("The angles are equal and still nothing cancels: both arrows point the same way. What is left acts like one joint at about √2 · %s° = %s°.",
				fewest(pair), tenths(wrong.left().Equivalent)),
		},
		{
			"twisted-planes", "Twisted planes: ears in line are wrong again",
			fmt.Sprintf("%s° down, then %s° right: are ears in line right?", fewest(pair), fewest(pair)),
			twisted,
			viewsAndVectors,
			fmt.Sprintf("The planes of the two bends stand square to each other, and an arrow turns twice as far as its plane. With the ears clocked by 90°, the angle between the planes, one joint at %s° would be left.",
				tenths(clocked.left().Exact)),
		},
		{
			"middle-shaft", "Cancelled ends, and yet the middle shakes",
			"The ends turn evenly. Is all well then?",
			example{fmt.Sprintf("Two joints at %s° in one plane, ears in line, 1000 rev/min", fewest(pair)), equal, nil},
			accelerations,
			"The middle shaft turns unevenly, driving or coasting. Its inertia loads both joints: equal angles have a limit too.",
		},
		{
			"three-joints", "Three joints can cancel: the arrows close a triangle",
			fmt.Sprintf("Three joints at %s°. Can three arrows come to nothing?", fewest(three)),
			triangle,
			viewsAndVectors,
			fmt.Sprintf("Each step of phase turns the next arrow by twice as much. By the vector sum nothing is left; exactly, what one joint at %s° leaves, for the sum is first-order theory.",
				tenths(triangle.left().Exact)),
		},
		{
			"torque", "Even speed is not all: what torque does",
			"Nothing is left of the speed. Is nothing left of the forces?",
			example{"Four drivelines at 1000 N·m, every shaft 1 m long, drawn five times as steep", evenLines[3].slopes, evenLines[3].phases},
			speedsAndForces,
			"Torque shakes two of the four, twice a turn. A shaft is quiet between two parallel ones, as in Z. Three joints in one plane, ears in line, are never even and quiet at once; 3°, 4°, −5°, clocked, are.",
		},
	}
}

// left is what an example leaves at the last shaft.
func (e example) left() kinematics.SecondOrder {
	c, err := e.analysed()
	if err != nil {
		panic(err) // the slopes are below 90°
	}
	return c.Analysis.SecondOrder
}

// tenths writes an angle given in radians in degrees, to a tenth.
func tenths(a float64) string {
	return strconv.FormatFloat(math.Round(10*a/kinematics.Degree)/10, 'f', -1, 64)
}
