package kinematics

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Shaft is one straight shaft of a driveline.
type Shaft struct {
	// Axis is the direction along the power flow in the driveline frame; its
	// length, from 1e-100 to 1e100, does not matter.
	Axis r3.Vec
	// Phase is how far the driven-end yoke ears are turned, clockwise, from the
	// driving-end ears, in radians. The first and the last shaft have one yoke
	// only: their phase has no meaning and must be zero.
	Phase float64
}

// Joint connects two neighbouring shafts.
type Joint struct {
	Kind Kind
	// Synchronous belongs to a double-cardan joint: the bend, in radians within
	// (0, π/2), at which its centring makes it exactly synchronous. Zero stands
	// for an ideal joint whose coupling yoke bisects every bend.
	Synchronous float64
}

// Driveline is a valid chain of at least two shafts. It is made by New.
type Driveline struct {
	shafts []Shaft
	joints []Joint
	rules  []*rule  // of the kind of joint k
	bends  []bend   // geometry of joint k
	frames []r3.Vec // reference direction e of shaft k, a unit vector

	jointTurns []turn // driving ears of joint k → its driven ears
	phaseTurns []turn // driving-end ears of shaft k → its driven-end ears
	chainTurns []turn // ears of the first shaft → driving-end ears of shaft k
}

// New returns the driveline of the given shafts and joints, in the order of the
// power flow. There is one joint fewer than there are shafts; nil joints stand
// for Cardan joints throughout. Every working angle must be below 90°, and so must
// be that of the joint as which any part of the chain acts from either end.
//
// A wrong count is a plain error, a wrong number a *RangeError.
func New(shafts []Shaft, joints []Joint) (*Driveline, error) {
	if len(shafts) < 2 {
		return nil, fmt.Errorf("driveline: %d shafts: want at least 2", len(shafts))
	}
	n := len(shafts) - 1
	if joints == nil {
		joints = make([]Joint, n)
	}
	if len(joints) != n {
		return nil, fmt.Errorf("driveline: %d joints: want %d, one fewer than the shafts", len(joints), n)
	}
	d := &Driveline{
		shafts:     make([]Shaft, n+1),
		joints:     slices.Clone(joints),
		rules:      make([]*rule, n),
		bends:      make([]bend, n),
		frames:     make([]r3.Vec, n+1),
		jointTurns: make([]turn, n),
		phaseTurns: make([]turn, n+1),
		chainTurns: make([]turn, n+1),
	}
	for k := range d.joints {
		if err := d.joints[k].complete(k); err != nil {
			return nil, err
		}
		d.rules[k] = d.joints[k].rule()
	}
	if err := d.Set(shafts); err != nil {
		return nil, err
	}
	return d, nil
}

// Set gives the driveline other axes and phases in place, without allocating,
// for searches over many arrangements. The number of shafts must be the same.
// After an error the driveline must be Set again before it is used.
func (d *Driveline) Set(shafts []Shaft) error {
	if len(shafts) != len(d.shafts) {
		return fmt.Errorf("driveline: %d shafts: want %d", len(shafts), len(d.shafts))
	}
	copy(d.shafts, shafts)
	for k := range d.shafts {
		if err := d.checkShaft(k); err != nil {
			return err
		}
		d.phaseTurns[k] = phaseTurn(d.shafts[k].Phase)
	}
	d.frames[0] = levelAcross(d.shafts[0].Axis)
	d.chainTurns[0] = identity
	cosines := 1.0
	for k := range d.joints {
		b := newBend(d.shafts[k].Axis, d.shafts[k+1].Axis, d.frames[k])
		if !(b.cos > steepest) {
			return &RangeError{fmt.Sprintf("joints[%d] working angle", k), b.angle() / Degree, "deg", "below 90"}
		}
		d.bends[k] = b
		d.jointTurns[k] = d.rules[k].turn(d.joints[k], b)
		d.chainTurns[k+1] = d.chainTurns[k].then(d.phaseTurns[k]).then(d.jointTurns[k])
		d.frames[k+1] = b.transport(d.frames[k])
		cosines *= d.jointTurns[k].det
	}
	if cosines > steepest {
		return nil // no part of the chain is steeper than all joints added up
	}
	return d.checkChain()
}

// Len returns the number of shafts.
func (d *Driveline) Len() int { return len(d.shafts) }

// Shafts returns a copy of the shafts, in the order of the power flow.
func (d *Driveline) Shafts() []Shaft { return slices.Clone(d.shafts) }

// Joints returns a copy of the joints, in the order of the power flow.
func (d *Driveline) Joints() []Joint { return slices.Clone(d.joints) }

// steepest is the least cosine of a working angle that counts as below 90°. At
// exactly 90° rounding leaves a cosine of 1e-16 of either sign.
const steepest = 1e-12

// Axes within these lengths can be multiplied without over- or underflow.
const (
	shortest = 1e-100
	longest  = 1e100
)

// complete checks the joint, which is number k, and names its kind.
func (j *Joint) complete(k int) error {
	if j.Kind == "" {
		j.Kind = Cardan
	}
	if !slices.Contains(Kinds, j.Kind) {
		return fmt.Errorf("joints[%d].Kind: %q: want one of %q", k, j.Kind, Kinds)
	}
	if j.Kind != DoubleCardan && j.Synchronous != 0 {
		return fmt.Errorf("joints[%d].Synchronous: only a %s joint has one, this is %s", k, DoubleCardan, j.Kind)
	}
	if !(j.Synchronous >= 0 && j.Synchronous < math.Pi/2) {
		return &RangeError{fmt.Sprintf("joints[%d].Synchronous", k), j.Synchronous / Degree, "deg", "0 (ideal), or a bend between 0 and 90"}
	}
	return nil
}

// checkChain checks that no part of the chain acts as a joint of 90°, which it
// can only where the cosines of its joints multiply to nothing.
func (d *Driveline) checkChain() error {
	for _, motions := range [][]Motion{d.Driving(nil), d.Coasting(nil)} {
		for k, m := range motions {
			if !(m.cos > steepest) {
				return &RangeError{fmt.Sprintf("shafts[%d] equivalent angle", k), m.Angle() / Degree, "deg", "below 90"}
			}
		}
	}
	return nil
}

func (d *Driveline) checkShaft(k int) error {
	s := d.shafts[k]
	if length := norm(s.Axis); !(length >= shortest && length <= longest) {
		return &RangeError{fmt.Sprintf("shafts[%d].Axis length", k), r3.Norm(s.Axis), "", "1e-100 to 1e100"}
	}
	if !finite(s.Phase) {
		return &RangeError{fmt.Sprintf("shafts[%d].Phase", k), s.Phase / Degree, "deg", "a finite angle"}
	}
	if end := k == 0 || k == len(d.shafts)-1; end && s.Phase != 0 {
		return &RangeError{fmt.Sprintf("shafts[%d].Phase", k), s.Phase / Degree, "deg", "0: only a shaft between two joints has a phase"}
	}
	return nil
}
