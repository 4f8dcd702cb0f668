package kinematics

import (
	"fmt"
	"math"
)

// RangeError reports a number that a caller gave and that cannot be used.
type RangeError struct {
	Field string  // path of the value, such as "shafts[2].Phase"
	Value float64 // as given, in Unit
	Unit  string  // "" for a plain number
	Want  string  // what would have been accepted
}

func (e *RangeError) Error() string {
	if e.Unit == "" {
		return fmt.Sprintf("%s: %.10g: want %s", e.Field, e.Value, e.Want)
	}
	return fmt.Sprintf("%s: %.10g %s: want %s", e.Field, e.Value, e.Unit, e.Want)
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
