package survey

// Names of the sets of limits.
const (
	SetRoadStrict = "road-strict"
	SetMachinery  = "machinery"
	SetSlowHeavy  = "slow-heavy"
)

// SetNames lists every set of limits.
var SetNames = []string{SetRoadStrict, SetMachinery, SetSlowHeavy}

// Names of the limits. The unit stands in the name; all are above 0.
const (
	LimitCompanionDifference = "companion_difference_deg"
	LimitOddJointMax         = "odd_joint_max_deg"
	LimitOddJointMin         = "odd_joint_min_deg"
	LimitLoneJointMax        = "lone_joint_max_deg" // Cardan joint behind one of another kind
	LimitWorkingAngleMin     = "working_angle_min_deg"
	LimitWorkingAngleMax     = "working_angle_max_deg"
	LimitConstantVelocityMax = "constant_velocity_max_deg"
	LimitDoubleCardanMax     = "double_cardan_max_deg"
	LimitResidualAccel       = "residual_accel_rad_s2"      // last shaft
	LimitInertiaDriveAccel   = "inertia_drive_accel_rad_s2" // intermediate shafts, driving
	LimitInertiaCoastAccel   = "inertia_coast_accel_rad_s2" // intermediate shafts, coasting
	LimitEquivalentAngle     = "equivalent_angle_deg"
	LimitNonuniformity       = "nonuniformity"
	LimitSpeedAngle          = "speed_angle_rpm_deg"
	LimitBearingSwing        = "bearing_swing_n"
)

// LimitNames lists every limit, in the order in which they are written.
var LimitNames = []string{
	LimitCompanionDifference,
	LimitOddJointMax,
	LimitOddJointMin,
	LimitLoneJointMax,
	LimitWorkingAngleMin,
	LimitWorkingAngleMax,
	LimitConstantVelocityMax,
	LimitDoubleCardanMax,
	LimitResidualAccel,
	LimitInertiaDriveAccel,
	LimitInertiaCoastAccel,
	LimitEquivalentAngle,
	LimitNonuniformity,
	LimitSpeedAngle,
	LimitBearingSwing,
}

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

// Names of the changes that can be made on a vehicle.
const (
	ChangeWedge         = "wedge"          // adds to the slope of the last shaft; deg
	ChangeBearingHeight = "bearing-height" // moves an inner joint down; Units
	ChangeBearingSide   = "bearing-side"   // moves an inner joint to the right; Units
	ChangeMount         = "mount"          // raises the driven end of the first shaft; Units
	ChangeClocking      = "clocking"       // adds to the phase of an intermediate shaft; deg
	ChangeLength        = "length"         // lengthens an intermediate shaft; Units
)

// Changes lists every kind of change.
var Changes = []string{
	ChangeWedge,
	ChangeBearingHeight,
	ChangeBearingSide,
	ChangeMount,
	ChangeClocking,
	ChangeLength,
}
