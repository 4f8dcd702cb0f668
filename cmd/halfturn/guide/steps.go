package guide

import (
	"fmt"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
	"halfturn/plotting"
)

// Shape is what the steps of a driveline depend on.
type Shape struct {
	Shafts []string          // their names
	Names  []string          // of the joints, one fewer
	Joints []kinematics.Kind // of what kind they are
	Unit   string            // of lengths
}

// Shape returns the shape of the arrangement.
func (a Arrangement) Shape() Shape {
	s := Shape{Shafts: a.Shafts, Unit: "mm"}
	for _, j := range a.Joints {
		s.Names, s.Joints = append(s.Names, j.Name), append(s.Joints, j.Kind)
	}
	return s
}

// Steps returns what is read of a driveline, in the order of the power flow.
func (s Shape) Steps() []Step {
	steps := []Step{s.joints()}
	shafts := len(s.Shafts) > 2 // between two joints: else no length matters
	if shafts {
		steps = append(steps, units)
	}
	for k := range s.Shafts {
		steps = append(steps, s.slope(k))
		if s.between(k) {
			steps = append(steps, s.length(k), s.sideways(k), s.phase(k))
		}
	}
	if shafts {
		steps = append(steps, s.ends())
	}
	steps = append(steps, s.speed(), s.torque(), s.gauge(), s.name())
	if shafts {
		steps = append(steps, s.splines())
	}
	return append(steps, s.otherHeight())
}

// between reports whether shaft k stands between two joints.
func (s Shape) between(k int) bool { return 0 < k && k < len(s.Shafts)-1 }

// kinds are the kinds of joints in the words of the shop.
var kinds = []Word{
	{"single cross", string(kinematics.Cardan)},
	{"constant-velocity", string(kinematics.ConstantVelocity)},
	{"double-cardan, two crosses in one yoke", string(kinematics.DoubleCardan)},
}

func (s Shape) joints() Step {
	step := Step{
		ID: "joints", Title: "Joints",
		Where:   "Of what kind is every joint? Most have one cross.",
		Skipped: "They stay as they are.",
	}
	for k, name := range s.Names {
		step.Fields = append(step.Fields, Field{Path: fmt.Sprintf("joints.%d.kind", k), Label: name, Options: kinds})
	}
	return step
}

func (s Shape) slope(k int) Step {
	name := s.Shafts[k]
	step := Step{
		ID: fmt.Sprintf("shaft-%d-slope", k), Title: "Slope of the " + name,
		Place: plotting.Place{What: plotting.MeasuredSlope, Shaft: k},
		Fields: []Field{
			{Path: fmt.Sprintf("shafts.%d.incline", k), Label: "gauge reads", Unit: "°", Words: fallsRises},
			{Path: fmt.Sprintf("shafts.%d.turned", k), Label: "gauge turned end for end reads", Unit: "°", Words: fallsRises, Once: "Read once more, the gauge turned end for end"},
		},
	}
	switch {
	case s.between(k):
		step.Where = "Lay the gauge along the tube, where it is clean and straight."
	case k == 0:
		step.Where = "Lay the gauge on a flat of the housing that runs along the output shaft, or stand it upright on the face of the output flange, which reads the same number."
	default:
		step.Where = "Lay the gauge on a flat of the housing that runs along the pinion shaft, or stand it upright on the face of the pinion flange, which reads the same number."
	}
	step.Notes = []Note{
		{"Which way does it slope?", "Go by the end that the power leaves by. On a flange face the top leans toward the driven end where the shaft falls toward it."},
		{"The gauge shows 87 instead of 3?", "It counts from upright. Enter what is missing to 90: 3."},
		{"The floor slopes?", "No matter, as long as the vehicle stays where it is for all readings."},
		{"Why turn the gauge?", "At the same place, read from the same side: the mean counts, and half the difference is the gauge's own zero, not your error."},
	}
	return step
}

// held reports whether shaft k has a centre bearing: there is another behind it before
// the last.
func (s Shape) held(k int) bool { return s.between(k) && s.between(k+1) }

func (s Shape) length(k int) Step {
	step := Step{
		ID: fmt.Sprintf("shaft-%d-length", k), Title: "Length of the " + s.Shafts[k],
		Where: "Tape from the centre of the cross at one end to the centre of the cross at the other.",
		Place: plotting.Place{What: plotting.MeasuredLength, Shaft: k},
		Fields: []Field{{
			Path: fmt.Sprintf("shafts.%d.length", k), Label: "length", Unit: s.Unit,
		}},
		Skipped: "No length: the angles are judged, but shims and moved bearings cannot be worked out, and no run sideways by tape.",
	}
	if s.held(k) {
		step.Fields = append(step.Fields, Field{
			Path: fmt.Sprintf("shafts.%d.bearing", k), Label: "of it, from the driving-end cross to the centre bearing", Unit: s.Unit,
		})
	}
	return step
}

// ends asks for the lengths that decide how far the joints move when the engine or the
// axle is tilted.
func (s Shape) ends() Step {
	last := len(s.Shafts) - 1
	return Step{
		ID: "ends", Title: "Lengths at the ends",
		Where: "Tape from the line through the engine mounts to the cross of the first joint, and from the cross of the last joint to the middle of the axle tube.",
		Fields: []Field{
			{Path: "shafts.0.length", Label: s.Shafts[0] + ": from the mounts to the joint", Unit: s.Unit},
			{Path: fmt.Sprintf("shafts.%d.length", last), Label: s.Shafts[last] + ": from the joint to the axle centre", Unit: s.Unit},
		},
		Skipped: "Not known: what a wedge or a shim at the mounts moves the joints by is left out.",
	}
}

// units asks for the unit before the first length.
var units = Step{
	ID: "units", Title: "Unit of lengths",
	Where:   "What is the tape marked in?",
	Fields:  []Field{{Path: "units", Label: "lengths in", Options: []Word{{"millimetres", string(survey.Millimetre)}, {"inches", string(survey.Inch)}}}},
	Skipped: "It stays as it is.",
}

func (s Shape) sideways(k int) Step {
	return Step{
		ID: fmt.Sprintf("shaft-%d-sideways", k), Title: "Run sideways of the " + s.Shafts[k],
		Where: "Drop a plumb line from the centre of the joint at either end to the floor. Tape from each mark across to one straight line along the vehicle. The difference is the run sideways.",
		Notes: []Note{
			{"Right or left?", "As seen looking from the engine to the axle: where does the end lie that the power leaves by?"},
		},
		Place: plotting.Place{What: plotting.MeasuredSideways, Shaft: k},
		Fields: []Field{{
			Path: fmt.Sprintf("shafts.%d.offset", k), Label: "driven end stands", Unit: s.Unit, Words: rightLeft,
		}},
		Skipped: "Taken to run straight ahead.",
	}
}

func (s Shape) phase(k int) Step {
	return Step{
		ID: fmt.Sprintf("shaft-%d-phase", k), Title: "Yokes of the " + s.Shafts[k],
		Where: "Look along the shaft: how do the ears of its two yokes stand to each other?",
		Notes: []Note{
			{"Neither in line nor square?", "Lay the gauge across the ears at the driving end, then at the driven end, the shaft unmoved. Enter the difference, clockwise as seen from the driving end."},
		},
		Place: plotting.Place{What: plotting.MeasuredPhase, Shaft: k},
		Fields: []Field{{
			Path: fmt.Sprintf("shafts.%d.phase", k), Label: "ears turned by", Unit: "°", Words: clockwise,
			Choices: []Word{{"in line", "0"}, {"a quarter turn out", "90"}},
		}},
		Skipped: "Taken to be in line (in phase).",
	}
}

func (s Shape) speed() Step {
	return Step{
		ID: "speed", Title: "Speed",
		Where: "How fast does the first shaft turn where it shakes, or at cruising speed?",
		Notes: []Note{{"Only the road speed is known?", "Enter it with the size of the tyre and the ratio of the axle instead."}},
		Fields: []Field{
			{Path: "rpm", Label: "first shaft", Unit: "rev/min"},
			{Path: "road.speed_kmh", Label: "or road speed", Unit: "km/h"},
			{Path: "road.tyre", Label: "tyre, such as 235/60R16", Text: true},
			{Path: "road.final_drive", Label: "ratio of the axle"},
		},
		Skipped: "No speed: the angles are judged, the shake that is left is not.",
	}
}

func (s Shape) torque() Step {
	return Step{
		ID: "torque", Title: "Torque",
		Where:   "Which torque does the first shaft pass on where it shakes? That of the engine times the ratio of the gear.",
		Fields:  []Field{{Path: "torque_nm", Label: "first shaft", Unit: "N·m"}},
		Skipped: "What torque does to bearings and joints is told for 100 N·m.",
	}
}

// splines asks for what clocking goes by: the step of a change in the file is 360° over
// the teeth.
func (s Shape) splines() Step {
	step := Step{
		ID: "splines", Title: "Slip splines", OnPaper: true,
		Where:   "Count the teeth of every slip spline: a yoke can be turned by a tooth at a time.",
		Skipped: "Clocking is then looked for by half degrees only, as on a shaft that is welded anew.",
	}
	for k, name := range s.Shafts {
		if s.between(k) {
			step.Fields = append(step.Fields, Field{Label: name, Unit: "teeth"})
		}
	}
	return step
}

// otherHeight asks for the slopes that change with the suspension: a pose of the file.
func (s Shape) otherHeight() Step {
	step := Step{
		ID: "height", Title: "A second ride height", OnPaper: true,
		Where:   "Laden, or hanging: what the gauge reads then, at the same places.",
		Fields:  []Field{{Label: "which height", Text: true}},
		Skipped: "Judged at this height only.",
	}
	for k, name := range s.Shafts {
		if k > 0 {
			step.Fields = append(step.Fields, Field{Label: name, Unit: "°", Words: []Word{{"falls", "down"}, {"rises", "up"}}})
		}
	}
	return step
}

func (s Shape) gauge() Step {
	return Step{
		ID: "gauge", Title: "How close the gauge reads",
		Where: "By how much may one placing of the gauge be off, either way? Lay it on the same place a few times and see.",
		Fields: []Field{{
			Path: "reading_error_deg", Label: "a reading is off by at most", Unit: "°",
			Choices: []Word{{"digital gauge", "0.1"}, {"telephone", "0.3"}, {"dial or bubble", "0.5"}}, // common practice, no source
		}},
		Skipped: "Readings are taken as exact, so that nothing is called too close.",
	}
}

func (s Shape) name() Step {
	return Step{
		ID: "name", Title: "Name",
		Where:   "What is this driveline to be called in its file and report?",
		Fields:  []Field{{Path: "name", Label: "vehicle", Text: true}},
		Skipped: "It stays without a name.",
	}
}
