package survey

import (
	"errors"

	"halfturn/kinematics"
)

// Loads is what torque does to a driveline that turns: torques, couples and forces.
// They belong to the angles as measured; torque itself changes those.
type Loads struct {
	TorqueNM      float64 // on the first shaft
	TorqueAssumed bool    // none was given; see AssumedTorqueNM

	Couples kinematics.Couples // in N·m

	Supports        []kinematics.Support // of every shaft, lengths in m
	BearingsAssumed bool                 // none was given; see Supports

	Forces *kinematics.Forces // in N; nil where a shaft between two joints has no length
	// Unmeasured is the first shaft whose length the forces lack, where they are nil.
	Unmeasured int
	// Quiet is where torque does not shake the centre bearing of a two-piece
	// driveline, in m and N; nil: there is no such place.
	Quiet *kinematics.QuietCentre
}

// Loads returns what torque does to a valid survey. d is its Driveline.
func (s *Survey) Loads(d *kinematics.Driveline) *Loads {
	var l Loads
	l.TorqueNM, l.TorqueAssumed = s.Torque()
	l.Supports, l.BearingsAssumed = s.Supports()
	l.Couples = d.Couples(l.TorqueNM)
	var err error
	l.Forces, err = d.Forces(l.TorqueNM, l.Supports)
	if open, ok := errors.AsType[*kinematics.SupportError](err); ok {
		l.Unmeasured = open.Shaft
	}
	if quiet, ok := d.QuietCentre(l.TorqueNM, l.Supports); ok {
		l.Quiet = &quiet
	}
	return &l
}

// AssumedTorqueNM acts on the first shaft where no torque is given: loads are then
// told for each so much.
const AssumedTorqueNM = 100

// Torque returns the torque on the first shaft in N·m, and whether it is assumed.
func (s *Survey) Torque() (nm float64, assumed bool) {
	if s.TorqueNM == 0 {
		return AssumedTorqueNM, true
	}
	return s.TorqueNM, false
}
