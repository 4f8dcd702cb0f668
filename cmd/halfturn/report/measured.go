package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/adjust"
	"halfturn/kinematics/survey"
)

// measured is a survey as it was entered, for the page of a report.
type measured struct {
	General [][2]string // names and values
	Shafts  findings.Table
	Joints  findings.Table // empty: nothing was measured at the joints
	Blank   string         // what blank cells stand for
	Poses   []posed
}

// posed is what is measured anew in a pose, and what becomes of it.
type posed struct {
	Anew string
	adjust.State
}

func newMeasured(f *findings.Findings) measured {
	sv := f.Survey
	m := measured{
		General: measuredGeneral(sv),
		Shafts:  measuredShafts(sv),
		Joints:  measuredJoints(sv),
		Blank:   "What is blank was not entered and counts as 0.",
	}
	if sv.Positioned() {
		m.Blank = "The shafts between two joints run from joint centre to joint centre. What else is blank was not entered and counts as 0."
	}
	for i, pose := range sv.Poses {
		m.Poses = append(m.Poses, posed{measuredAnew(sv, pose), f.Poses[i+1]}) // behind that as measured
	}
	return m
}

func measuredGeneral(sv *survey.Survey) [][2]string {
	t := [][2]string{
		{"Speed of the first shaft", enteredSpeed(sv)},
		{"Error of a reading of slope or heading", enteredError(sv.ReadingErrorDeg, "°")},
	}
	if sv.TorqueNM > 0 {
		t = append(t, [2]string{"Torque on the first shaft", entered(sv.TorqueNM) + " N·m"})
	}
	if sv.PhaseErrorDeg > 0 || slices.ContainsFunc(sv.Shafts, func(s survey.Shaft) bool { return s.PhaseDeg.Mean() != 0 }) {
		t = append(t, [2]string{"Error of a phase", enteredError(sv.PhaseErrorDeg, "°")})
	}
	if sv.Positioned() {
		t = append(t, [2]string{"Error of a position, by tape", enteredError(sv.TapeError, " "+string(sv.Units))})
	}
	return t
}

// enteredSpeed words the speed, with the road where it comes from there.
func enteredSpeed(sv *survey.Survey) string {
	rpm := sv.ShaftRPM()
	text := "not given"
	if rpm > 0 {
		text = fmt.Sprintf("%.0f rev/min", rpm)
	}
	r := sv.Road
	if r == nil {
		return text
	}
	var parts []string
	for _, part := range []struct {
		format string
		value  float64
	}{
		{"%s km/h", r.SpeedKMH},
		{"%s mph", r.SpeedMPH},
		{"tyre of diameter %s " + string(sv.Units), r.TyreDiameter},
		{"tyre of rolling radius %s " + string(sv.Units), r.RollingRadius},
		{"final drive %s", r.FinalDrive},
	} {
		if part.value > 0 {
			parts = append(parts, fmt.Sprintf(part.format, entered(part.value)))
		}
	}
	if r.Tyre != "" {
		parts = append(parts, "tyre "+r.Tyre)
	}
	return text + " (" + strings.Join(parts, ", ") + ")"
}

// enteredError words the half-width of an error.
func enteredError(v float64, unit string) string {
	if v == 0 {
		return "not given: taken as exact"
	}
	return "±" + entered(v) + unit
}

// wordsBy says how a direction was measured.
var wordsBy = map[survey.Method]string{
	survey.ByDown:    "down",
	survey.ByIncline: "down by inclinometer",
	survey.ByTurned:  "down, turned end for end",
	survey.ByRight:   "right",
	survey.ByOffset:  "right by tape",
}

func measuredShafts(sv *survey.Survey) findings.Table {
	t := findings.Table{
		Head: []string{"shaft", wordsBy[survey.ByDown], wordsBy[survey.ByIncline], wordsBy[survey.ByTurned],
			wordsBy[survey.ByRight], wordsBy[survey.ByOffset] + ", " + string(sv.Units), "phase", "length, " + string(sv.Units), "bearing at, " + string(sv.Units)},
		Names: []int{0},
	}
	anyBearing := slices.ContainsFunc(sv.Shafts, func(s survey.Shaft) bool { return s.Bearing != nil })
	for i, s := range sv.Shafts {
		phase, bearing := "", ""
		if s.Bearing != nil {
			bearing = entered(*s.Bearing)
		} else if anyBearing {
			bearing = "none"
		}
		if 0 < i && i < len(sv.Shafts)-1 {
			phase = entered(s.PhaseDeg.Mean()) + "°"
		}
		slope := func(by survey.Method) string {
			if s.Slope.By != by {
				return ""
			}
			return enteredReadings(s.Slope.Deg, "°")
		}
		heading := func(by survey.Method, unit string) string {
			if s.Heading.By != by {
				return ""
			}
			return enteredReadings(s.Heading.Values, unit)
		}
		t.Add(s.Name, slope(survey.ByDown), slope(survey.ByIncline), slope(survey.ByTurned),
			heading(survey.ByRight, "°"), heading(survey.ByOffset, ""), phase, given(s.Length), bearing)
	}
	return t.Used()
}

func measuredJoints(sv *survey.Survey) findings.Table {
	unit := ", " + string(sv.Units)
	t := findings.Table{
		Head:  []string{"joint", "exact at", "companion", "along" + unit, "right" + unit, "down" + unit},
		Names: []int{0},
	}
	for _, j := range sv.Joints {
		exact, at := "", [3]string{}
		if j.SynchronousDeg > 0 {
			exact = entered(j.SynchronousDeg) + "°"
		}
		if j.At != nil {
			at = [3]string{entered(j.At.Along), entered(j.At.Right), entered(j.At.Down)}
		}
		t.Add(j.Name, exact, strings.Join(j.Companions, ", "), at[0], at[1], at[2])
	}
	return t.Used()
}

// measuredAnew words what a pose overrides.
func measuredAnew(sv *survey.Survey, pose survey.Pose) string {
	var parts []string
	for _, s := range pose.Shafts {
		if s.Slope.Entered() {
			parts = append(parts, fmt.Sprintf("%s %s %s", s.Name, wordsBy[s.Slope.By], enteredReadings(s.Slope.Deg, "°")))
		}
		if s.Heading.Entered() {
			unit := "°"
			if s.Heading.By == survey.ByOffset {
				unit = " " + string(sv.Units)
			}
			parts = append(parts, fmt.Sprintf("%s %s %s", s.Name, wordsBy[s.Heading.By], enteredReadings(s.Heading.Values, unit)))
		}
	}
	for _, j := range pose.Joints {
		parts = append(parts, fmt.Sprintf("%s at along %s, right %s, down %s %s",
			j.Name, entered(j.At.Along), entered(j.At.Right), entered(j.At.Down), sv.Units))
	}
	return strings.Join(parts, "; ")
}

// enteredReadings prints readings and, of several, their mean.
func enteredReadings(r survey.Readings, unit string) string {
	var list []string
	for _, v := range r {
		list = append(list, entered(v)+unit)
	}
	all := strings.Join(list, ", ")
	if len(r) > 1 {
		all += fmt.Sprintf(" (mean %s%s)", text.Minus(fmt.Sprintf("%.2f", r.Mean())), unit)
	}
	return all
}

// given prints a number of which 0 stands for not given.
func given(v float64) string {
	if v == 0 {
		return ""
	}
	return entered(v)
}

// entered prints a number as a person enters it.
func entered(v float64) string { return text.Minus(strconv.FormatFloat(v, 'f', -1, 64)) }
