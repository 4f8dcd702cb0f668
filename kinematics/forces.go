package kinematics

import (
	"errors"
	"fmt"
	"math/cmplx"

	"gonum.org/v1/gonum/spatial/r3"
)

// Support is how a shaft between two joints is held.
type Support struct {
	// Length between the two joint centres, in any unit: forces come in the unit of
	// torque divided by it. With N·m and m they are N.
	Length float64
	// Held says that the shaft has a centre bearing, Bearing away from the joint at
	// its driving end, 0 to Length. One shaft must be without.
	Held    bool
	Bearing float64
}

// Stretched returns the support of the shaft at another length: its bearing keeps its
// part of it.
func (s Support) Stretched(length float64) Support {
	if s.Length > 0 {
		s.Bearing = length * (s.Bearing / s.Length) // at most length
	}
	s.Length = length
	return s
}

// Forces is what the joints and the centre bearings bear while a constant torque
// acts on the first shaft.
type Forces struct {
	// Joints holds, of every joint, the force of the shaft before it on the shaft
	// behind it, at the joint centre. On the end of the first shaft it is the
	// reverse, on that of the last shaft the force itself.
	Joints []Load
	// Bearings holds the centre bearings in the order of the power flow.
	Bearings []BearingForce
	// Free is the shaft without a centre bearing, counted from 0. Its ends bear
	// Joints[Free], the same at both. It is −1 where there are two shafts only.
	Free int
}

// BearingForce is the force of a shaft on its centre bearing, square to the shaft.
type BearingForce struct {
	Shaft int // counted from 0
	Force Load
}

// Why statics does not give the forces; see SupportError.
var (
	ErrNoLength       = errors.New("no length between its joints is known")
	ErrNoFreeShaft    = errors.New("one centre bearing too many: want a shaft between two joints without one")
	ErrManyFreeShafts = errors.New("no centre bearing: want one on every shaft between two joints but one")
	ErrBearingAtJoint = errors.New("centre bearing at the joint away from the shaft without one, which then nothing holds")
)

// SupportError says of which shaft the support leaves the forces open.
type SupportError struct {
	Shaft int   // counted from 0
	Err   error // one of those above
}

func (e *SupportError) Error() string { return fmt.Sprintf("shafts[%d]: %v", e.Shaft, e.Err) }

// Unwrap returns e.Err.
func (e *SupportError) Unwrap() error { return e.Err }

// Forces returns the forces when torque acts on the first shaft. There is one
// support for each shaft; those of the first and the last shaft, which run in
// housings, are not looked at.
//
// Joints pass on any force, centre bearings such as are square to their shaft;
// nothing has weight or inertia, and the slip of the shaft without a bearing has no
// friction. Then each shaft between two joints is in balance for itself: with u its
// axis, G the couple across it and d its bearing's distance from the joint at which
// F enters, d′ from the joint at which F′ leaves,
//
//	d·F + d′·F′ = −u × G  (across the shaft),  F·u = F′·u
//
// which starts from the shaft without a bearing, where F = F′ = −u × G/L, and goes on
// toward both ends. Statics settles the forces when every shaft between two joints
// but one has a bearing, and that not at its joint away from that one: otherwise the
// error is a *SupportError, or a *RangeError for a number that cannot be. The force
// of a single joint between two shafts is not a matter of statics either; it is
// taken as zero. Derived here from the balance of each shaft; no source.
func (d *Driveline) Forces(torque float64, supports []Support) (*Forces, error) {
	free, err := d.freeShaft(supports)
	if err != nil {
		return nil, err
	}
	f := &Forces{Joints: d.jointForces(nil, torque, supports, free), Free: free}
	for k := 1; k < len(d.joints); k++ {
		if k != free {
			f.Bearings = append(f.Bearings, BearingForce{k, bearingForce(f.Joints, k)})
		}
	}
	return f, nil
}

// BearingSwing returns the greatest swing of the force on any centre bearing, as
// Load.Swing of Forces, without allocating: for searches. It is 0 where there is
// none.
func (d *Driveline) BearingSwing(torque float64, supports []Support) (float64, error) {
	var buffer [8]complex128
	swings, err := d.BearingSwings(buffer[:0], torque, supports)
	swing := 0.0
	for _, s := range swings {
		swing = max(swing, cmplx.Abs(s))
	}
	return swing, err
}

// BearingSwings appends to dst the swing of the force on every centre bearing, in the
// order of Forces: its size, as Load.Swing, in the direction that the part of it which
// turns forward has at θ = 0, as right + j·down. So swings of drivelines that hardly
// differ hardly differ as vectors.
func (d *Driveline) BearingSwings(dst []complex128, torque float64, supports []Support) ([]complex128, error) {
	free, err := d.freeShaft(supports)
	if err != nil {
		return dst, err
	}
	var buffer [8]Load
	joints := d.jointForces(buffer[:0], torque, supports, free)
	for k := 1; k < len(d.joints); k++ {
		if k == free {
			continue
		}
		force := bearingForce(joints, k)
		cos, sin := complex(-force.Cos.Y, -force.Cos.Z), complex(-force.Sin.Y, -force.Sin.Z)
		swing := complex(force.Swing(), 0)
		if forward := cos - 1i*sin; forward != 0 {
			swing *= forward / complex(cmplx.Abs(forward), 0)
		}
		dst = append(dst, swing)
	}
	return dst, nil
}

// freeShaft is FreeShaft of one support for each shaft.
func (d *Driveline) freeShaft(supports []Support) (int, error) {
	if len(supports) != len(d.shafts) {
		return -1, fmt.Errorf("driveline: %d supports: want %d, one for each shaft", len(supports), len(d.shafts))
	}
	return FreeShaft(supports)
}

// FreeShaft returns the shaft without a centre bearing, counted from 0, −1 of two
// shafts. Where statics does not settle the forces the error is that of Forces.
func FreeShaft(supports []Support) (int, error) {
	free := -1
	last := len(supports) - 2 // shaft between two joints
	for k := 1; k <= last; k++ {
		s := supports[k]
		switch {
		case s.Length == 0:
			return -1, &SupportError{k, ErrNoLength}
		case !(s.Length > 0) || !finite(s.Length):
			return -1, &RangeError{fmt.Sprintf("supports[%d].Length", k), s.Length, "", "a length above 0"}
		case s.Held && !(s.Bearing >= 0 && s.Bearing <= s.Length):
			return -1, &RangeError{fmt.Sprintf("supports[%d].Bearing", k), s.Bearing, "", fmt.Sprintf("0 to the length of the shaft, %g", s.Length)}
		case !s.Held && free > 0:
			return -1, &SupportError{k, ErrManyFreeShafts}
		case !s.Held:
			free = k
		}
	}
	if last > 0 && free < 0 {
		return -1, &SupportError{last, ErrNoFreeShaft}
	}
	for k := 1; k <= last; k++ {
		s := supports[k]
		if k < free && s.Bearing == 0 || k > free && s.Bearing == s.Length {
			return -1, &SupportError{k, ErrBearingAtJoint}
		}
	}
	return free, nil
}

// jointForces appends the force of every joint to dst, as in Forces.Joints.
func (d *Driveline) jointForces(dst []Load, torque float64, supports []Support, free int) []Load {
	for range d.joints {
		dst = append(dst, Load{})
	}
	if free < 0 {
		return dst
	}
	alone := balance{d.bends[free].axis, supports[free].Length, 0}
	dst[free] = alone.other(Load{}, d.coupleAcross(free, torque))
	dst[free-1] = dst[free]
	for k := free - 1; k > 0; k-- {
		s := supports[k]
		b := balance{d.bends[k].axis, s.Bearing, s.Length - s.Bearing}
		dst[k-1] = b.other(dst[k], d.coupleAcross(k, torque))
	}
	for k := free + 1; k < len(d.joints); k++ {
		s := supports[k]
		b := balance{d.bends[k].axis, s.Length - s.Bearing, s.Bearing}
		dst[k] = b.other(dst[k-1], d.coupleAcross(k, torque))
	}
	return dst
}

// coupleAcross returns the couple across shaft k: what the joint before it brings
// less what the joint behind it takes away.
func (d *Driveline) coupleAcross(k int, torque float64) Load {
	couple := d.drivenCouple(k - 1).plus(d.drivingCouple(k).times(-1))
	return d.load(k, couple.times(complex(torque, 0)))
}

// balance is that of a shaft along the unit vector axis about its bearing, which is
// the distance from one joint where the force is sought and from the other where it
// is known.
type balance struct {
	axis          r3.Vec
	sought, known float64
}

// other returns the force at the one joint from that at the other and from the
// couple across the shaft.
func (b balance) other(force, couple Load) Load {
	return force.combine(couple, func(force, couple r3.Vec) r3.Vec {
		along := r3.Scale(r3.Dot(force, b.axis), b.axis)
		across := r3.Sub(force, along)
		moment := r3.Add(r3.Cross(b.axis, couple), r3.Scale(b.known, across))
		return r3.Sub(along, r3.Scale(1/b.sought, moment))
	})
}

// bearingForce returns the force of shaft k on its centre bearing: what enters at
// the joint before it and does not leave at the joint behind it.
func bearingForce(joints []Load, k int) Load {
	return joints[k-1].combine(joints[k], r3.Sub)
}
