package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/kinematics"
)

// drivelines is how many random drivelines each invariant is tried on.
const drivelines = 2000

// randomShafts returns 2 to 8 shafts in space whose joints bend by up to some
// 45°, with random phases; about one joint in eight is nearly or exactly straight.
func randomShafts(rnd *rand.Rand) []kinematics.Shaft {
	shafts := make([]kinematics.Shaft, 2+rnd.IntN(7))
	down, right := 0.0, 0.0
	for k := range shafts {
		switch rnd.IntN(16) {
		case 0: // straight on
		case 1:
			down += 1e-6 * rnd.NormFloat64() * deg
		default:
			down, right = (rnd.Float64()-0.5)*40*deg, (rnd.Float64()-0.5)*40*deg
		}
		shafts[k].Axis = kinematics.AxisFromSlopes(down, right)
		if k > 0 && k < len(shafts)-1 && rnd.IntN(3) > 0 {
			shafts[k].Phase = (rnd.Float64() - 0.5) * math.Pi
		}
	}
	return shafts
}

// randomJoints returns n joints of every kind, every second of them a Cardan joint.
func randomJoints(rnd *rand.Rand, n int) []kinematics.Joint {
	joints := make([]kinematics.Joint, n)
	for k := range joints {
		switch rnd.IntN(8) {
		case 0:
			joints[k].Kind = kinematics.ConstantVelocity
		case 1:
			joints[k].Kind = kinematics.DoubleCardan
		case 2, 3:
			joints[k] = kinematics.Joint{Kind: kinematics.DoubleCardan, Synchronous: (1 + 44*rnd.Float64()) * deg}
		}
	}
	return joints
}

// forRandom calls f with random drivelines from a fixed seed.
func forRandom(t *testing.T, f func(t *testing.T, rnd *rand.Rand, shafts []kinematics.Shaft)) {
	t.Helper()
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 1))
	for range drivelines {
		f(t, rnd, randomShafts(rnd))
		if t.Failed() {
			return
		}
	}
}
