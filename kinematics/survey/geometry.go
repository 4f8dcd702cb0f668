package survey

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// Complete returns a copy with everything filled in that a file may leave out:
// the names of shafts and joints, the joints themselves, their kind, the unit.
func (s *Survey) Complete() *Survey {
	c := *s
	c.Units = cmp.Or(c.Units, Millimetre)
	c.Shafts = slices.Clone(s.Shafts)
	for i := range c.Shafts {
		c.Shafts[i].Name = cmp.Or(c.Shafts[i].Name, impliedShaft(i))
	}
	c.Joints = slices.Clone(s.Joints)
	if len(c.Joints) == 0 && len(c.Shafts) > 0 {
		c.Joints = make([]Joint, len(c.Shafts)-1)
	}
	for i := range c.Joints {
		c.Joints[i].Name = cmp.Or(c.Joints[i].Name, impliedJoint(i))
		c.Joints[i].Kind = cmp.Or(c.Joints[i].Kind, kinematics.Cardan)
	}
	return &c
}

// Driveline returns the exact model of the driveline, in radians, from the means
// of repeated readings. It fails only for a Survey that Validate refuses; of what is
// refused it takes a shaft without a slope as level, so validate one that is made in
// code first.
func (s *Survey) Driveline() (*kinematics.Driveline, error) {
	var joints []kinematics.Joint // nil: Cardan joints throughout
	for _, j := range s.Joints {
		joints = append(joints, kinematics.Joint{
			Kind:        j.Kind,
			Synchronous: j.SynchronousDeg * kinematics.Degree,
		})
	}
	return kinematics.New(s.AppendShafts(nil), joints)
}

// AppendShafts appends the shafts of the exact model to dst.
func (s *Survey) AppendShafts(dst []kinematics.Shaft) []kinematics.Shaft {
	for i, sh := range s.Shafts {
		dst = append(dst, kinematics.Shaft{Axis: s.axis(i), Phase: sh.PhaseDeg.Mean() * kinematics.Degree})
	}
	return dst
}

// Axes returns the direction of every shaft along the power flow, of any length,
// in the frame of package kinematics: from the joint centres where the driveline
// is Positioned and the shaft lies between two joints, else from the means of its
// slope and heading.
func (s *Survey) Axes() []r3.Vec {
	axes := make([]r3.Vec, len(s.Shafts))
	for i := range axes {
		axes[i] = s.axis(i)
	}
	return axes
}

func (s *Survey) axis(i int) r3.Vec {
	if s.between(i) && s.Positioned() {
		return s.Joints[i].At.from(*s.Joints[i-1].At)
	}
	return s.Shafts[i].Axis()
}

// Lengths returns the length of every shaft in Units: as given or, between two
// joint centres, as they stand apart. 0 is not known.
func (s *Survey) Lengths() []float64 {
	lengths := make([]float64, len(s.Shafts))
	for i, sh := range s.Shafts {
		lengths[i] = sh.Length
		if s.Positioned() && s.between(i) {
			lengths[i] = r3.Norm(s.Joints[i].At.from(*s.Joints[i-1].At))
		}
	}
	return lengths
}

// Positioned reports whether the shafts between two joints take their direction
// from the positions of the joint centres.
func (s *Survey) Positioned() bool {
	return len(s.Joints) == len(s.Shafts)-1 &&
		!slices.ContainsFunc(s.Joints, func(j Joint) bool { return j.At == nil })
}

// between reports whether shaft i lies between two joints.
func (s *Survey) between(i int) bool { return 0 < i && i < len(s.Shafts)-1 }

// from returns the way from q to p in the frame of package kinematics, whose ŷ
// is to the left and ẑ up.
func (p Point) from(q Point) r3.Vec {
	return r3.Vec{X: p.Along - q.Along, Y: q.Right - p.Right, Z: q.Down - p.Down}
}
