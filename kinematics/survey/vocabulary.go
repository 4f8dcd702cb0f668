package survey

// Names of the sets of limits.
const (
	SetLightVehicle = "light-vehicle"
	SetRoadStrict   = "road-strict"
	SetHeavyRoad    = "heavy-road"
	SetMachinery    = "machinery"
	SetSlowHeavy    = "slow-heavy"
)

// SetNames lists every set of limits, the one that is used where none is named
// first.
var SetNames = []string{SetLightVehicle, SetRoadStrict, SetHeavyRoad, SetMachinery, SetSlowHeavy}

// Names of the limits. The unit stands in the name; all are above 0.
const (
	LimitCompanionDifference = "companion_difference_deg"
	LimitOddJointMax         = "odd_joint_max_deg"
	LimitOddJointMin         = "odd_joint_min_deg"
	LimitLoneJointMax        = "lone_joint_max_deg"
	LimitWorkingAngleMin     = "working_angle_min_deg"
	LimitWorkingAngleMax     = "working_angle_max_deg"
	LimitConstantVelocityMax = "constant_velocity_max_deg"
	LimitDoubleCardanMax     = "double_cardan_max_deg"
	LimitResidualAccel       = "residual_accel_rad_s2"
	LimitInertiaDriveAccel   = "inertia_drive_accel_rad_s2"
	LimitInertiaCoastAccel   = "inertia_coast_accel_rad_s2"
	LimitEquivalentAngle     = "equivalent_angle_deg"
	LimitNonuniformity       = "nonuniformity"
	LimitSpeedAngle          = "speed_angle_rpm_deg"
	LimitBearingSwing        = "bearing_swing_n"
)

// limitFields are the limits as fields of a file, in the order of writing.
var limitFields = []struct{ name, doc string }{
	{LimitCompanionDifference, "Greatest mismatch of two companion joints, or of a group, in degrees: the difference of their working angles where their yokes are in phase and their shafts in one plane."},
	{LimitOddJointMax, "Greatest working angle of the joint that has no companion, in degrees."},
	{LimitOddJointMin, "Smallest working angle of the joint that has no companion, in degrees: nearly straight, not dead straight."},
	{LimitLoneJointMax, "Greatest working angle of a single Cardan joint beside joints of other kinds, in degrees."},
	{LimitWorkingAngleMin, "Smallest working angle of a joint that has a companion, in degrees: its needle bearings must rock."},
	{LimitWorkingAngleMax, "Greatest working angle of a Cardan joint, in degrees."},
	{LimitConstantVelocityMax, "Greatest working angle of a constant-velocity joint, in degrees."},
	{LimitDoubleCardanMax, "Greatest working angle of a double-cardan joint, in degrees."},
	{LimitResidualAccel, "Greatest torsional acceleration left at the last shaft, in rad/s²."},
	{LimitInertiaDriveAccel, "Greatest torsional acceleration of a shaft between two joints when driving, in rad/s²."},
	{LimitInertiaCoastAccel, "Greatest torsional acceleration of a shaft between two joints when coasting, in rad/s²."},
	{LimitEquivalentAngle, "Greatest equivalent angle: the one joint that would leave the same fluctuation, in degrees."},
	{LimitNonuniformity, "Greatest non-uniformity of the last shaft: fastest less slowest speed ratio."},
	{LimitSpeedAngle, "Greatest product of speed and working angle of a joint, in rpm times degrees."},
	{LimitBearingSwing, "Greatest force that swings at a centre bearing twice a turn, either way, in N."},
}

// LimitNames lists every limit, in the order in which they are written.
var LimitNames = func() (names []string) {
	for _, row := range limitFields {
		names = append(names, row.name)
	}
	return names
}()

// OnlyLimits returns limits of which nothing is left but the given ones, by names
// out of LimitNames.
func OnlyLimits(values map[string]float64) Limits {
	l := Limits{Values: values}
	for _, name := range LimitNames {
		if _, given := values[name]; !given {
			l.Off = append(l.Off, name)
		}
	}
	return l
}
