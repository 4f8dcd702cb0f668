package survey

import (
	"fmt"
	"slices"
	"strings"
)

// MaxChanges that a survey may list.
const MaxChanges = maxExtras

// MaxSteps of one change: more than anyone has shims, and few enough to try all.
const MaxSteps = 10_000

// ChangeUnit returns the unit in which a kind of change counts: "deg", or that of
// lengths.
func (s *Survey) ChangeUnit(change string) string {
	if change == ChangeWedge || change == ChangeClocking {
		return "deg"
	}
	return string(s.Units)
}

// ChangeReach returns how far a kind of change may go either way, in its unit.
func (s *Survey) ChangeReach(change string) float64 {
	if s.ChangeUnit(change) == "deg" {
		return 360 // within a turn
	}
	return 1e6
}

func (s *Survey) checkChanges(a *audit) {
	type target struct{ change, on string }
	first := make(map[target]string)
	for i, c := range s.Adjust {
		path := element("adjust", i)
		if a.faulted[path] || !a.sound(member(path, "change"), member(path, "on")) {
			continue
		}
		s.checkTarget(a, member(path, "on"), c)
		end, _ := s.changeRules(c.Change)
		if c.From > c.To {
			a.report(member(path, "to"), quantity(c.To, end.unit), "no less than from, which is "+quantity(c.From, end.unit))
		}
		if c.Step > 0 && (c.To-c.From)/c.Step > MaxSteps {
			a.report(member(path, "step"), quantity(c.Step, end.unit), fmt.Sprintf("at most %d steps between from and to", MaxSteps))
		}
		t := target{c.Change, c.On}
		if before, twice := first[t]; twice {
			a.report(path, "the same change of the same part as "+before, "it once")
		}
		first[t] = path
	}
}

// checkTarget holds that the change is possible on that part. It keeps quiet
// where the parts themselves could not be read.
func (s *Survey) checkTarget(a *audit, path string, c Change) {
	if len(s.Shafts) < minShafts || a.faulted["joints"] {
		return
	}
	names, part := s.targets(c.Change)
	if len(names) == 0 {
		a.report(path, quoted(c.On), fmt.Sprintf("no %s: there is no %s", c.Change, strings.TrimPrefix(part, "a ")))
		return
	}
	if !slices.Contains(names, c.On) {
		a.report(path, quoted(c.On), fmt.Sprintf("the name of %s: %s", part, oneOf(names)))
	}
}

// targets returns the names of the parts on which a change can be made, and what
// they are.
func (s *Survey) targets(change string) (names []string, part string) {
	shafts, joints := s.shaftNames(), s.jointNames()
	switch change {
	case ChangeMount:
		return shafts[:1], "the first shaft"
	case ChangeWedge:
		return shafts[len(shafts)-1:], "the last shaft"
	case ChangeClocking, ChangeLength:
		return inner(shafts), "a shaft between two joints"
	default:
		return inner(joints), "a joint between two others"
	}
}

// inner returns all but the first and the last.
func inner(names []string) []string { return names[1:max(1, len(names)-1)] }
