package findings

import (
	"math/cmplx"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
)

// Document is what check --json prints: stable keys, numbers unrounded,
// units in the names. Accelerations are null when no speed is known.
type Document struct {
	Name          string              `json:"name"`
	RPM           float64             `json:"rpm"`
	SecondOrderHz float64             `json:"second_order_hz"`
	Shafts        []shaftDocument     `json:"shafts"`
	Joints        []jointDocument     `json:"joints"`
	Motion        []motionDocument    `json:"motion"`
	SecondOrder   secondOrderDocument `json:"second_order"`
	Coasting      []coastingDocument  `json:"coasting"`
	Questions     []string            `json:"questions"`
	Outcome       limits.Outcome      `json:"outcome"`
	Answer        string              `json:"answer"`
	PhaseCure     string              `json:"phase_cure,omitempty"`
	LimitSet      string              `json:"limit_set"`
	Verdicts      []limits.Verdict    `json:"verdicts"`
	Remarks       []string            `json:"remarks"`
	Crossings     []crossingDocument  `json:"limits_reached"`
	Frequencies   []frequencyDocument `json:"frequencies"`
	Poses         []stateDocument     `json:"poses"`
	Loads         loadsDocument       `json:"loads"`
}

type shaftDocument struct {
	Name       string  `json:"name"`
	DownDeg    float64 `json:"down_deg"`
	RightDeg   float64 `json:"right_deg"`
	InclineDeg float64 `json:"incline_deg"`
	PhaseDeg   float64 `json:"phase_deg"`
}

type jointDocument struct {
	Name            string          `json:"name"`
	Kind            kinematics.Kind `json:"kind"`
	WorkingAngleDeg float64         `json:"working_angle_deg"`
	SideAngleDeg    float64         `json:"side_angle_deg"`
	TopAngleDeg     float64         `json:"top_angle_deg"`
	PlaneDeg        float64         `json:"plane_deg"`
}

type motionDocument struct {
	Shaft             string          `json:"shaft"`
	RatioMin          float64         `json:"ratio_min"`
	RatioMax          float64         `json:"ratio_max"`
	RatioMean         float64         `json:"ratio_mean"`
	RatioRMSDeviation float64         `json:"ratio_rms_deviation"`
	Nonuniformity     float64         `json:"nonuniformity"`
	LeadMaxDeg        float64         `json:"lead_max_deg"`
	LeadMinDeg        float64         `json:"lead_min_deg"`
	PeakAccelRadS2    *float64        `json:"peak_accel_rad_s2"`
	RMSAccelRadS2     *float64        `json:"rms_accel_rad_s2"`
	Orders            []orderDocument `json:"orders"`
}

type orderDocument struct {
	Order        int      `json:"order"`
	LeadDeg      float64  `json:"lead_deg"`
	SpeedPercent float64  `json:"speed_percent"`
	AccelRadS2   *float64 `json:"accel_rad_s2"`
	PhaseDeg     float64  `json:"phase_deg"`
}

type secondOrderDocument struct {
	Terms                   []termDocument      `json:"terms"`
	Sum                     sumDocument         `json:"sum"`
	EquivalentAngleDeg      float64             `json:"equivalent_angle_deg"`
	ExactEquivalentAngleDeg float64             `json:"exact_equivalent_angle_deg"`
	BestPhases              []bestPhaseDocument `json:"best_phases"`
}

type termDocument struct {
	Joint string `json:"joint"`
	sumDocument
}

// sumDocument is a vector of the second order.
type sumDocument struct {
	SizeDeg2     float64 `json:"size_deg2"`
	DirectionDeg float64 `json:"direction_deg"`
}

func newSumDocument(v complex128) sumDocument {
	return sumDocument{
		SizeDeg2:     cmplx.Abs(v) / (kinematics.Degree * kinematics.Degree),
		DirectionDeg: cmplx.Phase(v) / kinematics.Degree,
	}
}

// bestPhaseDocument is the phase of one shaft that leaves the least, all others as
// they are; null where no phase is better than another.
type bestPhaseDocument struct {
	Shaft                   string   `json:"shaft"`
	PhaseDeg                *float64 `json:"phase_deg"`
	ExactEquivalentAngleDeg float64  `json:"exact_equivalent_angle_deg"`
}

type coastingDocument struct {
	Shaft          string   `json:"shaft"`
	RatioMin       float64  `json:"ratio_min"`
	RatioMax       float64  `json:"ratio_max"`
	PeakAccelRadS2 *float64 `json:"peak_accel_rad_s2"`
}

// crossingDocument is the speed at which a limit is reached; the road speeds are
// null where the gearing is not known.
type crossingDocument struct {
	Subject  string   `json:"subject"`
	Quantity string   `json:"quantity"`
	Value    float64  `json:"value"`
	Unit     string   `json:"unit"`
	RPM      float64  `json:"rpm"`
	SpeedKMH *float64 `json:"speed_kmh"`
	SpeedMPH *float64 `json:"speed_mph"`
}

// Document returns what check --json prints.
func (f *Findings) Document() Document {
	sv, a, rpm := f.Survey, f.Analysis, f.rpm()
	doc := Document{
		Name:          sv.Name,
		RPM:           rpm,
		SecondOrderHz: limits.TurningAt(rpm, nil).SecondOrderHz,
		Outcome:       f.Judgement.Outcome,
		Answer:        f.verdict(),
		PhaseCure:     f.Judgement.PhaseCure,
		LimitSet:      f.Judgement.Set.Name,
		Verdicts:      listed(f.Judgement.Verdicts),
		Crossings:     mapped(f.Judgement.Crossings, newCrossingDocument),
		Remarks:       listed(f.Judgement.Remarks),
		Frequencies:   mapped(limits.Turnings(sv), newFrequencyDocument),
		Poses:         mapped(f.Poses, newStateDocument),
		Loads:         f.loadsDocument(),
		Questions:     listed(f.Questions),
		SecondOrder: secondOrderDocument{
			Sum:                     newSumDocument(a.SecondOrder.Sum),
			BestPhases:              f.bestPhases(),
			EquivalentAngleDeg:      a.SecondOrder.Equivalent / kinematics.Degree,
			ExactEquivalentAngleDeg: a.SecondOrder.Exact / kinematics.Degree,
		},
	}
	speed := rpm * kinematics.RPM
	for k, axis := range sv.Axes() {
		shaft := sv.Shafts[k]
		down, right := kinematics.Slopes(axis)
		doc.Shafts = append(doc.Shafts, shaftDocument{
			Name:       shaft.Name,
			DownDeg:    down / kinematics.Degree,
			RightDeg:   right / kinematics.Degree,
			InclineDeg: kinematics.Incline(axis) / kinematics.Degree,
			PhaseDeg:   shaft.PhaseDeg.Mean(),
		})
		doc.Motion = append(doc.Motion, newMotionDocument(shaft.Name, speed, a.Driving[k], a.Orders[k]))
		doc.Coasting = append(doc.Coasting, coastingDocument{
			Shaft:          shaft.Name,
			RatioMin:       a.Coasting[k].MinRatio(),
			RatioMax:       a.Coasting[k].MaxRatio(),
			PeakAccelRadS2: atSpeed(a.Coasting[k].PeakAccel(), speed),
		})
	}
	for k, b := range a.Bends {
		joint, term := sv.Joints[k], a.SecondOrder.Terms[k]
		doc.Joints = append(doc.Joints, jointDocument{
			Name:            joint.Name,
			Kind:            joint.Kind,
			WorkingAngleDeg: b.Angle / kinematics.Degree,
			SideAngleDeg:    b.Side / kinematics.Degree,
			TopAngleDeg:     b.Top / kinematics.Degree,
			PlaneDeg:        b.Plane / kinematics.Degree,
		})
		doc.SecondOrder.Terms = append(doc.SecondOrder.Terms, termDocument{joint.Name, newSumDocument(term)})
	}
	return doc
}

// bestPhases returns the best phase of every shaft between two joints.
func (f *Findings) bestPhases() []bestPhaseDocument {
	list := []bestPhaseDocument{}
	for k := 1; k < len(f.Survey.Shafts)-1; k++ {
		best, err := f.Driveline.BestPhase(k)
		if err != nil {
			panic(err) // the shaft is one between two joints
		}
		doc := bestPhaseDocument{Shaft: f.Survey.Shafts[k].Name, ExactEquivalentAngleDeg: best.Left.Angle() / kinematics.Degree}
		if best.Matters {
			phase := best.Phase / kinematics.Degree
			doc.PhaseDeg = &phase
		}
		list = append(list, doc)
	}
	return list
}

func newCrossingDocument(x limits.Crossing) crossingDocument {
	return crossingDocument{
		Subject: x.Subject, Quantity: x.Quantity, Value: x.Value, Unit: x.Unit,
		RPM: x.RPM, SpeedKMH: known(x.KMH), SpeedMPH: known(x.MPH),
	}
}

func newMotionDocument(name string, speed float64, m kinematics.Motion, orders []kinematics.Order) motionDocument {
	doc := motionDocument{
		Shaft:             name,
		RatioMin:          m.MinRatio(),
		RatioMax:          m.MaxRatio(),
		RatioMean:         kinematics.MeanRatio,
		RatioRMSDeviation: m.RMSDeviation(),
		Nonuniformity:     m.Nonuniformity(),
		LeadMaxDeg:        m.MaxLead() / kinematics.Degree,
		LeadMinDeg:        0 - m.MaxLead()/kinematics.Degree, // no minus zero
		PeakAccelRadS2:    atSpeed(m.PeakAccel(), speed),
		RMSAccelRadS2:     atSpeed(m.RMSAccel(), speed),
	}
	for _, o := range orders {
		doc.Orders = append(doc.Orders, orderDocument{
			Order:        o.Number,
			LeadDeg:      o.Lead / kinematics.Degree,
			SpeedPercent: o.Speed * 100,
			AccelRadS2:   atSpeed(o.Accel, speed),
			PhaseDeg:     o.Phase / kinematics.Degree,
		})
	}
	return doc
}

// atSpeed returns an acceleration in rad/s² at a driving speed in rad/s, or nil
// when that is zero, for not known.
func atSpeed(accel, speed float64) *float64 {
	if speed == 0 {
		return nil
	}
	accel *= speed * speed
	return &accel
}

// known returns a number, or nil where 0 stands for not known.
func known(v float64) *float64 {
	if v == 0 {
		return nil
	}
	return &v
}

// listed returns the list, never nil, so that JSON shows an empty one.
func listed[T any](list []T) []T { return append([]T{}, list...) }

// mapped returns f of every element, as listed.
func mapped[T, D any](list []T, f func(T) D) []D {
	docs := make([]D, 0, len(list))
	for _, v := range list {
		docs = append(docs, f(v))
	}
	return docs
}

// frequencyDocument is how often everything shakes at one speed; what needs the
// gearing is null where that is not known.
type frequencyDocument struct {
	RPM           float64  `json:"rpm"`
	SpeedKMH      *float64 `json:"speed_kmh"`
	SpeedMPH      *float64 `json:"speed_mph"`
	WheelHz       *float64 `json:"wheel_hz"`
	ShaftHz       float64  `json:"shaft_hz"`
	SecondOrderHz float64  `json:"second_order_hz"`
}

func newFrequencyDocument(x limits.Turning) frequencyDocument {
	return frequencyDocument{
		RPM: x.RPM, SpeedKMH: known(x.KMH), SpeedMPH: known(x.MPH),
		WheelHz: known(x.WheelHz), ShaftHz: x.ShaftHz, SecondOrderHz: x.SecondOrderHz,
	}
}
