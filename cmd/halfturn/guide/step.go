package guide

import "halfturn/plotting"

// Step is one thing to read, or to say, on the way through a driveline.
type Step struct {
	ID    string         // unique in its driveline: "shaft-1-slope"
	Title string         // what is read
	Where string         // where the gauge, the tape or the eye goes
	Notes []Note         // what may come in the way
	Place plotting.Place // what the drawing marks; zero: there is none

	Fields []Field // to fill in, the first one first
	// Skipped says what is taken for granted where the step is skipped; "": it cannot
	// be.
	Skipped string
	// OnPaper is whether it stands on the worksheet only: no field of the file holds it by
	// itself.
	OnPaper bool
}

// Note is advice that is wanted in some cases.
type Note struct{ When, Do string }

// Field is a value to fill in. On the page the first may have buttons beside it.
type Field struct {
	Path  string // in the driveline file; "" on paper only
	Label string
	Unit  string
	Text  bool // holds words, not a number
	// Once is the question that the field answers where not everybody is asked; "":
	// it always stands there.
	Once string
	// Words are the two directions, the one that is positive first, which stand for a
	// sign; nil: it has none.
	Words []Word
	// Choices are values that most have.
	Choices []Word
	// Options are all values that there are; the field is no text then.
	Options []Word
}

// Word is a word for a person and what it stands for in a field.
type Word struct{ Text, Value string }

// The directions.
var (
	fallsRises = []Word{{"falls toward the driven end", "down"}, {"rises toward the driven end", "up"}}
	rightLeft  = []Word{{"right", "right"}, {"left", "left"}}
	clockwise  = []Word{{"clockwise", "clockwise"}, {"anticlockwise", "anticlockwise"}}
)
