// Package adjust says what to change on a vehicle to bring its driveline within
// limits, and what a driveline would be like if something about it were changed.
//
// # How a change moves the vehicle
//
// A driveline in space is a line of points: the pivot of the engine mounts, the
// joint centres, the centre line of the axle. Pivot and centre line stay; every
// change but clocking moves one joint, and so turns the shafts on both sides:
//
//	wedge           the last joint, on an arc about the centre line of the axle
//	mount           the first joint, on an arc about the pivot
//	bearing-height  an inner joint, straight down
//	bearing-side    an inner joint, straight to the right
//	length          an inner joint, along the shaft before it
//	clocking        nothing, but turns the yoke at the driven end of a shaft
//
// Hence the lengths of both shafts must be known. What the distances between the
// joints change is left to the slip joints. Changes made together are each
// followed from the vehicle as measured, so that their order does not matter.
//
// Where the length of the pinion or of the shaft before it is not known, a wedge
// only tilts the pinion. That is an approximation: the joint really moves by the
// wedge times the pinion's length, and turns the shaft before it by the wedge
// times the ratio of the two lengths, some tenths of the wedge.
//
// [Search] looks for the best changes, [NewSweep] varies one or two quantities,
// [NewTravel] goes through the poses of the suspension. All values are in the
// units of the survey.
package adjust
