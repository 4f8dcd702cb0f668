package limits

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/kinematics/survey"
)

// Felt says which rotation a felt vibration comes from.
type Felt struct {
	Hz         float64 // as felt
	Turning    Turning // at the speed where it is felt
	Tolerance  float64 // relative, within which a rotation fits
	Candidates []Rotation
	// AnglesPossible is whether joint angles can be the cause at all: they shake
	// twice in a turn of the shaft.
	AnglesPossible bool
	Answer         string // in plain sentences
}

// Rotation is something that shakes once or twice in a turn.
type Rotation struct {
	Name string  `json:"name"` // such as "second order of the shafts"
	Look string  `json:"-"`    // at what, where it fits
	Hz   float64 `json:"hz"`
	Off  float64 `json:"off"` // how far the felt frequency is from it, relative
	Fits bool    `json:"fits"`
	// Possible is whether it does not fit but may if the speedometer is off.
	Possible bool `json:"possible"`
}

// How far a felt frequency and the speed beside it may be off, relative. Common
// practice, no source.
const (
	readingSpread = 0.03 // a frequency is felt to about one hertz
	// A speedometer may show as much more than is driven or, on tyres larger than it
	// was made for, less.
	speedometerSpread = 0.05
)

// Diagnose returns which rotation a vibration of hz fits, felt with the shafts at
// rpm. With a gearing, which may be nil, the wheels are looked at too, and how
// well the rolling radius is known counts in the tolerance; with an engine speed in
// rpm, 0 where none is given, the engine. The other numbers must be above 0.
func Diagnose(hz, rpm, engineRPM float64, g *survey.Gearing) (Felt, error) {
	if err := cmp.Or(aboveZero("felt frequency", hz, "Hz"), aboveZero("shaft speed", rpm, "rpm")); err != nil {
		return Felt{}, err
	}
	f := Felt{Hz: hz, Turning: TurningAt(rpm, g), Tolerance: readingSpread}
	if g != nil {
		f.Tolerance += g.Spread
		f.consider("first order of the wheels", f.Turning.WheelHz, speedometerSpread, "balance and run-out of wheels and tyres")
		f.consider("second order of the wheels", 2*f.Turning.WheelHz, speedometerSpread, "tyres that are out of round")
	}
	if engineRPM != 0 {
		if err := aboveZero("engine speed", engineRPM, "rpm"); err != nil {
			return Felt{}, err
		}
		f.consider("first order of the engine", engineRPM/60, 0, "balance of the engine, flywheel and clutch")
		f.consider("second order of the engine", engineRPM/30, 0, "engine mounts and how evenly it fires")
	}
	f.consider("first order of the shafts", f.Turning.ShaftHz, speedometerSpread, "balance and run-out of the shafts, and how their flanges sit")
	second := f.consider("second order of the shafts", f.Turning.SecondOrderHz, speedometerSpread, "working angles and phase")
	f.AnglesPossible = second.Fits || second.Possible
	f.Answer = f.answer()
	return f, nil
}

// consider adds a rotation, at a speed that may be further off by as much as shown,
// relative, where a speedometer shows it; look says at what to look where it fits.
// Common practice, no source.
func (f *Felt) consider(name string, hz, shown float64, look string) Rotation {
	off := f.Hz/hz - 1
	r := Rotation{Name: name, Look: look, Hz: hz, Off: off, Fits: math.Abs(off) <= f.Tolerance}
	r.Possible = !r.Fits && math.Abs(off) <= f.Tolerance+shown
	f.Candidates = append(f.Candidates, r)
	return r
}

func (f *Felt) answer() string {
	var fitting, look []string
	for _, c := range f.Candidates {
		if c.Fits {
			fitting = append(fitting, fmt.Sprintf("the %s (%.1f Hz)", c.Name, c.Hz))
			look = append(look, c.Look)
		}
	}
	felt := fmt.Sprintf("%.4g Hz", f.Hz)
	if len(fitting) == 0 {
		return felt + f.nothingFits()
	}
	return fmt.Sprintf("%s Look at: %s.", f.fit(felt, fitting), strings.Join(look, "; "))
}

// fit says what fits, and what that means for joint angles.
func (f *Felt) fit(felt string, fitting []string) string {
	fits := felt + " fits " + strings.Join(fitting, " and ")
	second := f.Candidates[len(f.Candidates)-1]
	switch {
	case second.Possible:
		return fits + fmt.Sprintf(", and may be the %s (%.1f Hz) if the speedometer is off: joint angles are possible, so take the speed again.", second.Name, second.Hz)
	case !second.Fits:
		return fits + ": joint angles cannot be the cause, they shake twice in a turn of the shaft."
	case len(fitting) > 1:
		return fits + ", which are too close together to tell apart at this speed: joint angles can be the cause."
	default:
		return fits + ": joint angles can be the cause; balancing cannot cure a shake that comes twice in a turn."
	}
}

// inDoubt is how many times the tolerance a vibration may be off the second order
// of the shafts before joint angles are ruled out. Our own choice.
const inDoubt = 3

// nothingFits names the rotation that comes nearest, since a reading may be worse
// than the tolerance allows for.
func (f *Felt) nothingFits() string {
	size := func(r Rotation) float64 { return math.Abs(r.Off) }
	nearest := slices.MinFunc(f.Candidates, func(a, b Rotation) int { return cmp.Compare(size(a), size(b)) })
	text := fmt.Sprintf(" fits no rotation within %.0f %%; nearest is the %s (%.1f Hz), %.0f %% away: ",
		100*f.Tolerance, nearest.Name, nearest.Hz, 100*size(nearest))
	second := f.Candidates[len(f.Candidates)-1]
	switch {
	case second.Possible:
		return fmt.Sprintf(" fits no rotation within %.0f %%, but may be the %s (%.1f Hz, %.0f %% away) if the speedometer is off: joint angles are possible, so take the speed again.",
			100*f.Tolerance, second.Name, second.Hz, 100*size(second))
	case size(second) <= inDoubt*f.Tolerance:
		return text + "joint angles are unlikely to be the cause, but take the speed and the frequency again."
	}
	text += "joint angles are not the cause."
	if nearest.Possible {
		text += " If the speedometer is off it may be that one: take the speed again, and look at: " + nearest.Look + "."
	}
	return text
}
