package main

import (
	"github.com/spf13/pflag"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// feltFlags describe a vibration that somebody feels.
type feltFlags struct {
	frequency, speed string
}

func newFeltFlags(flags *pflag.FlagSet) *feltFlags {
	f := new(feltFlags)
	flags.StringVar(&f.frequency, "felt", "", "`frequency` of a vibration, as 43Hz: says which rotation it fits")
	flags.StringVar(&f.speed, "at", "", "`speed` at which it is felt: 90km/h, 55mph or 2800rpm; else as given")
	return f
}

// diagnose says what the vibration fits, nil where none is given.
func (f *feltFlags) diagnose(sv *survey.Survey) (*limits.Felt, error) {
	if f.frequency == "" {
		if f.speed != "" {
			return nil, usagef("--at %s without --felt: want the frequency that is felt there, such as --felt 43Hz", f.speed)
		}
		return nil, nil
	}
	hz, err := limits.ParseFrequency(f.frequency)
	if err != nil {
		return nil, usageError{err}
	}
	gearing := limits.GearingOf(sv)
	rpm := limits.RPM(sv)
	if f.speed != "" {
		speed, err := limits.ParseSpeed(f.speed)
		if err != nil {
			return nil, usageError{err}
		}
		if rpm, err = speed.RPM(gearing); err != nil {
			return nil, usageError{err}
		}
	}
	if rpm == 0 {
		return nil, usagef("--felt %s without a speed: want --at, such as --at 90km/h or --at 2800rpm", f.frequency)
	}
	felt, err := limits.Diagnose(hz, rpm, gearing)
	if err != nil {
		return nil, usageError{err}
	}
	return &felt, nil
}
