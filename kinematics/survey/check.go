package survey

import (
	"errors"
	"fmt"
	"maps"
	"math"
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
	s.checkSupports(a)
}

func (s *Survey) checkShafts(a *audit) {
	checkUnique(a, "shafts", s.shaftNames())
	for i, sh := range s.Shafts {
		path := element("shafts", i)
		if phase := member(path, "phase"); !s.between(i) && sh.PhaseDeg != nil {
			a.report(phase, quantity(sh.PhaseDeg.Mean(), "deg"), "no phase on the first and the last shaft, which have one yoke only")
		}
		if !sh.Slope.Entered() && !(s.between(i) && s.anyPosition()) && a.sound(path) {
			a.report(path, "no slope", "down, incline or turned, 0 where the shaft is level")
		}
		s.checkBearing(a, member(path, "bearing"), i)
		s.checkOffset(a, path, sh)
	}
}

func (s *Survey) checkBearing(a *audit, path string, i int) {
	at, unit := s.Shafts[i].Bearing, string(s.Units)
	if at == nil {
		return
	}
	if !s.between(i) {
		a.report(path, quantity(*at, unit), "no centre bearing on the first and the last shaft, which run in housings")
	}
	if length := s.Lengths()[i]; length > 0 && !(*at <= length) {
		a.report(path, quantity(*at, unit), "a place on the shaft, which is "+quantity(length, unit)+" long")
	}
}

// checkOffset holds that the sideways run of a shaft is one that its length and
// slope allow.
func (s *Survey) checkOffset(a *audit, path string, sh Shaft) {
	if sh.Heading.By != ByOffset || !a.sound(path) {
		return
	}
	run, reach := sh.Heading.Mean(), sh.Length
	if sh.Slope.True() {
		reach *= math.Cos(sh.Slope.Mean() * kinematics.Degree)
	}
	switch unit := string(s.Units); {
	case sh.Length == 0:
		a.report(member(path, "offset"), quantity(run, unit), "the length of the shaft beside it")
	case !(math.Abs(run) < reach):
		a.report(member(path, "offset"), quantity(run, unit), "less than the shaft reaches, "+quantity(reach, unit))
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
		s.checkCompanions(a, member(path, "companion"), i)
	}
	want := len(s.Shafts) - 1
	if len(s.Joints) != want && !a.faulted["shafts"] {
		a.report("joints", counted(len(s.Joints), "joint", "joints"),
			fmt.Sprintf("%d, one between each two of the %d shafts", want, len(s.Shafts)))
	}
}

// checkPositions holds the rule that a shaft has slopes or positions, never both.
func (s *Survey) checkPositions(a *audit) {
	if !s.anyPosition() {
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
			checkNoDirection(a, path, sh.Slope, sh.Heading)
			if sh.Length != 0 {
				a.report(member(path, "length"), quantity(sh.Length, string(s.Units)), "none: the joint centres give it")
			}
		}
	}
}

func (s *Survey) anyPosition() bool {
	return slices.ContainsFunc(s.Joints, func(j Joint) bool { return j.At != nil })
}

// checkNoDirection holds for a shaft between two positions, also in a pose.
func checkNoDirection(a *audit, path string, sl Slope, h Heading) {
	const want = "none on a shaft between two joints with positions"
	if sl.Entered() {
		a.report(member(path, string(sl.By)), quantity(sl.Mean(), "deg"), want)
	}
	if h.Entered() {
		a.report(member(path, string(h.By)), quantity(h.Mean(), "deg"), want)
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
