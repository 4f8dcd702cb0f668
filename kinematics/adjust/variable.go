package adjust

import (
	"fmt"
	"math"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Variable is one quantity of a survey and the values it runs through; get one
// from ParseVariable. As text:
//
//	variable = quantity "=" from ":" to [ ":" step ]
//	quantity = "rpm"
//	         | shaft "." ( "down" | "incline" | "right" | "phase" )
//	         | joint ".at." ( "along" | "right" | "down" )
//	         | change "(" shaft or joint ")"
//
// The quantity of a shaft or joint is what the file gives; everything else stays
// as it is. A change is one of survey.Changes, counts from 0 as measured and
// moves the geometry as on the vehicle:
//
//	rpm=500:6000:50
//	rear shaft.down=-2:10:0.1
//	centre joint.at.down=0:40
//	wedge(axle pinion)=-3:3:0.25
//
// Names are those of the file and may hold spaces, dots and brackets. Without a
// step there are DefaultSteps of them.
type Variable struct {
	Quantity       string // as written
	Unit           string // "rpm", "deg", "mm" or "in"
	From, To, Step float64

	field  *field // nil for a change
	part   int    // the shaft or joint of the field
	on     string // its name
	change survey.Change
}

// Words names the quantity as a sentence does: "phase of rear shaft".
func (v Variable) Words() string {
	switch {
	case v.field != nil:
		return v.field.words + v.on
	case v.change.Change != "":
		return kindOf(v.change.Change).words + " " + v.change.On
	}
	return v.Quantity // of a variable that was made by hand
}

// Rotation reports whether the quantity is an angle of rotation, which is the same
// again after half a turn, and not one between shafts.
func (v Variable) Rotation() bool {
	return v.field == shaftFields["phase"] || v.change.Change == survey.ChangeClocking
}

// DefaultSteps of a variable that names no step.
const DefaultSteps = 200

// finestStep is far below what can be made or measured of anything, and far above
// the digits that grid drops.
const finestStep = 1e-6

// check refuses a Variable that ParseVariable would not have returned.
func (v Variable) check() error {
	steps := (v.To - v.From) / v.Step
	if v.field == nil && v.change.Change == "" || !(v.Step > 0 && steps > 0 && steps <= survey.MaxSteps) {
		return fmt.Errorf("variable %q from %g to %g by %g: want one of ParseVariable", v.Quantity, v.From, v.To, v.Step)
	}
	return nil
}

// Values returns the values of the variable, From first.
func (v Variable) Values() []float64 { return grid(v.From, v.To, v.Step) }

// Present returns the value of the variable in s; it is 0 for a change, and for
// a speed that is not given.
func (v Variable) Present(s *survey.Survey) float64 {
	if v.field == nil {
		return 0
	}
	return v.field.get(s, v.part)
}

// field is a number of a survey that can be varied.
type field struct {
	words string // up to the name of the part
	unit  func(s *survey.Survey) string
	get   func(s *survey.Survey, part int) float64
	// set changes a complete survey of which nothing but the lists of shafts
	// and joints may be overwritten.
	set      func(s *survey.Survey, part int, value float64)
	position bool // of a joint, which only some surveys have
}

var speed = field{
	words: "speed of the first shaft",
	unit:  func(*survey.Survey) string { return "rpm" },
	get:   func(s *survey.Survey, _ int) float64 { return s.ShaftRPM() },
	set:   func(s *survey.Survey, _ int, value float64) { s.SetRPM(value) },
}

// Fields by the name that follows the shaft or joint and a dot.
var (
	shaftFields = map[string]*field{
		"down": {
			words: "slope of ",
			unit:  inDegrees,
			get:   func(s *survey.Survey, k int) float64 { down, _ := slopes(s, k); return down },
			set:   func(s *survey.Survey, k int, v float64) { s.Shafts[k].Slope = survey.Down(v) },
		},
		"incline": {
			words: "inclination of ",
			unit:  inDegrees,
			get:   func(s *survey.Survey, k int) float64 { return kinematics.Incline(s.Axes()[k]) / kinematics.Degree },
			set:   func(s *survey.Survey, k int, v float64) { s.Shafts[k].Slope = survey.Incline(v) },
		},
		"right": {
			words: "heading of ",
			unit:  inDegrees,
			get:   func(s *survey.Survey, k int) float64 { _, right := slopes(s, k); return right },
			set:   func(s *survey.Survey, k int, v float64) { s.Shafts[k].Heading = survey.Right(v) },
		},
		"phase": {
			words: "phase of ",
			unit:  inDegrees,
			get:   func(s *survey.Survey, k int) float64 { return s.Shafts[k].PhaseDeg.Mean() },
			set:   func(s *survey.Survey, k int, v float64) { s.Shafts[k].PhaseDeg = survey.Readings{v} },
		},
	}
	jointFields = map[string]*field{
		"at.along": coordinate("distance along the flow of ", func(p *survey.Point) *float64 { return &p.Along }),
		"at.right": coordinate("distance to the right of ", func(p *survey.Point) *float64 { return &p.Right }),
		"at.down":  coordinate("distance down of ", func(p *survey.Point) *float64 { return &p.Down }),
	}
)

func inDegrees(*survey.Survey) string { return "deg" }

// coordinate is a field of the position of a joint, which must have one.
func coordinate(words string, of func(*survey.Point) *float64) *field {
	return &field{
		words: words,
		unit:  func(s *survey.Survey) string { return string(s.Units) },
		get:   func(s *survey.Survey, k int) float64 { return *of(s.Joints[k].At) },
		set: func(s *survey.Survey, k int, v float64) {
			p := *s.Joints[k].At
			*of(&p) = v
			s.Joints[k].At = &p
		},
		position: true,
	}
}

// slopes returns the side-view slope and the heading of a shaft in degrees.
func slopes(s *survey.Survey, k int) (down, right float64) {
	down, right = kinematics.Slopes(s.Axes()[k])
	return down / kinematics.Degree, right / kinematics.Degree
}

// grid returns from, from + step … to the last that is not beyond to.
func grid(from, to, step float64) []float64 {
	values := make([]float64, 1+int(math.Floor((to-from)/step+1e-9))) // whole steps end on the last
	for i := range values {
		// Sums of decimal steps leave digits that nobody wrote. A billionth of
		// a degree, mm or rpm is far below what can be made or measured.
		values[i] = math.Round((from+float64(i)*step)*1e9)/1e9 + 0
	}
	return values
}
