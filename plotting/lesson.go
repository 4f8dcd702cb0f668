package plotting

// A Lesson is a driveline of the lecture and what it teaches, as a starting point for a
// class that turns its angles.
type Lesson struct {
	Name, Title string
	Text        string       // what there is to see
	Slopes      [][2]float64 // of every shaft, down and right, in deg
	Phases      []float64    // of the shafts between two joints, in deg; those that are missing are 0
}

// Lessons returns the lessons of Lecture, in the same order.
func Lessons() []Lesson {
	list := make([]Lesson, len(lessons))
	for i, l := range lessons {
		list[i] = Lesson{l.name, l.title, l.lesson, l.example.slopes, l.example.phases}
	}
	return list
}
