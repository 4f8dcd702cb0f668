package survey

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"halfturn/kinematics"
)

// check reports what is wrong with what the values of a complete Survey say
// together; each by itself is checked as it is read.
func (s *Survey) check(c *collector) {
	s.checkShafts(c)
	s.checkJoints(c)
	s.checkPositions(c)
	s.checkRoad(c)
	checkLimits(c, "limits", s.Limits)
	s.checkChanges(c)
	s.checkPoses(c)
	s.checkBends(c, element)
	s.checkSupports(c)
}

func (s *Survey) checkShafts(c *collector) {
	checkUnique(c, "shafts", s.shaftNames())
	for i, sh := range s.Shafts {
		path := element("shafts", i)
		if phase := member(path, "phase"); !s.between(i) && sh.PhaseDeg != nil {
			c.report(phase, quantity(sh.PhaseDeg.Mean(), "deg"), "no phase on the first and the last shaft, which have one yoke only")
		}
		checkMethods(c, path, sh.Slope, sh.Heading)
		if !sh.Slope.Entered() && !(s.between(i) && s.anyPosition()) && c.sound(path) {
			c.report(path, "no slope", "down, incline or turned, 0 where the shaft is level")
		}
		s.checkBearing(c, member(path, "bearing"), i)
		if c.sound(path) {
			s.checkOffset(c, member(path, "offset"), sh)
		}
	}
}

// checkMethods finds what only a Survey built in code can have: values of which
// nothing says what they are.
func checkMethods(c *collector, path string, sl Slope, h Heading) {
	if sl.Entered() && !slices.Contains(slopeMethods, sl.By) {
		c.report(path, "a slope by "+quoted(string(sl.By)), oneOf(slopeMethods))
	}
	if h.Entered() && !slices.Contains(headingMethods, h.By) {
		c.report(path, "a heading by "+quoted(string(h.By)), oneOf(headingMethods))
	}
}

func (s *Survey) checkBearing(c *collector, path string, i int) {
	at, unit := s.Shafts[i].Bearing, string(s.Units)
	if at == nil {
		return
	}
	if !s.between(i) {
		c.report(path, quantity(*at, unit), "no centre bearing on the first and the last shaft, which run in housings")
	}
	if length := s.Lengths()[i]; length > 0 && !(*at <= length) {
		c.report(path, quantity(*at, unit), "a place on the shaft, which is "+quantity(length, unit)+" long")
	}
}

// checkOffset holds that the sideways run of a shaft is one that its length and
// slope allow; path names what would have to change.
func (s *Survey) checkOffset(c *collector, path string, sh Shaft) {
	if sh.Heading.By != ByOffset {
		return
	}
	run, reach := sh.Heading.Mean(), sh.Length
	if sh.Slope.inclined() {
		reach *= math.Cos(sh.Slope.Mean() * kinematics.Degree)
	}
	switch unit := string(s.Units); {
	case sh.Length == 0:
		c.report(path, quantity(run, unit)+" sideways", "the length of the shaft beside it")
	case !(math.Abs(run) < reach):
		c.report(path, quantity(run, unit)+" sideways", "less than the shaft reaches, "+quantity(rounded(reach), unit))
	}
}

func (s *Survey) checkJoints(c *collector) {
	checkUnique(c, "joints", s.jointNames())
	for i, j := range s.Joints {
		path := element("joints", i)
		if j.Kind != kinematics.DoubleCardan && j.SynchronousDeg != 0 && c.sound(member(path, "kind")) {
			c.report(member(path, "synchronous_deg"), quantity(j.SynchronousDeg, "deg"),
				fmt.Sprintf("no such bend but on a %s joint; this one is %s", kinematics.DoubleCardan, j.Kind))
		}
		s.checkCompanions(c, member(path, "companion"), i)
	}
	want := len(s.Shafts) - 1
	if len(s.Joints) != want && !c.faulted["shafts"] {
		c.report("joints", counted(len(s.Joints), "joint", "joints"),
			fmt.Sprintf("%d, one between each two of the %d shafts", want, len(s.Shafts)))
	}
}

// checkPositions holds the rule that a shaft has slopes or positions, never both.
func (s *Survey) checkPositions(c *collector) {
	if !s.anyPosition() {
		return
	}
	for i, j := range s.Joints {
		if path := element("joints", i); j.At == nil && !c.faulted[path] {
			c.report(member(path, "at"), "missing", "the position of every joint centre, or of none")
		}
	}
	for i, sh := range s.Shafts {
		if s.between(i) {
			path := element("shafts", i)
			checkNoDirection(c, path, sh.Slope, sh.Heading)
			if sh.Length != 0 {
				c.report(member(path, "length"), quantity(sh.Length, string(s.Units)), "none: the joint centres give it")
			}
		}
	}
}

func (s *Survey) anyPosition() bool {
	return slices.ContainsFunc(s.Joints, func(j Joint) bool { return j.At != nil })
}

// checkNoDirection holds for a shaft between two positions, also in a pose.
func checkNoDirection(c *collector, path string, sl Slope, h Heading) {
	const want = "none on a shaft between two joints with positions"
	if sl.Entered() {
		c.report(member(path, string(sl.By)), quantity(sl.Mean(), "deg"), want)
	}
	if h.Entered() {
		c.report(member(path, string(h.By)), quantity(h.Mean(), "deg"), want)
	}
}

// checkLimits finds what only a Survey built in code can have.
func checkLimits(c *collector, path string, l Limits) {
	for _, name := range slices.Concat(slices.Sorted(maps.Keys(l.Values)), l.Off) {
		if !slices.Contains(LimitNames, name) {
			c.report(member(path, name), "unknown limit", oneOf(LimitNames))
		}
	}
	for _, name := range l.Off {
		if _, set := l.Values[name]; set {
			c.report(member(path, name), "both a value and off", "one of the two")
		}
	}
}

// checkBends reports what a driveline cannot be: joint centres that do not come
// one behind the other, and bends of 90° and more. where names the field that
// shaft or joint k comes from; what depends on a field at fault is left alone.
func (s *Survey) checkBends(c *collector, where func(list string, k int) string) {
	if len(s.Joints) != len(s.Shafts)-1 {
		return
	}
	advances := true
	for k := 1; k < len(s.Joints) && s.Positioned(); k++ {
		this, before := s.Joints[k], s.Joints[k-1]
		path := where("joints", k)
		if c.sound(path, where("joints", k-1)) && this.At.Along-before.At.Along < minAdvance {
			advances = false
			c.report(path, quantity(this.At.Along, string(s.Units))+" along",
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
		if !advances || !c.sound(depends...) {
			continue
		}
		_, err := kinematics.New([]kinematics.Shaft{{Axis: axes[k]}, {Axis: axes[k+1]}}, nil)
		if bend, ok := errors.AsType[*kinematics.RangeError](err); ok {
			c.report(path,
				fmt.Sprintf("%s at %s", quantity(bend.Value, bend.Unit), quoted(j.Name)),
				"a working angle below 90 deg"+s.steepest(k))
		}
	}
	if len(c.faults) > 0 {
		return
	}
	_, err := s.Driveline()
	if chain, ok := errors.AsType[*kinematics.RangeError](err); ok {
		c.report(where("shafts", len(s.Shafts)-1),
			fmt.Sprintf("a chain that acts as one joint at %s", quantity(chain.Value, chain.Unit)),
			"joints that add up to less than 90 deg")
	}
}

// steepest asks about the steeper of the two shafts at joint k, where it is one that
// seems to be read on a flange face.
func (s *Survey) steepest(k int) string {
	two := s.Shafts[k : k+2]
	sh := slices.MaxFunc(two, func(a, b Shaft) int { return cmp.Compare(math.Abs(a.Slope.Mean()), math.Abs(b.Slope.Mean())) })
	asked := OnFlange(sh.Slope.Mean())
	if asked == "" {
		return ""
	}
	return fmt.Sprintf("; %s at %s: %s", quoted(sh.Name), quantity(rounded(sh.Slope.Mean()), "deg"), asked)
}

// minAdvance of one joint centre from the one before, in mm or in: far below
// what can be built or measured, far above what rounding makes of nothing.
const minAdvance = 1e-3

// checkUnique holds that the entries of a list can be told apart by name.
func checkUnique(c *collector, list string, names []string) {
	for i, name := range names {
		if k := slices.Index(names, name); k < i && name != "" {
			c.report(member(element(list, i), "name"), quoted(name),
				"a name of its own, not that of "+element(list, k))
		}
	}
}
