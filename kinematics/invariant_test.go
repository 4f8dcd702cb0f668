package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
)

// near reports whether two motions are the same up to a turn of the zero of θ
// by offset. The tolerance covers rounding of up to eight joints, some 1e-16
// each, times the slope of the curves.
func near(t *testing.T, what string, got, want kinematics.Motion, offset float64) {
	t.Helper()
	const tol = 2e-14
	for theta := 0.1; theta < math.Pi; theta += 0.5 {
		g, w := got.At(theta), want.At(theta+offset)
		scale := 1 + want.PeakAccel()
		if math.Abs(g.Lead-w.Lead) > tol || math.Abs(g.Ratio-w.Ratio) > tol*w.Ratio*scale || math.Abs(g.Accel-w.Accel) > tol*scale*scale {
			t.Errorf("%s at %v rad: got %+v, want %+v", what, theta, g, w)
			return
		}
	}
}

func TestMeanRatioIsOne(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		d := mustNew(t, shafts, randomJoints(rnd, len(shafts)-1))
		for name, motions := range map[string][]kinematics.Motion{"driving": d.Driving(nil), "coasting": d.Coasting(nil)} {
			for k, m := range motions {
				// The sampled mean has an alias from order n on.
				n := 24
				for 2*math.Pow(m.SecondOrder(), float64(n/2)) > 1e-17 {
					n *= 2
				}
				ratio := sample(t, n, []kinematics.Motion{m}).Shafts[0].Ratio
				if mean := floats.Sum(ratio) / float64(n); math.Abs(mean-kinematics.MeanRatio) > 1e-14 {
					t.Errorf("%s, shaft %d: mean ratio %v, want 1", name, k+1, mean)
				}
			}
		}
	})
}

// Coasting undoes driving: at the same position of the driveline the ratio of
// two shafts is the same whichever of the ends turns uniformly.
func TestCoastingIsTheInverse(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		d := mustNew(t, shafts, randomJoints(rnd, len(shafts)-1))
		driving, coasting := d.Driving(nil), d.Coasting(nil)
		n := len(shafts) - 1
		level := r3.Unit(r3.Vec{X: -shafts[n].Axis.Y, Y: shafts[n].Axis.X})
		theta := rnd.Float64() * 2 * math.Pi
		ears, _ := d.Ears(n, theta)
		axis := r3.Unit(shafts[n].Axis)
		thetaLast := math.Atan2(r3.Dot(r3.Cross(level, ears), axis), r3.Dot(level, ears))
		last := driving[n].At(theta).Ratio
		for k := range shafts {
			got := coasting[k].At(thetaLast).Ratio
			want := driving[k].At(theta).Ratio / last
			if math.Abs(got/want-1) > 1e-13 { // ratios change by up to 20 per radian
				t.Errorf("shaft %d: ratio to the last shaft %v coasting, %v driving", k+1, got, want)
			}
		}
	})
}

// Coasting is driving the reversed chain: shafts in the opposite order, axes
// turned round. Someone who looks the other way sees the rotation reversed.
func TestCoastingIsTheReversedChain(t *testing.T) {
	forRandom(t, func(t *testing.T, _ *rand.Rand, shafts []kinematics.Shaft) {
		n := len(shafts)
		reversed := make([]kinematics.Shaft, n)
		for k, s := range shafts {
			reversed[n-1-k] = kinematics.Shaft{Axis: r3.Scale(-1, s.Axis), Phase: s.Phase}
		}
		coasting := mustNew(t, shafts, nil).Coasting(nil)
		driving := mustNew(t, reversed, nil).Driving(nil)
		for k := range shafts {
			got, want := coasting[k].At(0.6), driving[n-1-k].At(-0.6)
			if math.Abs(got.Ratio/want.Ratio-1) > 1e-13 || math.Abs(got.Lead+want.Lead) > 1e-13 {
				t.Errorf("shaft %d: got %+v, want %+v with the lead's sign changed", k+1, got, want)
			}
		}
	})
}

func TestTurningTheWholeDrivelineChangesNothing(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		joints := randomJoints(rnd, len(shafts)-1)
		before := mustNew(t, shafts, joints)
		rotation := r3.NewRotation(rnd.Float64()*2, r3.Unit(r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()}))
		turned := make([]kinematics.Shaft, len(shafts))
		for k, s := range shafts {
			turned[k] = kinematics.Shaft{Axis: rotation.Rotate(s.Axis), Phase: s.Phase}
		}
		after := mustNew(t, turned, joints)
		// Only the ears' level position, the zero of θ, moves.
		old, _ := before.Ears(0, 0)
		zero, _ := after.Ears(0, 0)
		old = rotation.Rotate(old)
		axis := r3.Unit(turned[0].Axis)
		offset := math.Atan2(r3.Dot(r3.Cross(old, zero), axis), r3.Dot(old, zero))
		want, got := before.Driving(nil), after.Driving(nil)
		for k := range want {
			near(t, "turned", got[k], want[k], offset)
		}
	})
}

// Only the direction of an axis counts, whatever its length beside that of others.
func TestLengthOfAnAxisChangesNothing(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		joints := randomJoints(rnd, len(shafts)-1)
		want := mustNew(t, shafts, joints).Driving(nil)
		for k := range shafts {
			shafts[k].Axis = r3.Scale(math.Pow(10, 198*rnd.Float64()-99), shafts[k].Axis)
		}
		got := mustNew(t, shafts, joints).Driving(nil)
		for k := range want {
			near(t, "with axes of other lengths", got[k], want[k], 0)
		}
	})
}

// Seen in a mirror that swaps left and right the driveline turns the other way
// and its phases change sign.
func TestMirror(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		mirrored := make([]kinematics.Shaft, len(shafts))
		for k, s := range shafts {
			mirrored[k] = kinematics.Shaft{Axis: r3.Vec{X: s.Axis.X, Y: -s.Axis.Y, Z: s.Axis.Z}, Phase: -s.Phase}
		}
		joints := randomJoints(rnd, len(shafts)-1)
		want, got := mustNew(t, shafts, joints).Driving(nil), mustNew(t, mirrored, joints).Driving(nil)
		for k := range want {
			g, w := got[k].At(-0.8), want[k].At(0.8)
			if math.Abs(g.Lead+w.Lead) > 1e-14 || math.Abs(g.Ratio/w.Ratio-1) > 1e-13 {
				t.Errorf("shaft %d: got %+v, want %+v with the lead's sign changed", k+1, g, w)
			}
		}
	})
}

func TestPhaseRepeatsAfterHalfATurn(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		joints := randomJoints(rnd, len(shafts)-1)
		want := last(mustNew(t, shafts, joints).Driving(nil))
		for k := 1; k < len(shafts)-1; k++ {
			shafts[k].Phase += math.Pi * float64(1-2*rnd.IntN(2))
		}
		near(t, "half a turn on", last(mustNew(t, shafts, joints).Driving(nil)), want, 0)
	})
}

// A straight joint passes the rotation on; its cross only sets the ears a
// quarter turn on, which the phase of the shaft behind it makes up for.
func TestStraightShaftLeavesTheRest(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		want := last(mustNew(t, shafts, nil).Driving(nil))
		k := rnd.IntN(len(shafts) - 1)
		longer := append([]kinematics.Shaft(nil), shafts[:k+1]...)
		straight := kinematics.Shaft{Axis: shafts[k].Axis, Phase: math.Pi / 2}
		if k > 0 {
			longer[k].Phase, straight.Phase = 0, shafts[k].Phase-math.Pi/2
		}
		longer = append(append(longer, straight), shafts[k+1:]...)
		near(t, "with a straight shaft", last(mustNew(t, longer, nil).Driving(nil)), want, 0)
	})
}

func TestEqualPairInOnePlaneCancels(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range drivelines {
		end, bend := (rnd.Float64()-0.5)*20, (rnd.Float64()-0.5)*90
		left := last(mustNew(t, inPlane(end, end+bend, end), nil).Driving(nil))
		// tan²(β/2) of both joints is below 0.18 and known to some 1e-16 of it.
		if left.SecondOrder() > 1e-16 {
			t.Errorf("ends at %v deg, shaft at %v: %v rad is left", end, end+bend, left.SecondOrder())
		}
	}
}

// The closed form of the best phase must beat every phase of a fine grid, and
// be reached by the grid to the grid's own fineness.
func TestBestPhaseBeatsAGrid(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		shafts := randomShafts(rnd)
		if len(shafts) < 3 {
			continue
		}
		k := 1 + rnd.IntN(len(shafts)-2)
		joints := randomJoints(rnd, len(shafts)-1)
		best, err := mustNew(t, shafts, joints).BestPhase(k)
		if err != nil {
			t.Fatal(err)
		}
		const steps = 720
		least := math.Inf(1)
		for i := range steps {
			shafts[k].Phase = math.Pi * float64(i) / steps
			least = math.Min(least, last(mustNew(t, shafts, joints).Driving(nil)).SecondOrder())
		}
		got := best.Left.SecondOrder()
		if got > least+1e-15 {
			t.Fatalf("best phase leaves %v rad, a grid finds %v", got, least)
		}
		// Half a grid step is 0.125°; the second order turns by twice that.
		if least-got > 2*math.Pi/steps {
			t.Fatalf("best phase leaves %v rad, a fine grid comes no nearer than %v", got, least)
		}
		shafts[k].Phase = best.Phase
		near(t, "best phase", last(mustNew(t, shafts, joints).Driving(nil)), best.Left, 0)
	}
}

// The small-angle sum is right to first order in β², whatever the joints: what it
// misses of the second order is of the order of β⁴.
func TestFirstOrderSumApproachesTheExact(t *testing.T) {
	forRandom(t, func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft) {
		for k := range shafts {
			shafts[k].Axis = kinematics.AxisFromSlopes((rnd.Float64()-0.5)*deg, (rnd.Float64()-0.5)*deg)
		}
		d := mustNew(t, shafts, randomJoints(rnd, len(shafts)-1))
		bent := 0.0
		for k := range shafts[1:] {
			bent += d.WorkingAngle(k) * d.WorkingAngle(k)
		}
		got, want := d.SecondOrder().Equivalent, 2*math.Sqrt(last(d.Driving(nil)).SecondOrder())
		if off := math.Abs(got*got - want*want); off > bent*bent {
			t.Errorf("sum of %v rad², the exact amplitude stands for %v: off by %.1e of %v", got*got, want*want, off, bent)
		}
	})
}
