package kinematics_test

import (
	"errors"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// supported returns random supports of n shafts: centre bearings on all between two
// joints but one.
func supported(rnd *rand.Rand, n int) (supports []kinematics.Support, free int) {
	supports = make([]kinematics.Support, n)
	free = -1
	if n > 2 {
		free = 1 + rnd.IntN(n-2)
	}
	for k := 1; k < n-1; k++ {
		length := 0.4 + rnd.Float64()
		supports[k] = kinematics.Support{Length: length, Held: k != free, Bearing: length * (0.2 + 0.6*rnd.Float64())}
	}
	return supports, free
}

func mustForces(t testing.TB, d *kinematics.Driveline, torque float64, supports []kinematics.Support) *kinematics.Forces {
	t.Helper()
	f, err := d.Forces(torque, supports)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// All unknown forces at once, from the balance of all shafts: no recursion, no shaft
// before another, no complex number.
func TestForcesAreThoseOfStatics(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range 300 {
		shafts := randomShafts(rnd)
		supports, free := supported(rnd, len(shafts))
		if free < 0 {
			continue
		}
		d := mustNew(t, shafts, nil)
		theta := rnd.Float64() * 2 * math.Pi
		joints, bearings := statics(t, d, supports, free, theta)
		f := mustForces(t, d, 1, supports)
		if f.Free != free || len(f.Bearings) != len(shafts)-3 {
			t.Fatalf("free shaft %d and %d bearings, want %d and %d", f.Free, len(f.Bearings), free, len(shafts)-3)
		}
		largest := 0.0
		for _, v := range joints {
			largest = max(largest, r3.Norm(v))
		}
		tol := 1e-12 * (1 + largest) // of a linear system of up to 31 equations
		for k, want := range joints {
			if got := f.Joints[k].At(theta); r3.Norm(r3.Sub(got, want)) > tol {
				t.Errorf("joint %d at %v rad: got %v, want %v", k, theta, got, want)
			}
		}
		for _, b := range f.Bearings {
			if got, want := b.Force.At(theta), bearings[b.Shaft]; r3.Norm(r3.Sub(got, want)) > tol {
				t.Errorf("bearing of shaft %d at %v rad: got %v, want %v", b.Shaft, theta, got, want)
			}
		}
	}
}

// statics solves for the forces of the joints and, by shaft, on the centre bearings,
// for a torque of 1 on the first shaft.
func statics(t *testing.T, d *kinematics.Driveline, supports []kinematics.Support, free int, theta float64) (joints []r3.Vec, bearings map[int]r3.Vec) {
	t.Helper()
	shafts, driving := d.Shafts(), d.Driving(nil)
	n := len(shafts)
	unknowns := 3*(n-1) + 2*(n-3)
	a, rhs := mat.NewDense(unknowns, unknowns, nil), mat.NewVecDense(unknowns, nil)
	row := 0
	axes := [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}
	// put adds to the present row what an unknown force counts in it: its part along
	// v, which starts at a column.
	put := func(column int, v r3.Vec) {
		for i, x := range [3]float64{v.X, v.Y, v.Z} {
			a.Set(row, column+i, a.At(row, column+i)+x)
		}
	}
	sides := map[int][2]r3.Vec{} // across a shaft with a bearing
	column := map[int]int{}      // of its bearing
	next := 3 * (n - 1)
	for k := 1; k < n-1; k++ {
		u := r3.Unit(shafts[k].Axis)
		first := r3.Unit(r3.Cross(u, r3.Vec{X: 0.3, Y: 0.5, Z: 0.8}))
		sides[k] = [2]r3.Vec{first, r3.Cross(u, first)}
		if k != free {
			column[k] = next
			next += 2
		}
	}
	for k := 1; k < n-1; k++ {
		u := r3.Unit(shafts[k].Axis)
		s := supports[k]
		for _, e := range axes { // forces
			put(3*(k-1), e)
			put(3*k, r3.Scale(-1, e))
			if k != free {
				for i, side := range sides[k] {
					a.Set(row, column[k]+i, r3.Dot(side, e))
				}
			}
			row++
		}
		brought := crossCouple(d, k-1, 1/driving[k-1].At(theta).Ratio, theta)
		taken := crossCouple(d, k, 1/driving[k].At(theta).Ratio, theta)
		for _, e := range sides[k] { // moments about the joint before: r × F·e = F·(e × r)
			put(3*k, r3.Scale(-s.Length, r3.Cross(e, u)))
			if k != free {
				for i, side := range sides[k] {
					a.Set(row, column[k]+i, s.Bearing*r3.Dot(r3.Cross(u, side), e))
				}
			}
			rhs.SetVec(row, -r3.Dot(r3.Sub(brought, taken), e))
			row++
		}
	}
	put(3*free, r3.Unit(shafts[free].Axis)) // the slip
	row++
	if row != unknowns {
		t.Fatalf("%d equations for %d unknowns", row, unknowns)
	}
	var x mat.VecDense
	if err := x.SolveVec(a, rhs); err != nil {
		t.Fatal(err)
	}
	for k := range n - 1 {
		joints = append(joints, r3.Vec{X: x.AtVec(3 * k), Y: x.AtVec(3*k + 1), Z: x.AtVec(3*k + 2)})
	}
	bearings = map[int]r3.Vec{}
	for k, c := range column {
		onShaft := r3.Add(r3.Scale(x.AtVec(c), sides[k][0]), r3.Scale(x.AtVec(c+1), sides[k][1]))
		bearings[k] = r3.Scale(-1, onShaft)
	}
	return joints, bearings
}

// One-piece drivelines: with its ends parallel the shaft is not loaded across, with
// mirrored ends its ends bear 0 to 2·T·sin β/L, though both turn evenly.
func TestForcesOfOnePiece(t *testing.T) {
	t.Parallel()
	const torque, length = 1000.0, 1.25
	supports := []kinematics.Support{{}, {Length: length}, {}}
	for _, beta := range []float64{2, 10, 30} {
		parallel := mustForces(t, mustNew(t, inPlane(3, 3+beta, 3), nil), torque, supports)
		if got := parallel.Joints[0].Peak(); got > 1e-13*torque {
			t.Errorf("ends parallel, %v deg: %v at the ends, want nothing", beta, got)
		}
		mirrored := mustForces(t, mustNew(t, inPlane(0, beta, 2*beta), nil), torque, supports)
		if got, want := mirrored.Joints[1].Peak(), 2*torque*math.Sin(beta*deg)/length; math.Abs(got/want-1) > 1e-14 {
			t.Errorf("ends mirrored, %v deg: %v at the ends, want %v", beta, got, want)
		}
		if mirrored.Joints[0] != mirrored.Joints[1] || mirrored.Free != 1 || len(mirrored.Bearings) != 0 {
			t.Errorf("ends mirrored, %v deg: got %+v, want shaft 1 free and the same at both ends", beta, mirrored)
		}
	}
}

// twoPiece are the supports of two shafts of 1 m with the bearing at the centre joint.
var twoPiece = []kinematics.Support{{}, {Length: 1, Held: true, Bearing: 1}, {Length: 1}, {}}

// A line whose speeds cancel can shake its bearing, and the other way round.
func TestBearingOfTwoPieces(t *testing.T) {
	t.Parallel()
	const torque = 1000.0
	cv := kinematics.Joint{Kind: kinematics.ConstantVelocity}
	clocked := func(phase float64) []kinematics.Shaft {
		shafts := inPlane(0, 3, 7, 2) // bent by 3°, 4° and −5°
		shafts[1].Phase = phase * deg
		return shafts
	}
	for _, test := range []struct {
		name   string
		shafts []kinematics.Shaft
		joints []kinematics.Joint
		swing  float64
		left   float64 // deg
	}{
		// To first order T·|D₁ + r·D₂|/2d with D the bends before and behind a shaft
		// added up: 3° and 3 − 3 = 0.
		{"straight, then 3 deg up and down", inPlane(0, 0, 3, 0), nil, 26.2, 0},
		{"a constant-velocity joint at the centre", inPlane(0, 0, 3, 0), []kinematics.Joint{{}, cv, {}}, 26.2, 3},
		{"constant-velocity joints at both ends of the rear shaft", inPlane(0, 0, 3, 0), []kinematics.Joint{{}, cv, cv}, 0, 0},
		{"parallel ends of both shafts", inPlane(2, 5, 2, 5), nil, 0, 3},
		{"3, 4, -5 deg, the front shaft clocked", clocked(90), nil, 0.1, 0.12},
		{"3, 4, -5 deg in phase", clocked(0), nil, 52.4, 4.24},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d := mustNew(t, test.shafts, test.joints)
			got, err := d.BearingSwing(torque, twoPiece)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(got-test.swing) > 0.005*test.swing+0.01 { // the first order is that near
				t.Errorf("the bearing swings by %v N, want %v", got, test.swing)
			}
			if left := last(d.Driving(nil)).Angle() / deg; math.Abs(left-test.left) > 0.005 {
				t.Errorf("as one joint at %v deg is left, want %v", left, test.left)
			}
		})
	}
}

// To first order in the angles, whatever the phases: with δ the bends of the joints
// as complex numbers and E = e^{2jψ} of the shafts,
//
//	swing = (T/2d)·|δ̄₀ + δ̄₁E₁ + (L₁/L₂)·E₁·(δ̄₁ + δ̄₂E₂)|
func TestBearingSwingToFirstOrder(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range 300 {
		const small = 1e-3 // rad
		shafts := make([]kinematics.Shaft, 4)
		for k := range shafts {
			shafts[k].Axis = kinematics.AxisFromSlopes(small*rnd.NormFloat64(), small*rnd.NormFloat64())
		}
		turned := [2]complex128{}
		for k := range turned {
			shafts[k+1].Phase = rnd.Float64() * math.Pi
			sin, cos := math.Sincos(2 * shafts[k+1].Phase)
			turned[k] = complex(cos, sin)
		}
		supports, _ := supported(rnd, 4)
		supports[1].Held, supports[2].Held = true, false
		bends := [3]complex128{} // conjugate: to the left and up
		for k := range bends {
			before, behind := shafts[k].Axis, shafts[k+1].Axis
			bends[k] = complex(behind.Y-before.Y, before.Z-behind.Z)
		}
		r := complex(supports[1].Length/supports[2].Length, 0)
		sum := bends[0] + bends[1]*turned[0] + r*turned[0]*(bends[1]+bends[2]*turned[1])
		want := math.Hypot(real(sum), imag(sum)) / (2 * supports[1].Bearing)
		d := mustNew(t, shafts, nil)
		got, err := d.BearingSwing(1, supports)
		if err != nil || math.Abs(got-want) > 1e-4*small/supports[1].Bearing {
			t.Fatalf("swing %v (%v), to first order %v", got, err, want)
		}
		f := mustForces(t, d, 1, supports).Bearings[0].Force
		if side, up := f.Right().Swing(), f.Down().Swing(); math.Abs(side-up) > 1e-4*small/supports[1].Bearing {
			t.Errorf("swing of %v sideways and %v up and down, want the same", side, up)
		}
		vectors, err := d.BearingSwings(nil, 1, supports)
		atZero := complex(f.Right().Cos, f.Down().Cos) // hardly anything turns backward
		if err != nil || cmplx.Abs(vectors[0]-atZero) > 1e-4*small/supports[1].Bearing {
			t.Errorf("swing %v (%v), want %v", vectors, err, atZero)
		}
	}
}

// A swing as a vector is as long as that of the force.
func TestBearingSwingsAsVectors(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		d := mustNew(t, shafts, randomJoints(rnd, len(shafts)-1))
		supports, _ := supported(rnd, len(shafts))
		swings, err := d.BearingSwings(nil, 300, supports)
		if err != nil {
			t.Fatal(err)
		}
		bearings := mustForces(t, d, 300, supports).Bearings
		if len(swings) != len(bearings) {
			t.Fatalf("%d swings of %d bearings", len(swings), len(bearings))
		}
		for i, b := range bearings {
			swing := b.Force.Swing()
			if got := cmplx.Abs(swings[i]); math.Abs(got-swing) > 1e-12*swing {
				t.Errorf("bearing %d: a vector of %v N, want %v N", i, got, swing)
			}
		}
	})
}

func TestForcesScale(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		d := mustNew(t, shafts, randomJoints(rnd, len(shafts)-1))
		supports, _ := supported(rnd, len(shafts))
		one := mustForces(t, d, 1, supports)
		swing, err := d.BearingSwing(-200, supports)
		if err != nil {
			t.Fatal(err)
		}
		for k := range supports {
			supports[k].Length *= 1000
			supports[k].Bearing *= 1000
		}
		other := mustForces(t, d, -200, supports) // coasting, in N·m and mm
		want := 0.0
		for i, b := range one.Bearings {
			want = max(want, 200*b.Force.Swing())
			if got := other.Bearings[i].Force.At(1); r3.Norm(r3.Add(r3.Scale(5, got), b.Force.At(1))) > 1e-12*(1+b.Force.Peak()) {
				t.Errorf("bearing %d: got %v, want −1/5 of %v", i, got, b.Force.At(1))
			}
		}
		if math.Abs(swing-want) > 1e-12*(1+want) {
			t.Errorf("swing %v, want the greatest of the bearings, %v", swing, want)
		}
	})
}

func TestForcesNeedSupports(t *testing.T) {
	t.Parallel()
	held := kinematics.Support{Length: 1, Held: true, Bearing: 0.5}
	at := func(bearing float64) kinematics.Support {
		return kinematics.Support{Length: 1, Held: true, Bearing: bearing}
	}
	free, end := kinematics.Support{Length: 1}, kinematics.Support{}
	for _, test := range []struct {
		name     string
		supports []kinematics.Support
		want     string
		is       error
		shaft    int
	}{
		{"too few", []kinematics.Support{end, free, end}, "driveline: 3 supports: want 5, one for each shaft", nil, 0},
		{"no length", []kinematics.Support{end, held, {Held: true}, free, end}, "", kinematics.ErrNoLength, 2},
		{"all held", []kinematics.Support{end, held, held, held, end}, "", kinematics.ErrNoFreeShaft, 3},
		{"two free", []kinematics.Support{end, free, held, free, end}, "", kinematics.ErrManyFreeShafts, 3},
		{"at the joint before", []kinematics.Support{end, held, at(0), free, end}, "", kinematics.ErrBearingAtJoint, 2},
		{"at the joint behind", []kinematics.Support{end, free, held, at(1), end}, "", kinematics.ErrBearingAtJoint, 3},
		{"negative length", []kinematics.Support{end, {Length: -1}, held, held, end}, "supports[1].Length: -1: want a length above 0", nil, 0},
		{"infinite length", []kinematics.Support{end, {Length: math.Inf(1)}, held, held, end}, "supports[1].Length: +Inf: want a length above 0", nil, 0},
		{"beside the shaft", []kinematics.Support{end, free, at(1.5), held, end}, "supports[2].Bearing: 1.5: want 0 to the length of the shaft, 1", nil, 0},
		{"NaN", []kinematics.Support{end, free, at(math.NaN()), held, end}, "supports[2].Bearing: NaN: want 0 to the length of the shaft, 1", nil, 0},
		{"at the joints of the free shaft", []kinematics.Support{end, at(1), free, at(0), end}, "", nil, 0},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			d := mustNew(t, inPlane(0, 2, 3, 1, 4), nil)
			f, err := d.Forces(1, test.supports)
			if _, err2 := d.BearingSwing(1, test.supports); (err == nil) != (err2 == nil) {
				t.Errorf("forces: error %v, swing: error %v", err, err2)
			}
			switch open, ok := errors.AsType[*kinematics.SupportError](err); {
			case test.is != nil:
				if !errors.Is(err, test.is) || !ok || open.Shaft != test.shaft {
					t.Errorf("got error %v, want that of shaft %d: %v", err, test.shaft, test.is)
				}
			case test.want != "":
				if err == nil || err.Error() != test.want {
					t.Errorf("got error %v, want %q", err, test.want)
				}
			case err != nil || f == nil:
				t.Errorf("got error %v, want none", err)
			}
			if err != nil && f != nil {
				t.Error("got forces beside the error")
			}
		})
	}
}

func TestForceOfASingleJointIsLeftOut(t *testing.T) {
	t.Parallel()
	f := mustForces(t, mustNew(t, inPlane(0, 20), nil), 100, make([]kinematics.Support, 2))
	if f.Free != -1 || len(f.Bearings) != 0 || len(f.Joints) != 1 || f.Joints[0] != (kinematics.Load{}) {
		t.Errorf("got %+v, want no force and no free shaft", f)
	}
}

func TestBearingSwingDoesNotAllocate(t *testing.T) {
	d := mustNew(t, uneven(7), nil)
	supports, _ := supported(rand.New(rand.NewPCG(1, 1)), 8)
	if n := testing.AllocsPerRun(10, func() {
		if _, err := d.BearingSwing(1, supports); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("got %v allocations, want none", n)
	}
}
