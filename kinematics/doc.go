// Package kinematics is the exact motion of a chain of Cardan joints in space.
//
// # Frame and signs
//
// Stand at the driving end and look along the power flow: down is positive,
// right is positive, clockwise is positive.
//
//	        ẑ up
//	        │   x̂ level, along the power flow (into the page)
//	        │  ╱
//	        │ ╱
//	ŷ left ─┘            x̂, ŷ, ẑ right-handed: ŷ = ẑ × x̂
//
// A shaft whose side-view slope is s (down) and whose top-view heading is r
// (right) points along (1, −tan r, −tan s). A shaft turns clockwise when it
// turns by the right-hand rule about its axis u.
//
// Every shaft carries a reference direction e across its axis; azimuths are
// angles about u from e toward u × e. On the first shaft e is level, and each
// next shaft has the e before it, turned by the smallest rotation that carries
// one axis onto the next. That rotation is about the normal of the joint's
// plane, m = u₁ × u₂, so m has the same azimuth μ on both sides and the planes
// of all joints, however twisted in space, compare by plain subtraction.
//
// Everything is in radians. θ is the rotation of the driving shaft, zero when
// the ears of its yoke lie level. Speeds are ratios to the driving shaft's
// uniform speed ω, accelerations are in units of ω²: multiply by ω² in
// rad²/s² to have rad/s².
//
// # One joint
//
// With φ the azimuth of the driving ears from m and β the working angle, the
// cross keeps both pairs of ears square and so
//
//	tan φ′ = cos β · tan φ        (driven ears stand at φ′ + 90° from m)
//	ω₂/ω₁  = cos β / (cos²φ + cos²β sin²φ)
//
// # A chain is one joint
//
// Write an ear direction as z = e^{jφ}. The first equation says that the
// driven ears stand along cos φ + j·cos β sin φ, which is linear in z and z̄:
//
//	z → cos²(β/2)·z + sin²(β/2)·z̄
//
// Turning a yoke by a phase is linear too, so a whole chain is one map
// z → a·z + b·z̄, and any such map is again a single joint between two turns.
// Hence the fact on which this package rests: every shaft of a chain turns
// exactly as if one Cardan joint stood before it, of working angle
// 2·atan √|b/a| in the plane at azimuth arg(b/a)/2. [Motion] is that joint.
// Two cancelling joints are the case b = 0.
//
// # Loads
//
// A cross turns freely on its pins, so the couple it passes on is square to both
// pairs of them: besides the torque it bends both shafts, and their supports hold
// against that. For a constant torque on the first shaft, with z = e^{jθ}, every
// torque, couple and force of a chain is
//
//	s + p·z² + m·z̄²
//
// a steady part and a second order, whatever the angles, phases and planes. What
// shakes a centre bearing is therefore a force that turns, nearly in a circle, twice
// as fast as the shaft, as large as the torque and whatever the speed. [Couples] and
// [Forces] derive them; [Wave] and [Load] hold them.
//
// Left out are inertia, weight, friction of the slip, wind-up, and that angles change
// under load: give the angles as they are then. Inertia may be left out while J·α of
// a shaft is small beside the torque, as at pull-away. Weight and the friction of the
// slip are as large as the steady parts of the forces, which are not to be trusted
// for that; the swings are not touched by either.
package kinematics
