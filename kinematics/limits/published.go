package limits

import (
	"maps"
	"slices"

	"halfturn/kinematics/survey"
)

// published is a limit as somebody prints it or, with the source NoSource, as
// the trade keeps it.
type published struct {
	sets   []string // in which it has a say
	name   string   // one of survey.LimitNames
	bound  bound
	source string
	note   string // what the source says beside the number; "" for nothing
}

func (p published) basis() string {
	if p.note == "" {
		return p.source
	}
	return p.source + ": " + p.note
}

// The work that a source speaks of, by the sets in which it has a say.
var (
	onRoad     = []string{survey.SetLightVehicle, survey.SetRoadStrict, survey.SetHeavyRoad}
	inMachines = []string{survey.SetMachinery, survey.SetSlowHeavy}
	atSpeed    = []string{survey.SetLightVehicle, survey.SetRoadStrict, survey.SetHeavyRoad, survey.SetMachinery}
	anywhere   = survey.SetNames
	slow       = []string{survey.SetSlowHeavy}
	fast       = []string{survey.SetMachinery}
)

const (
	chelsea    = "Parker Chelsea bulletin HY25-1890-M1/US, p. 5 (Spicer universal joint operating angles)"
	chrysler   = "Chrysler Aspen 2007 service text, propeller shaft angle rules"
	danaSpeed  = "Dana commercial drive-shaft catalogue, influence of speed and deflection angle"
	darley     = "W. S. Darley ZSP pump manual, document 1201050 (rev. 2016)"
	device     = "Spicer Driveline Installation service manual, printed p. 17 (Fig. 14)"
	diamond    = "Diamond DA435HA manual sec. 2-4-1"
	edge       = "Engineers Edge, Design Guidelines for Drive Shaft Installation Angle, two-joint chart (refers to SAE AE-7 sec. 3.1.1)"
	elbe       = "Elbe-group technical section 3 (non-uniformity)"
	elbeDouble = "Elbe-group technical section 7 (double joint shafts)"
	gwb38      = "Dana/GWB, Cardan Shafts for Industrial Applications, catalogue p. 38"
	gwb39      = "Dana/GWB, Cardan Shafts for Industrial Applications, catalogue p. 39"
	hints      = "Anwendungstechnische Hinweise fuer den Einsatz von Gelenkwellen (cardan-shaft maker, German/English) p. 1"
	hyundai    = "Hyundai Body Builder manual 2015 (LCV) p. 95"
	isuzu      = "Isuzu Hombre 1999 (GM) service text, two-piece propeller shaft working angles"
	jeep       = "Jeep JK 2007 service text, propeller shaft angle rules"
	meritor    = "Meritor MM-96147 Drivelines maintenance manual (rev. 03-21) p. 87, Figs 14.33-14.36"
	navy       = "NAVEDTRA 14050A (US Navy), p. 8-48, Fig. 8-40"
	sdpAccel   = "SDP/SI catalogue D200 universal-joint technical section p. T60"
	sdpAngle   = "SDP/SI catalogue D757 universal-joint text, sec. 1.0"
	spicer     = "Spicer Driveline Installation service manual, printed p. 10 (Fig. 6)"
	truck      = "TM 5-3820-256-24-4 / CTS-4017 truck service manual pp. 20, 23"
)

// library holds the printed limits by their row in testdata/published.csv; of a
// table, its first row.
var library = map[string]published{
	"S3-36": {onRoad, survey.LimitCompanionDifference, fixed(1), spicer, ""},
	"S3-37": {onRoad, survey.LimitCompanionDifference, fixed(1.5), meritor, ""},
	"S3-39": {onRoad, survey.LimitCompanionDifference, fixed(1.5), edge, ""},
	"S3-41": {onRoad, survey.LimitCompanionDifference, fixed(1), chrysler, ""},
	"S3-44": {onRoad, survey.LimitCompanionDifference, fixed(1), jeep, ""},
	"S3-50": {onRoad, survey.LimitCompanionDifference, fixed(1), diamond, ""},
	"S3-59": {onRoad, survey.LimitCompanionDifference, fixed(3), truck, ""},
	"S3-33": {fast, survey.LimitCompanionDifference, fixed(1.5), gwb38, "high torque and speed, upper value of 1 to 1.5"},
	"S3-34": {fast, survey.LimitCompanionDifference, fixed(1), gwb38, "high torque and speed, lower value of 1 to 1.5"},
	"S3-35": {slow, survey.LimitCompanionDifference, fixed(5), gwb39, "low speed, upper value of 3 to 5"},

	"S3-54": {onRoad, survey.LimitOddJointMax, fixed(0.5), isuzu, ""},
	"S3-57": {onRoad, survey.LimitOddJointMax, fixed(1.5), device, "input end of each shaft, upper value of 1 to 1.5"},

	"S3-48": {onRoad, survey.LimitLoneJointMax, fixed(1.5), jeep, "where only one Cardan joint is used"},

	"S3-43": {onRoad, survey.LimitWorkingAngleMin, fixed(0.5), chrysler, ""},
	"S3-47": {onRoad, survey.LimitWorkingAngleMin, fixed(0.5), jeep, ""},
	"S3-49": {onRoad, survey.LimitWorkingAngleMin, fixed(1), diamond, ""},
	"S3-53": {onRoad, survey.LimitWorkingAngleMin, fixed(0.5), hyundai, ""},
	"S3-56": {onRoad, survey.LimitWorkingAngleMin, fixed(0.5), device, "at a device"},
	"S3-55": {inMachines, survey.LimitWorkingAngleMin, fixed(1), hints, "for lubrication"},

	"S3-38": {onRoad, survey.LimitWorkingAngleMax, fixed(5), meritor, "compound angle in operation"},
	"S3-40": {onRoad, survey.LimitWorkingAngleMax, fixed(6), edge, ""},
	"S3-42": {onRoad, survey.LimitWorkingAngleMax, fixed(3), chrysler, ""},
	"S3-45": {onRoad, survey.LimitWorkingAngleMax, fixed(3), jeep, ""},
	"S3-51": {onRoad, survey.LimitWorkingAngleMax, fixed(3), diamond, ""},
	"S3-52": {onRoad, survey.LimitWorkingAngleMax, fixed(3), hyundai, "vehicle standing"},
	"S3-58": {onRoad, survey.LimitWorkingAngleMax, fixed(3), device, "at a device"},
	"S3-62": {inMachines, survey.LimitWorkingAngleMax, fixed(25), sdpAngle, "usual upper value"},
	// The bulletin gives an acceleration as the basis of its table, misprinted as
	// 100 rad/s²: its rows at 2000 and 3000 rpm follow from 1000 rad/s², those at
	// 500 and 1000 rpm are capped.
	"S3-07": {atSpeed, survey.LimitWorkingAngleMax, accelBound{accel: 1000, cap: 11.5}, chelsea,
		"peak of 1000 rad/s² behind the joint (inferred, printed as 100), at most 11.5 deg"},
	"S3-08": {atSpeed, survey.LimitWorkingAngleMax, tableBound{
		{1000, 12}, {1500, 11}, {2000, 8}, {2500, 7}, {3000, 5}, {3500, 5},
	}, navy, "table, read at the next printed speed"},

	"S3-46": {onRoad, survey.LimitConstantVelocityMax, fixed(10), jeep, ""},
	"S7-01": {inMachines, survey.LimitDoubleCardanMax, fixed(35), elbeDouble, "synchronous bend of the smaller series"},
	"S7-02": {inMachines, survey.LimitDoubleCardanMax, fixed(32), elbeDouble, "synchronous bend of the larger series"},
	"S7-03": {onRoad, survey.LimitDoubleCardanMax, fixed(30), elbeDouble, "synchronous bend, lower value of 30 to 35"},

	"S3-14": {atSpeed, survey.LimitResidualAccel, fixed(500), darley, "torsional"},
	"S2-08": {onRoad, survey.LimitResidualAccel, fixed(402.3), edge, "402.3 inferred from the chart"},
	"S3-18": {anywhere, survey.LimitResidualAccel, fixed(300), sdpAccel, "recommended peak, low end"},
	"S3-19": {inMachines, survey.LimitResidualAccel, fixed(2000), sdpAccel, "recommended peak, high end"},
	"S3-15": {anywhere, survey.LimitInertiaDriveAccel, fixed(1000), darley, "inertial drive"},

	"S3-32a": {inMachines, survey.LimitNonuniformity, fixed(0.0027), elbe, "resultant of two or more joints"},

	"S3-20": {atSpeed, survey.LimitSpeedAngle, fixed(27000), danaSpeed, "joint size 2015, the smallest"},
	"S3-31": {anywhere, survey.LimitSpeedAngle, fixed(17000), danaSpeed, "joint size 2065, the largest"},
}

// pertinent returns what is printed on a limit for the work of a set, in the
// order of the library's keys.
func pertinent(set, name string) []published {
	var list []published
	for _, id := range slices.Sorted(maps.Keys(library)) {
		if p := library[id]; p.name == name && slices.Contains(p.sets, set) {
			list = append(list, p)
		}
	}
	return list
}
