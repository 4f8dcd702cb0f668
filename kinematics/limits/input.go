package limits

import "halfturn/kinematics/survey"

// Input is one measured value and how well it is known.
type Input struct {
	Name  string  // such as "slope of rear shaft"
	Value float64 // in Unit; of repeated readings the mean
	Unit  string
	Error string // field of the file that gives its error; "" where nobody entered it
	// StandardUncertainty of the value: that of one reading over √n for n of them,
	// but not below what the gauge can show. One reading is off by anything up to
	// the half-width a alike, a/√3 (JCGM 100:2008, 4.3.7, from memory), or as far as
	// several differ among themselves (4.2.3), whichever is more.
	StandardUncertainty float64

	readings   int     // that it is the mean of
	one, least float64 // standard uncertainty of one of them, and of as many as one likes; 0: not a reading
	holdsZero  bool    // of the gauge that it was read by
	scattered  bool    // it is the mean of readings that do not agree
	sign       float64 // of the draws
	multiplier int
	places     []*float64 // in the survey of a trial
	base       []float64  // their values
}

// unknown reports whether nobody entered the value, which may be anything.
func (in Input) unknown() bool { return in.Error == "" }

// isZero reports whether it is the zero of the gauge.
func (in Input) isZero() bool { return in.Error == errorOfZero }

// byGauge reports whether a gauge for angles reads it along or across a shaft.
func (in Input) byGauge() bool { return in.Error == errorOfReading }

const (
	errorOfZero    = "gauge_error_deg"
	errorOfReading = "reading_error_deg"
)

// phaseOf names the phase of a shaft.
func phaseOf(sh survey.Shaft) string { return "phase of " + sh.Name }

// move moves the value by an error.
func (in *Input) move(by float64) {
	for _, place := range in.places {
		*place += by
	}
}

// drawn returns the error of draw i.
func (in *Input) drawn(i int) float64 {
	e := rectangular
	if in.readings > 1 {
		e = normal // nearly
	}
	return in.sign * in.StandardUncertainty * e(place(i, in.multiplier))
}
