package survey

import (
	"fmt"
	"slices"
	"strings"
)

// Names of the changes that can be made on a vehicle.
const (
	ChangeWedge         = "wedge"
	ChangeBearingHeight = "bearing-height"
	ChangeBearingSide   = "bearing-side"
	ChangeMount         = "mount"
	ChangeClocking      = "clocking"
	ChangeLength        = "length"
)

// A changeKind says of a change in which unit it counts and on what it can be made.
type changeKind struct {
	name string
	deg  bool // else in the unit of lengths
	part part
	doc  string
}

var changeKinds = []changeKind{
	{ChangeWedge, true, lastShaft, "adds to the slope of the last shaft, in degrees"},
	{ChangeBearingHeight, false, innerJoint, "moves an inner joint down"},
	{ChangeBearingSide, false, innerJoint, "moves an inner joint to the right"},
	{ChangeMount, false, firstShaft, "raises the driven end of the first shaft"},
	{ChangeClocking, true, innerShaft, "adds to the phase of a shaft between two joints, in degrees"},
	{ChangeLength, false, innerShaft, "lengthens a shaft between two joints"},
}

// Changes lists every kind of change by its name.
var Changes = func() (names []string) {
	for _, k := range changeKinds {
		names = append(names, k.name)
	}
	return names
}()

func changeDocs() string {
	var docs []string
	for _, k := range changeKinds {
		docs = append(docs, k.name+": "+k.doc+".")
	}
	return strings.Join(docs, " ")
}

// kindOf returns what the table says of a change; of an unknown one nothing.
func kindOf(change string) changeKind {
	i := slices.IndexFunc(changeKinds, func(k changeKind) bool { return k.name == change })
	if i < 0 {
		return changeKind{}
	}
	return changeKinds[i]
}

// part is where on a driveline a change can be made, in words.
type part string

const (
	firstShaft part = "the first shaft"
	lastShaft  part = "the last shaft"
	innerShaft part = "a shaft between two joints"
	innerJoint part = "a joint between two others"
)

// names returns the names of the parts of that sort.
func (p part) names(s *Survey) []string {
	shafts, joints := s.shaftNames(), s.jointNames()
	switch p {
	case firstShaft:
		return shafts[:1]
	case lastShaft:
		return shafts[len(shafts)-1:]
	case innerShaft:
		return inner(shafts)
	case innerJoint:
		return inner(joints)
	}
	panic(fmt.Sprintf("survey: %q is no part", string(p)))
}

// inner returns all but the first and the last.
func inner(names []string) []string { return names[1:max(1, len(names)-1)] }

// MaxSteps of one change: more than anyone has shims, and few enough to try all.
const MaxSteps = 10_000

// ChangeUnit returns the unit in which a kind of change counts: "deg", or that of
// lengths.
func (s *Survey) ChangeUnit(change string) string {
	if kindOf(change).deg {
		return "deg"
	}
	return string(s.Units)
}

// ChangeParts returns the names of the parts of a complete survey on which a kind of
// change can be made.
func (s *Survey) ChangeParts(change string) []string { return kindOf(change).part.names(s) }

// ChangeReach returns how far a kind of change may go either way, in its unit.
func (s *Survey) ChangeReach(change string) float64 {
	if kindOf(change).deg {
		return 360 // within a turn
	}
	return maxLength
}

func (s *Survey) checkChanges(c *collector) {
	type target struct{ change, on string }
	first := make(map[target]string)
	for i, change := range s.Adjust {
		path, unit := element("adjust", i), s.ChangeUnit(change.Change)
		if !c.sound(member(path, "change"), member(path, "on")) {
			continue
		}
		s.checkTarget(c, member(path, "on"), change)
		if change.From > change.To {
			c.report(member(path, "to"), quantity(change.To, unit), "no less than from, which is "+quantity(change.From, unit))
		}
		if change.Step > 0 && (change.To-change.From)/change.Step > MaxSteps {
			c.report(member(path, "step"), quantity(change.Step, unit), fmt.Sprintf("at most %d steps between from and to", MaxSteps))
		}
		t := target{change.Change, change.On}
		if before, twice := first[t]; twice {
			c.report(path, "the same change of the same part as "+before, "it once")
		}
		first[t] = path
	}
}

// checkTarget holds that the change is possible on that part. It keeps quiet
// where the parts themselves could not be read.
func (s *Survey) checkTarget(c *collector, path string, change Change) {
	if len(s.Shafts) < minShafts || c.faulted["joints"] {
		return
	}
	part := kindOf(change.Change).part
	switch names := part.names(s); {
	case len(names) == 0:
		c.report(path, quoted(change.On),
			fmt.Sprintf("no %s: there is no %s", change.Change, strings.TrimPrefix(string(part), "a ")))
	case !slices.Contains(names, change.On):
		c.report(path, quoted(change.On), fmt.Sprintf("the name of %s: %s", part, oneOf(names)))
	}
}
