package survey

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"halfturn/kinematics"
)

// check reports what is wrong with a complete Survey: first the values by
// themselves, then what they say together.
func (s *Survey) check(a *audit) {
	s.format().check(a, "")
	s.checkShafts(a)
	s.checkJoints(a)
	s.checkPositions(a)
	s.checkRoad(a)
	s.checkLimits(a)
	s.checkChanges(a)
	s.checkPoses(a)
	s.checkBends(a, element)
}

func (s *Survey) checkShafts(a *audit) {
	checkUnique(a, "shafts", s.shaftNames())
	for i, sh := range s.Shafts {
		path := element("shafts", i)
		checkSlope(a, path, sh.DownDeg, sh.InclineDeg)
		if phase := member(path, "phase"); !s.between(i) && (a.given(phase) || sh.PhaseDeg != 0) {
			a.report(phase, quantity(sh.PhaseDeg, "deg"), "no phase on the first and the last shaft, which have one yoke only")
		}
	}
}

// checkSlope holds for the shafts and for what a pose overrides of them.
func checkSlope(a *audit, path string, down, incline Readings) {
	if down != nil && incline != nil {
		a.report(member(path, "incline"), "given beside down", "down or incline, never both")
	}
}

func (s *Survey) checkJoints(a *audit) {
	checkUnique(a, "joints", s.jointNames())
	for i, j := range s.Joints {
		path := element("joints", i)
		sync := member(path, "synchronous_deg")
		if j.Kind != kinematics.DoubleCardan && (a.given(sync) || j.SynchronousDeg != 0) && a.sound(member(path, "kind")) {
			a.report(sync, quantity(j.SynchronousDeg, "deg"),
				fmt.Sprintf("no such bend but on a %s joint; this one is %s", kinematics.DoubleCardan, j.Kind))
		}
		s.checkCompanion(a, member(path, "companion"), i)
	}
	want := len(s.Shafts) - 1
	if len(s.Joints) != want && !a.faulted["shafts"] {
		a.report("joints", counted(len(s.Joints), "joint", "joints"),
			fmt.Sprintf("%d, one between each two of the %d shafts", want, len(s.Shafts)))
	}
}

// checkPositions holds the rule that a shaft has slopes or positions, never both.
func (s *Survey) checkPositions(a *audit) {
	if !slices.ContainsFunc(s.Joints, func(j Joint) bool { return j.At != nil }) {
		return
	}
	for i, j := range s.Joints {
		if path := element("joints", i); j.At == nil && !a.faulted[path] {
			a.report(member(path, "at"), "missing", "the position of every joint centre, or of none")
		}
	}
	for i, sh := range s.Shafts {
		if s.between(i) {
			path := element("shafts", i)
			checkNoSlopes(a, path, sh.DownDeg, sh.InclineDeg, sh.RightDeg)
			if sh.Length != 0 {
				a.report(member(path, "length"), quantity(sh.Length, string(s.Units)), "none: the joint centres give it")
			}
		}
	}
}

// checkNoSlopes holds for a shaft between two positions, also in a pose.
func checkNoSlopes(a *audit, path string, down, incline, right Readings) {
	for _, angle := range []struct {
		key      string
		readings Readings
	}{{"down", down}, {"incline", incline}, {"right", right}} {
		if angle.readings != nil {
			a.report(member(path, angle.key), quantity(angle.readings.Mean(), "deg"),
				"none on a shaft between two joints with positions")
		}
	}
}

// checkLimits finds names that only a Survey built in code can have.
func (s *Survey) checkLimits(a *audit) {
	names := slices.Concat(slices.Sorted(maps.Keys(s.Limits.Values)), s.Limits.Off)
	for _, name := range names {
		if !slices.Contains(LimitNames, name) {
			a.report(member("limits", name), "unknown limit", oneOf(LimitNames))
		}
	}
}

// checkBends reports what a driveline cannot be: joint centres that do not come
// one behind the other, and bends of 90° and more. where names the field that
// shaft or joint k comes from; what depends on a field at fault is left alone.
func (s *Survey) checkBends(a *audit, where func(list string, k int) string) {
	if len(s.Joints) != len(s.Shafts)-1 {
		return
	}
	advances := true
	for k := 1; k < len(s.Joints) && s.Positioned(); k++ {
		this, before := s.Joints[k], s.Joints[k-1]
		path := where("joints", k)
		if a.sound(path, where("joints", k-1)) && this.At.Along-before.At.Along < minAdvance {
			advances = false
			a.report(path, quantity(this.At.Along, string(s.Units))+" along",
				fmt.Sprintf("a joint centre further along than that of %s at %s",
					quoted(before.Name), quantity(before.At.Along, string(s.Units))))
		}
	}
	axes := s.Axes()
	for k, j := range s.Joints {
		path := where("shafts", k+1)
		depends := []string{where("shafts", k), path}
		if s.Positioned() {
			for i := max(0, k-1); i < min(k+2, len(s.Joints)); i++ {
				depends = append(depends, where("joints", i))
			}
		}
		if !advances || !a.sound(depends...) {
			continue
		}
		_, err := kinematics.New([]kinematics.Shaft{{Axis: axes[k]}, {Axis: axes[k+1]}}, nil)
		if bend, ok := errors.AsType[*kinematics.RangeError](err); ok {
			a.report(path,
				fmt.Sprintf("%s at %s", quantity(bend.Value, bend.Unit), quoted(j.Name)),
				"a working angle below 90 deg")
		}
	}
	if len(a.faults) > 0 {
		return
	}
	_, err := s.Driveline()
	if chain, ok := errors.AsType[*kinematics.RangeError](err); ok {
		a.report(where("shafts", len(s.Shafts)-1),
			fmt.Sprintf("a chain that acts as one joint at %s", quantity(chain.Value, chain.Unit)),
			"joints that add up to less than 90 deg")
	}
}

// minAdvance of one joint centre from the one before, in mm or in: far below
// what can be built or measured, far above what rounding makes of nothing.
const minAdvance = 1e-3

// checkUnique holds that the entries of a list can be told apart by name.
func checkUnique(a *audit, list string, names []string) {
	for i, name := range names {
		if k := slices.Index(names, name); k < i && name != "" {
			a.report(member(element(list, i), "name"), quoted(name),
				"a name of its own, not that of "+element(list, k))
		}
	}
}
