package findings

import (
	"halfturn/kinematics"
	"halfturn/kinematics/limits"
)

// loadsDocument is what torque does, in N·m and N. Steady parts are without friction
// and weight: not to be trusted.
type loadsDocument struct {
	TorqueNM        float64              `json:"torque_nm"`
	Assumed         bool                 `json:"assumed"` // no torque was given
	BearingsAssumed bool                 `json:"bearings_assumed"`
	Shafts          []torqueDocument     `json:"shafts"`
	Joints          []coupleDocument     `json:"joints"`
	Bearings        []bearingDocument    `json:"bearings"`
	Ends            []endDocument        `json:"ends"`
	QuietCentre     *quietCentreDocument `json:"quiet_centre"`
	Remarks         []string             `json:"remarks"`
}

type torqueDocument struct {
	Shaft       string  `json:"shaft"`
	TorqueMinNM float64 `json:"torque_min_nm"`
	TorqueMaxNM float64 `json:"torque_max_nm"`
}

type coupleDocument struct {
	Joint         string  `json:"joint"`
	DrivingPeakNM float64 `json:"driving_peak_nm"`
	DrivenPeakNM  float64 `json:"driven_peak_nm"`
}

// bearingDocument is the force of a shaft on its centre bearing; hz is null without
// a speed.
type bearingDocument struct {
	Shaft        string   `json:"shaft"`
	SwingN       float64  `json:"swing_n"`
	SwingRightN  float64  `json:"swing_right_n"`
	SwingDownN   float64  `json:"swing_down_n"`
	SteadyRightN float64  `json:"steady_right_n"`
	SteadyDownN  float64  `json:"steady_down_n"`
	Hz           *float64 `json:"hz"`
}

// endDocument is the shaft between two joints that has no centre bearing.
type endDocument struct {
	Shaft     string  `json:"shaft"`
	ForceMaxN float64 `json:"force_max_n"`
}

// quietCentreDocument is how far the centre joint has to move, in the unit of
// lengths, for a bearing without swing, and what is left at the last shaft there.
type quietCentreDocument struct {
	Joint                   string  `json:"joint"`
	Right                   float64 `json:"right"`
	Down                    float64 `json:"down"`
	Unit                    string  `json:"unit"`
	SwingN                  float64 `json:"swing_n"`
	ExactEquivalentAngleDeg float64 `json:"exact_equivalent_angle_deg"`
}

func (f *Findings) loadsDocument() loadsDocument {
	l := f.Loads
	doc := loadsDocument{
		TorqueNM: l.TorqueNM, Assumed: l.TorqueAssumed, BearingsAssumed: l.BearingsAssumed,
		Bearings: []bearingDocument{}, Ends: []endDocument{},
		Remarks: f.LoadNotes(),
	}
	for k, torque := range l.Couples.Torques {
		doc.Shafts = append(doc.Shafts, torqueDocument{f.shaftName(k), torque.Min(), torque.Max()})
	}
	for k, couple := range l.Couples.Joints {
		doc.Joints = append(doc.Joints, coupleDocument{f.Survey.Joints[k].Name, couple.Driving.Peak(), couple.Driven.Peak()})
	}
	if q := l.Quiet; q != nil {
		doc.QuietCentre = &quietCentreDocument{
			Joint: f.Survey.Joints[1].Name,
			Right: f.inUnits(q.Right), Down: f.inUnits(q.Down), Unit: string(f.Survey.Units),
			SwingN: q.Swing, ExactEquivalentAngleDeg: q.Left.Angle() / kinematics.Degree,
		}
	}
	if l.Forces == nil {
		return doc
	}
	for _, b := range l.Forces.Bearings {
		right, down := b.Force.Right(), b.Force.Down()
		doc.Bearings = append(doc.Bearings, bearingDocument{
			Shaft: f.shaftName(b.Shaft), SwingN: b.Force.Swing(),
			SwingRightN: right.Swing(), SwingDownN: down.Swing(),
			SteadyRightN: right.Steady, SteadyDownN: down.Steady,
			Hz: known(limits.TurningAt(f.rpm(), nil).SecondOrderHz),
		})
	}
	if l.Forces.Free >= 0 {
		doc.Ends = append(doc.Ends, endDocument{f.shaftName(l.Forces.Free), f.endForce()})
	}
	return doc
}
