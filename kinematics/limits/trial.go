package limits

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// trial is a copy of a driveline whose uncertain inputs can be moved.
type trial struct {
	inputs []Input

	measured *survey.Survey // as read
	survey   *survey.Survey // to be moved, of which every reading is the mean
	d        *kinematics.Driveline
	shafts   []kinematics.Shaft
	hands    hands
}

// Every input that a driveline can have is drawn in a dimension of its own, whether
// it is uncertain or not, so that one more or one less changes nothing for the rest:
// the zero of the gauge, then slope, heading and phase of every shaft, then the
// coordinates of every joint.

func ofShaft(i, what int) int                { return 1 + 3*i + what }
func ofJoint(s *survey.Survey, k, c int) int { return 1 + 3*len(s.Shafts) + 3*k + c }

// newTrial returns a trial of a complete, valid driveline whose joints have the
// given roles.
func newTrial(s *survey.Survey, roles Roles) (*trial, error) {
	t := &trial{measured: s, survey: s.Complete(), hands: handsOf(s)}
	zero := Input{
		Name: "zero of the gauge", Unit: unitDeg, Error: errorOfZero, sign: t.hands.down,
		StandardUncertainty: s.GaugeErrorDeg / math.Sqrt(3),
	}
	for i := range t.survey.Shafts {
		sh := &t.survey.Shafts[i]
		slope := t.readings("slope of "+sh.Name, unitDeg, errorOfReading, sh.Slope.Deg, s.ReadingErrorDeg)
		slope.sign, slope.least = t.hands.down, s.GaugeResolutionDeg/math.Sqrt(12)
		slope.StandardUncertainty = max(slope.StandardUncertainty, slope.least)
		slope.holdsZero = sh.Slope.By != survey.ByTurned
		if !slope.holdsZero {
			// The two readings differ by the zero of the gauge, not by chance, and
			// it is gone from their mean. There is no room for a third.
			slope.scattered, slope.one, slope.StandardUncertainty = false, 0, max(s.ReadingErrorDeg/math.Sqrt(6), slope.least)
		}
		if err := t.addReadings(slope, &sh.Slope.Deg, ofShaft(i, 0), i, sh.Slope.By); err != nil {
			return nil, err
		}
		if sh.Slope.Entered() && slope.holdsZero {
			zero.places = append(zero.places, &sh.Slope.Deg[0])
		}
		heading := t.readings("heading of "+sh.Name, unitDeg, errorOfReading, sh.Heading.Values, s.ReadingErrorDeg)
		if sh.Heading.By == survey.ByOffset {
			heading = t.readings("offset of "+sh.Name, string(t.survey.Units), "tape_error", sh.Heading.Values, s.TapeError)
		}
		heading.sign = t.hands.right
		if err := t.addReadings(heading, &sh.Heading.Values, ofShaft(i, 1), i, sh.Heading.By); err != nil {
			return nil, err
		}
		t.addPhase(i, roles)
	}
	for k := range t.survey.Joints {
		t.addPosition(k)
	}
	t.add(zero, 0)
	var err error
	t.d, err = t.survey.Driveline()
	return t, err
}

// readings returns the input that readings of a half-width make.
func (t *trial) readings(name, unit, field string, readings survey.Readings, halfWidth float64) Input {
	in := Input{Name: name, Value: readings.Mean(), Unit: unit, Error: field, one: halfWidth / math.Sqrt(3), sign: 1}
	in.readings = max(1, len(readings))
	if in.readings > 1 {
		in.one = max(in.one, stat.StdDev(readings, nil))
		in.scattered = field == errorOfReading && !readings.Agree(halfWidth)
	}
	in.StandardUncertainty = in.one / math.Sqrt(float64(in.readings))
	return in
}

// addReadings collects readings of shaft i unless they are exact or there are none.
func (t *trial) addReadings(in Input, readings *survey.Readings, dimension, i int, by survey.Method) error {
	if *readings == nil {
		return nil
	}
	const farOut = 4 // standard deviations that no draw goes beyond
	if in.Unit == unitDeg && math.Abs(in.Value)+farOut*in.StandardUncertainty >= 90 {
		return fmt.Errorf("shafts[%d].%s: %g deg with a standard uncertainty of %.2g deg: want an angle that its error leaves within 90 deg",
			i, by, in.Value, in.StandardUncertainty)
	}
	*readings = survey.Readings{in.Value}
	in.places = []*float64{&(*readings)[0]}
	t.add(in, dimension)
	return nil
}

// addPhase collects the phase of shaft i. One that nobody entered is taken as 0, but
// across a constant-velocity joint between companions, where nothing says how the
// yokes on its two sides stand to each other, it may be anything.
func (t *trial) addPhase(i int, roles Roles) {
	if i == 0 || i == len(t.survey.Shafts)-1 {
		return
	}
	sh := &t.survey.Shafts[i]
	in := t.readings(phaseOf(*sh), unitDeg, "phase_error_deg", sh.PhaseDeg, t.survey.PhaseErrorDeg)
	if sh.PhaseDeg == nil && roles.phaseMatters(t.survey, i) {
		in = Input{Name: in.Name, Unit: unitDeg, StandardUncertainty: 90 / math.Sqrt(3)}
	}
	sh.PhaseDeg = survey.Readings{in.Value}
	in.sign, in.places = t.hands.turn, []*float64{&sh.PhaseDeg[0]}
	t.add(in, ofShaft(i, 2))
}

// addPosition collects the coordinates of joint centre k.
func (t *trial) addPosition(k int) {
	j := &t.survey.Joints[k]
	if j.At == nil {
		return
	}
	at := *j.At
	j.At = &at
	for c, coordinate := range []struct {
		name  string
		place *float64
		sign  float64
	}{{"along", &at.Along, 1}, {"right", &at.Right, t.hands.right}, {"down", &at.Down, t.hands.down}} {
		in := t.readings("position ("+coordinate.name+") of "+j.Name, string(t.survey.Units), "tape_error",
			survey.Readings{*coordinate.place}, t.survey.TapeError)
		in.sign, in.places = coordinate.sign, []*float64{coordinate.place}
		in.one = 0 // there is no room for a second
		t.add(in, ofJoint(t.survey, k, c))
	}
}

// add collects an input unless it is exact.
func (t *trial) add(in Input, dimension int) {
	if in.StandardUncertainty == 0 || len(in.places) == 0 {
		return
	}
	in.multiplier = multiplier(dimension)
	for _, place := range in.places {
		in.base = append(in.base, *place)
	}
	t.inputs = append(t.inputs, in)
}

// measure has g measure the driveline with every input off by the given error. It
// fails where they make no driveline. A reading of the gauge is moved by two inputs.
func (t *trial) measure(g *Gauge, off func(i int) float64) error {
	for i := range t.inputs {
		for k, place := range t.inputs[i].places {
			*place = t.inputs[i].base[k]
		}
	}
	for i := range t.inputs {
		t.inputs[i].move(off(i))
	}
	t.shafts = t.survey.AppendShafts(t.shafts[:0])
	if err := t.d.Set(t.shafts); err != nil {
		return fmt.Errorf("within the errors of the measurement: %w", err)
	}
	g.measure(t.d, g.parts[:g.judged])
	return nil
}
