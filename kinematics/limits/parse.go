package limits

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// Speed is a speed with its unit, of the road or of the shafts.
type Speed struct {
	Value float64
	Unit  string // "km/h", "mph" or "rpm"
}

// ParseSpeed reads a speed such as "90km/h", "55 mph" or "2800rpm".
func ParseSpeed(text string) (Speed, error) {
	m := withUnit.FindStringSubmatch(text)
	if m == nil || m[2] == "" || strings.EqualFold(m[2], "hz") {
		return Speed{}, fmt.Errorf("speed %.40q: want a number and km/h, mph or rpm, such as 90km/h", text)
	}
	v, err := positive(m[1])
	if err != nil {
		return Speed{}, fmt.Errorf("speed %.40q: %w", text, err)
	}
	return Speed{v, strings.ToLower(m[2])}, nil
}

// ParseFrequency reads a frequency such as "43Hz", "21.5 hz" or "94" and returns it
// in hertz.
func ParseFrequency(text string) (float64, error) {
	m := withUnit.FindStringSubmatch(text)
	if m == nil || m[2] != "" && !strings.EqualFold(m[2], "hz") {
		return 0, fmt.Errorf("frequency %.40q: want a number of hertz, such as 43Hz", text)
	}
	v, err := positive(m[1])
	if err != nil {
		return 0, fmt.Errorf("frequency %.40q: %w", text, err)
	}
	return v, nil
}

func (s Speed) String() string { return strconv.FormatFloat(s.Value, 'g', -1, 64) + " " + s.Unit }

// RPM returns the speed of the shafts, survey.MaxRPM at most. A road speed needs
// the gearing, which may be nil, not known.
func (s Speed) RPM(g *survey.Gearing) (float64, error) {
	kmh := s.Value
	switch {
	case s.Unit == "rpm":
		return s.Value, nil
	case g == nil:
		return 0, fmt.Errorf("speed %s: want a driveline with a road (tyre and final drive), or a speed in rpm", s)
	case s.Unit == "mph":
		kmh *= survey.MilesPerHour
	}
	rpm := g.RPM(kmh)
	if !(rpm <= survey.MaxRPM) {
		return 0, fmt.Errorf("speed %s: %.0f rpm of the shafts by this tyre and final drive: want at most %d rpm", s, rpm, survey.MaxRPM)
	}
	return rpm, nil
}

// withUnit takes plain decimal numbers only.
var withUnit = regexp.MustCompile(`(?i)^([0-9]+(?:\.[0-9]+)?) ?(km/h|mph|rpm|hz)?$`)

// largest is beyond any speed or frequency of a shaft, in any of the units.
const largest = 100_000

func positive(digits string) (float64, error) {
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil || !(v > 0 && v <= largest) {
		return 0, fmt.Errorf("want more than 0 and at most %d", largest)
	}
	return v, nil
}

// aboveZero refuses what is not a number above 0.
func aboveZero(field string, value float64, unit string) error {
	if !(value > 0) || math.IsInf(value, 1) {
		return &kinematics.RangeError{Field: field, Value: value, Unit: unit, Want: "above 0"}
	}
	return nil
}
