// A chain of shafts and universal joints as rigid bodies, solved by Simbody.
//
// Nothing here knows the closed form of a Cardan joint. Each shaft is a body hung on the one before it by Simbody's
// universal mobilizer (two hinges, square to each other), and two constraints hold its axis in the direction of its
// bearings. The first shaft is turned; Simbody's constraint solver finds where all others are, how fast they turn and
// how they accelerate.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#ifdef NDEBUG
#error "Debian's Simbody is built without NDEBUG, and its headers lay out classes differently with it"
#endif
#include "Simbody.h"

inline double radians(double degrees) { return degrees * (SimTK::Pi / 180); }

// Angles as in a driveline file: degrees, seen by a viewer at the driving end who looks along the power flow,
// down, right and clockwise positive. One down and one right per shaft, one phase per shaft between two joints.
struct Chain {
    std::string name;
    std::vector<double> down_deg, right_deg, phase_deg;

    std::size_t shafts() const { return down_deg.size(); }

    // Along the flow, in the driveline frame: x level along the flow, y to the viewer's left, z up.
    SimTK::UnitVec3 axis(std::size_t shaft) const {
        return SimTK::UnitVec3(1, -std::tan(radians(right_deg[shaft])), -std::tan(radians(down_deg[shaft])));
    }

    // How far the driven-end yoke is turned from the driving-end one; the first shaft has no driving-end yoke.
    double phase(std::size_t shaft) const { return shaft == 0 ? 0 : phase_deg[shaft - 1]; }
};

struct Turning {
    double rotation_rad;  // about the shaft's own axis, clockwise along the flow, since theta = 0
    double speed;         // rad/s when shaft 1 turns at 1 rad/s: the speed ratio
    double accel;         // rad/s² when shaft 1 turns at 1 rad/s: the acceleration per speed²
};


// Shaft 1 turns at 1 rad/s, so that time and theta are one number.
class UniformTurn : public SimTK::Motion::Custom::Implementation {
public:
    SimTK::Motion::Level getLevel(const SimTK::State&) const override { return SimTK::Motion::Position; }
    void calcPrescribedPosition(const SimTK::State& s, int, double* q) const override { q[0] = s.getTime(); }
    void calcPrescribedPositionDot(const SimTK::State&, int, double* qdot) const override { qdot[0] = 1; }
    void calcPrescribedPositionDotDot(const SimTK::State&, int, double* qdotdot) const override { qdotdot[0] = 0; }
};

class Mechanism {
public:
    explicit Mechanism(const Chain& chain);

    // Moves on to theta, in small enough steps that every shaft can be followed, and solves there.
    const std::vector<Turning>& moveTo(double theta_rad);

    // Solves position, velocity and acceleration at theta, which must be near the present one.
    void solve(double theta_rad);

private:
    using Vec3 = SimTK::Vec3;

    SimTK::Rotation yokeFrame(std::size_t shaft, const Vec3& drivingEars) const;
    void follow();

    std::vector<SimTK::UnitVec3> axes;
    std::vector<Vec3> marksAtZero;  // a line across each shaft as it stands at theta = 0
    std::vector<Turning> turning;

    SimTK::MultibodySystem system;
    SimTK::SimbodyMatterSubsystem matter{system};
    std::vector<SimTK::MobilizedBody> shafts;
    SimTK::State state;
    double theta = 0;
};

// Body frame of a shaft: origin at its driving-end joint, x along the ears of its driving-end yoke, z along the axis.
// Shaft 1 has no driving-end yoke: its x lies along the ears of its only one, level at theta = 0.
inline Mechanism::Mechanism(const Chain& chain) {
    using namespace SimTK;

    for (std::size_t k = 0; k < chain.shafts(); k++) axes.push_back(chain.axis(k));

    // Inertia and length have no say in a motion that is wholly prescribed; these keep the equations well scaled.
    const Body::Rigid body(MassProperties(1, Vec3(0), UnitInertia(1)));
    const Vec3 nextJoint(0, 0, 1);

    const Vec3 level = Vec3(cross(Vec3(0, 0, 1), Vec3(axes[0]))).normalize();
    std::vector<Rotation> atZero{yokeFrame(0, level)};
    shafts.push_back(MobilizedBody::Pin(matter.Ground(), Transform(atZero[0]), body, Transform()));
    Motion::Custom(shafts[0], new UniformTurn);

    // Simbody's universal joint turns about x of the inboard frame, then about y of the outboard one.
    const Rotation yAlongEars(-Pi / 2, ZAxis);
    std::vector<Rotation> crossAtZero(1);
    for (std::size_t k = 1; k < chain.shafts(); k++) {
        const Rotation drivenYoke(radians(chain.phase(k - 1)), ZAxis);
        shafts.push_back(MobilizedBody::Universal(shafts[k - 1], Transform(drivenYoke, nextJoint), body,
                                                  Transform(yAlongEars)));
        const Rotation inboard = atZero[k - 1] * drivenYoke;
        atZero.push_back(yokeFrame(k, cross(Vec3(axes[k]), Vec3(inboard.x())).normalize()));
        crossAtZero.push_back(~inboard * atZero[k] * yAlongEars);

        const Rotation across(axes[k], ZAxis);
        Constraint::ConstantAngle(matter.Ground(), across.x(), shafts[k], UnitVec3(ZAxis), Pi / 2);
        Constraint::ConstantAngle(matter.Ground(), across.y(), shafts[k], UnitVec3(ZAxis), Pi / 2);
    }

    state = system.realizeTopology();
    system.realizeModel(state);
    for (std::size_t k = 1; k < shafts.size(); k++) shafts[k].setQToFitRotation(state, crossAtZero[k]);
    solve(0);

    turning.resize(shafts.size());
    for (const MobilizedBody& shaft : shafts) marksAtZero.push_back(shaft.getBodyRotation(state).x());
    follow();
}

inline const std::vector<Turning>& Mechanism::moveTo(double theta_rad) {
    const double start = theta;
    const int steps = std::max(1, int(std::ceil(std::abs(theta_rad - start) / radians(5))));
    for (int i = 1; i <= steps; i++) {
        solve(i == steps ? theta_rad : start + (theta_rad - start) * i / steps);
        follow();
    }
    return turning;
}

inline void Mechanism::solve(double theta_rad) {
    using namespace SimTK;

    // Newton's method stops below a tenth of the accuracy asked for, and asking for still more can fail on rounding. A
    // second call is forced to take one more step, which ends at the rounding of a double.
    ProjectOptions tight(1e-13);
    tight.setOption(ProjectOptions::ForceProjection);
    tight.setOption(ProjectOptions::ForceFullNewton);
    ProjectResults results;
    Vector noEstimate;

    theta = theta_rad;
    state.setTime(theta);
    system.realize(state, Stage::Time);
    system.prescribeQ(state);
    system.realize(state, Stage::Position);
    for (int call = 0; call < 2; call++) {
        system.projectQ(state, noEstimate, tight, results);
        system.realize(state, Stage::Position);
    }
    system.prescribeU(state);
    system.realize(state, Stage::Velocity);
    system.projectU(state, noEstimate, tight, results);
    system.realize(state, Stage::Acceleration);
}

// Body frame, seen from the ground, of a shaft whose driving-end ears point that way.
inline SimTK::Rotation Mechanism::yokeFrame(std::size_t shaft, const Vec3& drivingEars) const {
    return SimTK::Rotation(axes[shaft], SimTK::ZAxis, drivingEars, SimTK::XAxis);
}

// Reads off the solved state how each shaft stands and moves about its bearing axis.
inline void Mechanism::follow() {
    for (std::size_t k = 0; k < shafts.size(); k++) {
        const Vec3 axis(axes[k]);
        const Vec3 mark(shafts[k].getBodyRotation(state).x());
        const double turned = std::atan2(dot(axis, cross(marksAtZero[k], mark)), dot(marksAtZero[k], mark));
        Turning& t = turning[k];
        t.rotation_rad += std::remainder(turned - t.rotation_rad, 2 * SimTK::Pi);
        t.speed = dot(axis, shafts[k].getBodyAngularVelocity(state));
        t.accel = dot(axis, shafts[k].getBodyAngularAcceleration(state));
    }
}
