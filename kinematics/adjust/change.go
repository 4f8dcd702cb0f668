package adjust

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// kind is all there is to know of one kind of change, but for its unit and the
// parts on which it can be made, which package survey checks in a file.
type kind struct {
	name  string    // one of survey.Changes
	words string    // what a positive change is, up to the name of the part
	ways  [2]string // in which a negative and a positive change go
	// usual is how far the change goes on most vehicles and in which steps it is
	// made, by its unit: common practice, no source.
	usual map[string]span
	// unasked returns the parts on which it is tried where neither file nor user
	// lists it; nil: all on which it can be made.
	unasked func(s *survey.Survey) []string
	// raisesFirst is set where a negative change is tried unasked only if nothing else
	// mends everything: it asks for spacers, and moves much else.
	raisesFirst bool
	// joint returns which joint it moves when made on a part.
	joint func(s *survey.Survey, on string) int
	// way returns how the joint moves, given the shafts before and behind it; nil
	// for a change that turns the yoke before the joint instead.
	way func(before, behind r3.Vec, value float64) r3.Vec
	// tell says how to make it, taken how it is taken to move the vehicle.
	tell  func(s *survey.Survey, set setting) string
	taken string
}

// span is a range of settings and their step. How large a change is, beside others,
// counts in parts of whole; 0: one is as large as another.
type span struct{ from, to, step, whole float64 }

// kinds holds every kind of change, in the order in which they are tried.
var kinds = []kind{
	{
		name:  survey.ChangeWedge,
		words: "wedge at",
		ways:  [2]string{"down", "up"},
		usual: map[string]span{"deg": {-4, 4, 0.5, 4}},
		joint: func(s *survey.Survey, _ string) int { return len(s.Joints) - 1 },
		way: func(_, behind r3.Vec, value float64) r3.Vec {
			// The axle turns in its bearings about its centre line, which lies
			// level and square to the pinion; a steeper pinion has a higher nose.
			return r3.Sub(behind, inclined(behind, kinematics.Incline(behind)+value*kinematics.Degree))
		},
		tell:  tellWedge,
		taken: "A wedge turns the axle about its centre line, taken to lie level and square to the pinion and to meet its axis; the last joint moves along, and the shaft before it turns.",
	},
	{
		name:  survey.ChangeBearingHeight,
		words: "lowering of the bearing at",
		ways:  [2]string{"higher", "lower"},
		usual: map[string]span{"mm": {-30, 30, 1, 30}, "in": {-1.25, 1.25, 1. / 16, 1.25}},
		joint: (*survey.Survey).JointIndex,
		way:   func(_, _ r3.Vec, value float64) r3.Vec { return r3.Vec{Z: -value} },
		tell:  tellBearingHeight,
		taken: takenBearing,
	},
	{
		name:        survey.ChangeMount,
		words:       "rise of the mount of",
		ways:        [2]string{"lower", "higher"},
		usual:       map[string]span{"mm": {-30, 30, 1, 30}, "in": {-1.25, 1.25, 1. / 16, 1.25}},
		raisesFirst: true,
		joint:       func(*survey.Survey, string) int { return 0 },
		way: func(before, _ r3.Vec, value float64) r3.Vec {
			// The joint rises by value on its arc about the pivot.
			level := inclined(before, math.Asin(math.Sin(kinematics.Incline(before))-value/r3.Norm(before)))
			return r3.Sub(level, before)
		},
		tell:  tellMount,
		taken: "Shims at the mount turn the first shaft about the pivot of the engine mounts; the rise is counted at the first joint, under which the mount is taken to stand.",
	},
	{
		name:    survey.ChangeClocking,
		words:   "clocking of",
		ways:    [2]string{"anticlockwise", "clockwise"},
		usual:   map[string]span{"deg": {-90, 90, 0.5, 0}}, // all there is: half a turn is the same again
		unasked: outOfPhase,
		joint:   (*survey.Survey).ShaftIndex,
		tell:    tellClocking,
		taken:   "Clocking turns the yoke at the driven end of a shaft, and everything behind it, against the yoke at its driving end.",
	},
	{
		name:    survey.ChangeBearingSide,
		words:   "shift to the right of the bearing at",
		ways:    [2]string{"to the left", "to the right"},
		usual:   map[string]span{"mm": {-12, 12, 1, 12}, "in": {-0.5, 0.5, 1. / 16, 0.5}},
		unasked: besideTheLine,
		joint:   (*survey.Survey).JointIndex,
		way:     func(_, _ r3.Vec, value float64) r3.Vec { return r3.Vec{Y: -value} },
		tell:    tellBearingSide,
		taken:   takenBearing,
	},
	{
		name:    survey.ChangeLength,
		words:   "lengthening of",
		ways:    [2]string{"shorter", "longer"},
		usual:   map[string]span{"mm": {-50, 50, 1, 50}, "in": {-2, 2, 1. / 16, 2}},
		unasked: nowhere,
		joint:   (*survey.Survey).ShaftIndex,
		way: func(before, _ r3.Vec, value float64) r3.Vec {
			return r3.Scale(value/r3.Norm(before), before)
		},
		tell:  tellLength,
		taken: "A shaft of another length moves the joint at its driven end along its axis, and the slip of the shaft behind makes up for it.",
	},
}

const takenBearing = "A centre bearing moves its joint straight down or sideways and turns the shafts on both sides; their slip makes up for the change of distance."

// besideTheLine returns the inner joints of a driveline that does not run straight
// along in the top view: there a bearing may stand sideways.
func besideTheLine(s *survey.Survey) []string {
	const seen = 0.05 // deg
	_, first := slopes(s, 0)
	for k := range s.Shafts {
		if _, right := slopes(s, k); math.Abs(right-first) > seen {
			return s.ChangeParts(survey.ChangeBearingSide)
		}
	}
	return nil
}

// nowhere is where changes are tried unasked that are made only when asked for.
func nowhere(*survey.Survey) []string { return nil }

func kindOf(name string) *kind {
	i := slices.IndexFunc(kinds, func(k kind) bool { return k.name == name })
	if i < 0 {
		panic(fmt.Sprintf("adjust: %q is no change", name))
	}
	return &kinds[i]
}

// change is a survey.Change that can be followed in space.
type change struct {
	*kind
	asked survey.Change
	at    int // the joint it moves; a clocking turns the yoke of the shaft before it
	// tiltOnly is set on a wedge where a length is missing: it turns the pinion
	// and leaves the joint where it is.
	tiltOnly bool
	ratio    float64 // then of the lengths of the pinion and of the shaft before it
	unsure   bool    // then its size depends on them
	assumed  bool    // its range is the usual one
	// cuts is set on a clocking that nobody asked for of a shaft whose yokes are in
	// phase: it is made alone or not at all.
	cuts bool
	span
	values []float64 // other than 0 that it can be set to, rising
}

// newChange finds what c does. c must be a valid change of s. It fails where a
// length is missing without which the change cannot be followed.
func newChange(s *survey.Survey, g geometry, c survey.Change) (*change, error) {
	k := kindOf(c.Change)
	usual := k.usual[s.ChangeUnit(c.Change)]
	made := &change{kind: k, asked: c, at: k.joint(s, c.On), span: span{c.From, c.To, c.Step, usual.whole}}
	if made.values = settings(c); c.Step == 0 {
		made.step = usual.step
		if c.To > c.From {
			made.values = practical(c.From, c.To, usual.step)
		}
	}
	if c.Change == survey.ChangeLength && made.at == len(s.Joints)-1 {
		return nil, fmt.Errorf("%s: its driven end is held by the axle, so that its slip takes up any change and no angle changes: want a shaft before a centre bearing", label(c))
	}
	missing := g.unknown(s, made.at)
	switch {
	case len(missing) == 0 || k.way == nil:
		return made, nil
	case c.Change == survey.ChangeWedge:
		made.tiltOnly = true
		return made, nil
	}
	return nil, fmt.Errorf("%s: it moves %q and so turns %q and %q: %w %s", label(c),
		s.Joints[made.at].Name, s.Shafts[made.at].Name, s.Shafts[made.at+1].Name, errLength, strings.Join(missing, " and of "))
}

// errLength is of a change that cannot be followed without a length.
var errLength = errors.New("want the length of")

// unknown returns the quoted names of the shafts at the joint whose length is
// not known.
func (g geometry) unknown(s *survey.Survey, joint int) []string {
	var names []string
	for k := joint; k <= joint+1; k++ {
		if !g.known[k] {
			names = append(names, fmt.Sprintf("%q", s.Shafts[k].Name))
		}
	}
	return names
}

// move returns what the change does to shafts when it is set to value, in deg
// or the units of lengths. Where the geometry ends, as for a mount raised higher
// than the shaft is long, it holds NaN.
func (c *change) move(shafts []kinematics.Shaft, value float64) move {
	if c.way == nil {
		return move{joint: c.at, turn: value * kinematics.Degree}
	}
	m := displacement(c.at, c.way(shafts[c.at].Axis, shafts[c.at+1].Axis, value))
	if c.tiltOnly {
		m.before = r3.Scale(c.ratio*r3.Norm(shafts[c.at].Axis)/r3.Norm(shafts[c.at+1].Axis), m.before)
	}
	return m
}

// settings returns the values other than 0 of a change that names its step or has
// one value only, rising.
func settings(c survey.Change) []float64 {
	step := c.Step
	if step == 0 {
		step = 1 // of a range without width
	}
	return slices.DeleteFunc(grid(c.From, c.To, step), func(v float64) bool { return v == 0 })
}

// practical returns the multiples of a step other than 0 in a range, rising; of a
// range that holds very many, multiples of a larger one.
func practical(from, to, step float64) []float64 {
	if n := (to - from) / step; n > survey.MaxSteps {
		step *= math.Ceil(n / survey.MaxSteps)
	}
	first, last := math.Ceil(from/step-1e-9), math.Floor(to/step+1e-9)
	if last < first {
		return nil
	}
	return settings(survey.Change{From: first * step, To: last * step, Step: step})
}

// readily returns the change without those values that are tried only where nothing
// else mends everything.
func (c *change) readily() *change {
	if !c.assumed || !c.raisesFirst {
		return c
	}
	some := *c
	some.values = slices.DeleteFunc(slices.Clone(c.values), func(v float64) bool { return v < 0 })
	return &some
}

// widened returns the change with three times its range, either way. A clocking,
// which repeats, stays within half a turn.
func (c *change) widened() *change {
	wide := *c // its range stays what is possible
	reach := 3 * max(math.Abs(c.from), math.Abs(c.to))
	if c.name == survey.ChangeClocking {
		reach = min(reach, 90)
	}
	wide.values = practical(-reach, reach, c.step)
	return &wide
}

// remark says how the change is taken to move the vehicle.
func (c *change) remark(s *survey.Survey) string {
	if c.tiltOnly {
		return fmt.Sprintf("A wedge is taken to tilt the pinion and leave %q where it is, an approximation: with the lengths of %q and %q, the joint would move about the axle and turn the shaft by the wedge times the ratio of the lengths.",
			s.Joints[c.at].Name, s.Shafts[c.at].Name, s.Shafts[c.at+1].Name)
	}
	return c.taken
}

// label names a change as a sweep does: wedge(axle pinion).
func label(c survey.Change) string { return c.Change + "(" + c.On + ")" }
