package limits

// Limit is a bound on one quantity, at one speed.
type Limit struct {
	Name      string  // one of survey.LimitNames
	Quantity  string  // what is bounded, such as "working angle"
	Value     float64 // in Unit
	Unit      string  // as of the Quantity
	Sense     Sense
	Class     Class
	AppliesTo string // such as "each odd joint"
	Basis     string // who prints it; NoSource; SetByFile
	Why       string // why the set has this value; "" when the file sets it
}

// Sense says on which side of a limit a value must stay. A value on the limit
// keeps it.
type Sense string

const (
	AtMost  Sense = "at most"
	AtLeast Sense = "at least"
)

// Bases of limits that nobody is known to print.
const (
	NoSource  = "common practice, no source"
	SetByFile = "set by the file"
)

// rounding is in what proportion two values that should be equal may differ: far
// above the rounding of a difference of angles, far below any reading.
const rounding = 1e-9

// Kept reports whether the value v keeps the limit. A value that lies on the
// limit but for rounding does.
func (l Limit) Kept(v float64) bool {
	if l.Sense == AtLeast {
		return v >= l.Value*(1-rounding)
	}
	return v <= l.Value*(1+rounding)
}

// Margin returns how far inside the limit the value v lies, in parts of the limit;
// negative: how far outside.
func (l Limit) Margin(v float64) float64 {
	if l.Sense == AtLeast {
		return v/l.Value - 1
	}
	return 1 - v/l.Value
}

// tighter reports whether l allows less than other.
func (l Limit) tighter(other Limit) bool {
	if l.Sense == AtLeast {
		return l.Value > other.Value
	}
	return l.Value < other.Value
}

// newLimit returns the limit of the given name.
func newLimit(name string, value float64, basis, why string) Limit {
	k := kindOf(name)
	return Limit{
		Name: name, Quantity: k.called, Value: value, Unit: k.Unit, Sense: k.sense, Class: k.class,
		AppliesTo: k.appliesTo, Basis: basis, Why: why,
	}
}
