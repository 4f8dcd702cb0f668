package limits

import (
	"fmt"
	"math"
	"slices"

	"halfturn/kinematics/survey"
)

// Set is a named collection of limits of our own making: for each limit the
// printed value, out of those in the library, which disagree, that suits one kind
// of work.
type Set struct {
	Name    string // one of survey.SetNames
	For     string // the work it is meant for
	choices []choice
}

// choice is a limit and the reason for choosing it. A set may have several
// choices for one limit; the tightest at the speed at hand holds.
type choice struct {
	published
	why string
}

// Sets lists every set; the first is used where a file names none.
var Sets = []Set{
	{
		Name: survey.SetLightVehicle,
		For:  "cars, vans and light trucks",
		choices: []choice{
			{halfDegree, "what a careful shop keeps; makers print 1 deg and more"},
			{library["S3-54"], "nearly straight: what the odd joint makes, nothing cancels"},
			{rocking, "not dead straight: its needle bearings must rock"},
			{library["S3-48"], "what a joint makes that nothing cancels"},
			{library["S3-43"], "the needle bearings must rock; three more makers print the same"},
			{library["S3-07"], "by speed: the inertia of the shaft between loads the joints"},
			{library["S3-46"], "the only one found in print"},
			{dailyBend, "what it bears day in, day out; for a moment it may be its synchronous bend"},
			{library["S3-18"], "the low end of what is recommended: people sit beside it"},
			{library["S3-15"], "for a pump, but the only one found in print on what the shafts themselves must follow"},
			{coastAccelMax, "as driving"},
		},
	},
	{
		Name: survey.SetRoadStrict,
		For:  "cars and light trucks at road speed by the tightest that makers print",
		choices: []choice{
			{library["S3-36"], "the tightest that makers of vehicles and shafts print; three more print the same"},
			{library["S3-54"], "the tightest that makers print"},
			{rocking, "not dead straight: its needle bearings must rock"},
			{library["S3-48"], "what a joint makes that nothing cancels"},
			{library["S3-43"], "the needle bearings must rock; three more makers print the same"},
			{library["S3-42"], "the tightest that makers print; four more print the same"},
			{library["S3-07"], "by speed: tighter than the 3 deg above some 5770 rpm"},
			{library["S3-46"], "the only one found in print"},
			{library["S7-03"], "the low end of the bend at which it turns evenly"},
			{library["S3-18"], "the low end of what is recommended: people sit beside it"},
			{library["S3-15"], "for a pump, but the only one found in print on what the shafts themselves must follow"},
			{coastAccelMax, "as driving"},
			{aboutThreeDegrees, "holds at every speed, also where none is given"},
			{library["S3-31"], "the size of the joints is not known, so the lowest of the catalogue"},
		},
	},
	{
		Name: survey.SetHeavyRoad,
		For:  "heavy trucks and buses",
		choices: []choice{
			{library["S3-36"], "from a maker of shafts for trucks"},
			{library["S3-57"], "from a maker of shafts for trucks"},
			{rocking, "not dead straight: its needle bearings must rock"},
			{library["S3-48"], "what a joint makes that nothing cancels"},
			{library["S3-56"], "from a maker of shafts for trucks"},
			{library["S3-38"], "from a maker of axles for trucks"},
			{library["S3-46"], "the only one found in print"},
			{dailyBend, "what it bears day in, day out; for a moment it may be its synchronous bend"},
			{library["S3-18"], "the low end of what is recommended: people sit beside it"},
			{library["S3-15"], "for a pump, but the only one found in print on what the shafts themselves must follow"},
			{coastAccelMax, "as driving"},
		},
	},
	{
		Name: survey.SetMachinery,
		For:  "general machinery and power take-offs",
		choices: []choice{
			{library["S3-33"], "the upper value of the range for high torque and speed"},
			{oddAsElbe, "a joint of 3 deg alone makes the resultant non-uniformity that is printed"},
			{loneAsElbe, "a joint of 3 deg alone makes the resultant non-uniformity that is printed"},
			{library["S3-55"], "from a maker of shafts for machines"},
			{library["S3-62"], "what general machine joints are made for"},
			{library["S3-07"], "by speed: the inertia of the driven shaft loads the joint"},
			{library["S3-08"], "a second table by speed; the tighter one holds"},
			{library["S7-01"], "the bend at which it turns evenly"},
			{library["S3-14"], "printed for a machine driven by a power take-off"},
			{library["S3-15"], "printed for a machine driven by a power take-off"},
			{coastAccelMax, "as driving"},
			{library["S3-32a"], "holds at every speed, also where none is given"},
			{library["S3-31"], "the size of the joints is not known, so the lowest of the catalogue"},
		},
	},
	{
		Name: survey.SetSlowHeavy,
		For:  "slow, heavy shafts such as those of mills and winches",
		choices: []choice{
			{lowOfLowSpeed, "the lower value of the range for low speed: heavy masses follow badly"},
			{straightCompanion, "a pair whose other joint is straight differs by as much"},
			{straightLone, "a pair whose other joint is straight differs by as much"},
			{library["S3-55"], "from a maker of shafts for machines"},
			{library["S3-62"], "what general machine joints are made for"},
			{library["S7-01"], "the bend at which it turns evenly"},
			{library["S3-18"], "the low end of what is recommended: heavy masses multiply it"},
			{library["S3-15"], "for a pump, but the only one found in print on what the shafts themselves must follow"},
			{coastAccelMax, "as driving"},
			{straightPair, "what the printed difference leaves where one joint of the pair is straight"},
			{library["S3-31"], "the size of the joints is not known, so the lowest of the catalogue"},
		},
	},
}

// What is printed from which a limit of ours follows.
const (
	// sin β·tan β = 0.0027 at 2.98°.
	resultant = "resultant non-uniformity 0.0027, as of one joint at 3 deg"
	upperLow  = "difference at low speed, upper value of 3 to 5"
)

// Limits of our sets that are printed in other words, or nowhere.
var (
	halfDegree        = published{name: survey.LimitCompanionDifference, bound: fixed(0.5), source: NoSource}
	rocking           = published{name: survey.LimitOddJointMin, bound: fixed(0.1), source: NoSource}
	dailyBend         = published{name: survey.LimitDoubleCardanMax, bound: fixed(20), source: NoSource}
	coastAccelMax     = published{name: survey.LimitInertiaCoastAccel, bound: fixed(1000), source: NoSource}
	aboutThreeDegrees = published{name: survey.LimitEquivalentAngle, bound: fixed(3), source: elbe, note: resultant}
	oddAsElbe         = published{name: survey.LimitOddJointMax, bound: fixed(3), source: elbe, note: resultant}
	loneAsElbe        = published{name: survey.LimitLoneJointMax, bound: fixed(3), source: elbe, note: resultant}
	lowOfLowSpeed     = published{name: survey.LimitCompanionDifference, bound: fixed(3), source: gwb39, note: "low speed, lower value of 3 to 5"}
	straightCompanion = published{name: survey.LimitOddJointMax, bound: fixed(5), source: gwb39, note: upperLow}
	straightLone      = published{name: survey.LimitLoneJointMax, bound: fixed(5), source: gwb39, note: upperLow}
	straightPair      = published{name: survey.LimitEquivalentAngle, bound: fixed(5), source: gwb39, note: upperLow}
)

// setNamed returns the set of that name; "" is the first of Sets.
func setNamed(name string) (Set, error) {
	if name == "" {
		return Sets[0], nil
	}
	i := slices.IndexFunc(Sets, func(s Set) bool { return s.Name == name })
	if i < 0 {
		return Set{}, fmt.Errorf("limits.set: %q: want one of %q", name, survey.SetNames)
	}
	return Sets[i], nil
}

// Limits returns the limits of the set at a speed in rpm, in the order of
// survey.LimitNames. Where several apply, the tightest is returned. At speed 0,
// not given, those that depend on the speed are left out.
func (s Set) Limits(rpm float64) []Limit {
	var limits []Limit
	for _, name := range survey.LimitNames {
		if l, ok := s.Limit(name, rpm); ok {
			limits = append(limits, l)
		}
	}
	return limits
}

// needSpeed lists the quantities that the set cannot judge, or not wholly,
// without a speed.
func (s Set) needSpeed() []string {
	var quantities []string
	for _, name := range survey.LimitNames {
		k := kindOf(name)
		bySpeed := func(c choice) bool {
			_, same := c.bound.(fixed)
			return c.name == name && !same
		}
		switch {
		case k.power > 0 && s.limits(name):
			quantities = append(quantities, k.called)
		case slices.ContainsFunc(s.choices, bySpeed):
			quantities = append(quantities, k.called+" by speed")
		}
	}
	return quantities
}

// limits reports whether the set has a limit of the given name.
func (s Set) limits(name string) bool {
	return slices.ContainsFunc(s.choices, func(c choice) bool { return c.name == name })
}

// Limit returns the tightest limit of a name, one of survey.LimitNames, as Limits does; ok
// is false for none.
func (s Set) Limit(name string, rpm float64) (tightest Limit, ok bool) {
	if !(rpm > 0) && kindOf(name).power > 0 {
		return Limit{}, false
	}
	for _, c := range s.choices {
		if c.name != name {
			continue
		}
		value, applies := c.bound.at(rpm)
		if !applies {
			continue
		}
		if l := newLimit(name, value, c.basis(), c.why); !ok || l.tighter(tightest) {
			tightest, ok = l, true
		}
	}
	return tightest, ok
}

// reached returns the speed in rpm above which the set forbids a value; ok is
// false where it forbids it at every speed or at none.
func (s Set) reached(name string, value float64) (rpm float64, ok bool) {
	rpm = math.Inf(1)
	for _, c := range s.choices {
		if c.name != name {
			continue
		}
		if at, forbids := c.bound.reached(value); forbids {
			rpm = min(rpm, at)
		}
	}
	return rpm, 0 < rpm && !math.IsInf(rpm, 1)
}

// Of returns the set that a driveline names, with what its file overrides or
// switches off.
func Of(s *survey.Survey) (Set, error) {
	set, err := setNamed(s.Limits.Set)
	if err != nil {
		return Set{}, err
	}
	set.choices = slices.Clone(set.choices)
	drop := func(name string) {
		set.choices = slices.DeleteFunc(set.choices, func(c choice) bool { return c.name == name })
	}
	for _, name := range survey.LimitNames {
		if v, ok := s.Limits.Values[name]; ok {
			drop(name)
			set.choices = append(set.choices, choice{published{name: name, bound: fixed(v), source: SetByFile}, ""})
		}
	}
	for _, name := range s.Limits.Off {
		drop(name)
	}
	return set, nil
}
