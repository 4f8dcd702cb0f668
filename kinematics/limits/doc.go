// Package limits says what is acceptable: limits with their sources, the verdict
// on a driveline as measured, and the speeds at which limits are reached.
//
// A [Set] holds limits chosen for one kind of work; a driveline file names a set
// and overrides single limits. A [Gauge] measures the quantities that are judged,
// exactly and quickly. [Judge] propagates the errors of the measurement to each
// of them and compares its 95 % coverage interval with the limit:
//
//	readings ± error ── trial ──> driveline ── Gauge ──> values ± uncertainty
//	                                                         │
//	          file ── Set at this speed ──> limits ──────────┴──> verdicts
//
// Two kinds of limit stand side by side. The shop rules look at angles: companion
// joints alike, an odd joint nearly straight, no joint dead straight or bent too
// far. The others look at what the exact motion in space leaves: the last shaft's
// acceleration, the equivalent angle, the non-uniformity. Where the two disagree a
// remark says why.
//
// Angles are in deg and speeds in rpm here, the units of the limits; package
// kinematics beneath is in radians.
package limits
