package limits

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Input is one measured value and how well it is known.
type Input struct {
	Name      string  // such as "slope of rear shaft"
	Value     float64 // in Unit; of repeated readings the mean
	Unit      string
	Error     string  // field of the file that gives the half-width
	HalfWidth float64 // a of the rectangular distribution of the instrument's error
	Scatter   float64 // s/√n of n repeated readings; 0 for one
}

// StandardUncertainty returns the standard uncertainty of the value,
//
//	u² = a²/3 + s²/n
//
// of the rectangular distribution of half-width a (JCGM 100:2008, 4.3.7) and of
// the mean of n repeated readings with the experimental standard deviation s
// (4.2.3), both from memory. The instrument's error is the same in all readings
// of one value, so the mean does not reduce it; it is independent from one value
// to the next. The few readings that a person takes make s itself uncertain; that
// is not counted, since the half-width of the instrument already allows for the
// scatter of one reading.
func (in Input) StandardUncertainty() float64 {
	return math.Hypot(in.HalfWidth/math.Sqrt(3), in.Scatter)
}

// draw returns a value that the measured one may stand for.
func (in Input) draw(src rand.Source) float64 {
	v := in.Value
	if in.HalfWidth > 0 {
		v += distuv.Uniform{Min: -in.HalfWidth, Max: in.HalfWidth, Src: src}.Rand()
	}
	if in.Scatter > 0 {
		v += distuv.Normal{Sigma: in.Scatter, Src: src}.Rand()
	}
	return v
}

// trial is a copy of a driveline whose uncertain inputs can be moved.
type trial struct {
	inputs []Input
	places []*float64 // of the inputs, in survey

	survey *survey.Survey
	d      *kinematics.Driveline
	shafts []kinematics.Shaft
}

// newTrial returns a trial of a complete, valid driveline.
func newTrial(s *survey.Survey) (*trial, error) {
	t := &trial{survey: s.Complete()}
	for i := range t.survey.Shafts {
		if err := t.addShaft(i); err != nil {
			return nil, err
		}
	}
	for i := range t.survey.Joints {
		t.addPosition(&t.survey.Joints[i])
	}
	var err error
	t.d, err = t.survey.Driveline()
	return t, err
}

// addShaft collects the readings and the phase of shaft i.
func (t *trial) addShaft(i int) error {
	sh := &t.survey.Shafts[i]
	for _, measured := range []struct {
		name     string
		by       survey.Method
		readings *survey.Readings
	}{
		{"slope", sh.Slope.By, &sh.Slope.Deg},
		{"heading", sh.Heading.By, &sh.Heading.Values},
	} {
		if *measured.readings == nil {
			continue
		}
		in := Input{
			Name: measured.name + " of " + sh.Name, Value: measured.readings.Mean(), Unit: unitDeg,
			Error: "reading_error_deg", HalfWidth: t.survey.ReadingErrorDeg,
		}
		if measured.by == survey.ByOffset {
			in.Unit, in.Error, in.HalfWidth = string(t.survey.Units), "tape_error", t.survey.TapeError
		}
		if n := len(*measured.readings); n > 1 && measured.by != survey.ByTurned {
			in.Scatter = stat.StdDev(*measured.readings, nil) / math.Sqrt(float64(n))
		}
		if in.Unit == unitDeg && math.Abs(in.Value)+in.HalfWidth+farOut*in.Scatter >= 90 {
			return fmt.Errorf("shafts[%d].%s: %g deg with a standard uncertainty of %.2g deg: want an angle that its error leaves within 90 deg",
				i, measured.by, in.Value, in.StandardUncertainty())
		}
		*measured.readings = survey.Readings{in.Value}
		t.add(in, &(*measured.readings)[0])
	}
	if 0 < i && i < len(t.survey.Shafts)-1 {
		phase := survey.Readings{sh.PhaseDeg.Mean()}
		sh.PhaseDeg = phase
		t.add(Input{
			Name: "phase of " + sh.Name, Value: phase[0], Unit: unitDeg,
			Error: "phase_error_deg", HalfWidth: t.survey.PhaseErrorDeg,
		}, &phase[0])
	}
	return nil
}

// farOut is in how many standard deviations no draw is expected.
const farOut = 6

// addPosition collects the coordinates of a joint centre.
func (t *trial) addPosition(j *survey.Joint) {
	if j.At == nil {
		return
	}
	at := *j.At
	j.At = &at
	for _, c := range []struct {
		name  string
		place *float64
	}{{"along", &at.Along}, {"right", &at.Right}, {"down", &at.Down}} {
		t.add(Input{
			Name: "position (" + c.name + ") of " + j.Name, Value: *c.place, Unit: string(t.survey.Units),
			Error: "tape_error", HalfWidth: t.survey.TapeError,
		}, c.place)
	}
}

// add collects an input unless it is exact.
func (t *trial) add(in Input, place *float64) {
	if in.StandardUncertainty() > 0 {
		t.inputs = append(t.inputs, in)
		t.places = append(t.places, place)
	}
}

// measure returns what g measures with the inputs where they stand now, appended
// to dst[:0]. It fails where they make no driveline.
func (t *trial) measure(g *Gauge, dst []float64) ([]float64, error) {
	t.shafts = t.survey.AppendShafts(t.shafts[:0])
	if err := t.d.Set(t.shafts); err != nil {
		return nil, fmt.Errorf("within the errors of the measurement: %w", err)
	}
	return g.Measure(t.d, dst), nil
}
